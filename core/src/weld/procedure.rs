//! How a tank is welded, in the SI units of the simulation.

use super::options::PlanOptions;
use crate::heat::shell::Material;
use crate::tank::Tank;
use crate::units::Ratio;

/// Power, travel, limit and moves. Temperatures are in K over the surroundings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Procedure {
    /// Heat that the sheets receive while the arc burns, in W.
    pub(super) power: f64,
    /// Speed of the arc along the seam, in m/s.
    pub(super) travel: f64,
    /// The warmest that the metal may be where a stitch starts, in K over the surroundings.
    pub(super) limit: f64,
    /// Time from one stitch to the next, in s.
    pub(super) moving: f64,
    /// Whether each stitch of a seam is welded towards the one before it.
    pub(super) back_step: bool,
    /// Share of any ten minutes for which the arc may burn; `None` where nothing is known of power source and torch.
    pub(super) arc_share: Option<f64>,
}

impl Procedure {
    /// A place to write to.
    pub(super) const NONE: Self = Self {
        power: 0.0,
        travel: 0.0,
        limit: 0.0,
        moving: 0.0,
        back_step: false,
        arc_share: None,
    };

    /// The procedure of a tank, with the share of the arc's power that its job says the metal takes up.
    pub(super) fn of(tank: &Tank, options: &PlanOptions) -> Self {
        Self::with_uptake(tank, options, tank.job().welding().uptake)
    }

    /// The procedure of a tank, with another share of the arc's power taken up.
    pub(super) fn with_uptake(tank: &Tank, options: &PlanOptions, uptake: Ratio) -> Self {
        let welding = tank.job().welding();
        let arc = tank.arc();
        Self {
            power: arc.power().si() * uptake.si(),
            travel: arc.travel.si(),
            limit: options.interpass_of(tank).si() - welding.ambient.si(),
            moving: welding.moving.si(),
            back_step: welding.back_step,
            arc_share: options.arc_share.map(|limit| limit.share.si()),
        }
    }
}

/// What the sheets of a tank are made of, as far as their heat asks.
pub(super) fn material(tank: &Tank) -> Material {
    let job = tank.job();
    Material::of(job.alloy(), job.temper(), tank.emissivity().si())
}
