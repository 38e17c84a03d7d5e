//! How much the tank holds: to the brim, to the fill mark, and of that what can be drawn.
//!
//! Levels are measured along up from the lowest inside point, whatever the lean.

mod calibrate;
mod depth_marks;
mod dip;
mod expansion;
mod lean;
mod leans;
mod openings;
mod pool;
mod round_step;
mod scale;
mod solve;
#[cfg(test)]
mod solve_tests;
mod stick;
mod touch;
mod usable;

pub use calibrate::{
    CalibrateError, Calibrated, Calibration, LEAST_POURS, MOST_POURS, Pair, Pour, calibrate,
};
pub use depth_marks::MAX_DEPTH_STEPS;
pub use dip::{Dip, DipError, Dipped, MAX_DIPS};
pub use expansion::{Expansion, ExpansionError, Outcome, Warming, linear_expansion};
pub use lean::Lean;
pub use leans::LeanRange;
pub use openings::{Marks, OpeningError};
pub use pool::{Level, Pool, Space};
pub use round_step::round_step;
pub use scale::{DipScale, DipStep, PourError, PourFit};
pub use solve::{MOST_EVALUATIONS, NEARNESS, Sample, SolveError, solve, solve_from};
pub use stick::{Stick, StickError};
pub use usable::{Drawing, FillTo, MAX_PICK_UPS, Usable, UsableError, WorstUsable};

use crate::input::Measure;
use crate::units::range::{Limit, OutOfRange, Value};
use crate::units::{Length, Ratio, Volume};

/// Why a tank has no capacity as it is described.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum CapacityError {
    /// The pick-up is not below the fill mark.
    PickUp(OutOfRange),
    /// The neck ends above the brim, or below the lowest point.
    Neck(OutOfRange),
}

/// What a level tank holds.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Capacity {
    /// All that it holds.
    pub brim: Volume,
    /// Up to the fill mark: the brim less the headspace, or to the neck where that ends lower.
    pub fill: Volume,
    /// Between the pick-up and the fill mark.
    pub usable: Volume,
    /// Depth of the fill mark.
    pub fill_depth: Length,
    /// Depth at which the tank is full.
    pub full_depth: Length,
    /// Depth below which nothing is drawn.
    pub pick_up: Length,
}

impl Capacity {
    /// A place for a capacity that is about to be computed.
    pub(crate) const NONE: Self = Self {
        brim: Volume::from_cubic_metres(0.0),
        fill: Volume::from_cubic_metres(0.0),
        usable: Volume::from_cubic_metres(0.0),
        fill_depth: Length::from_metres(0.0),
        full_depth: Length::from_metres(0.0),
        pick_up: Length::from_metres(0.0),
    };

    /// The capacity of a space that stands level, with a share of it kept as headspace, no liquid above
    /// the lower edge of the fill neck where one is given, and nothing drawn from below `pick_up`.
    ///
    /// # Errors
    /// [`CapacityError`] where the pick-up is not below the fill mark, or the neck not within the tank.
    /// The share must be in 0 ≤ s < 1.
    pub fn level<'a>(
        space: impl Into<Space<'a>>,
        headspace: Ratio,
        neck: Option<Length>,
        pick_up: Length,
    ) -> Result<Self, CapacityError> {
        let pool = Pool::new(space, Lean::LEVEL);
        let brim = pool.brim();
        let by_share = Volume::from_cubic_metres(brim.si() * (1.0 - headspace.si()));
        let mut fill = by_share;
        let mut fill_depth = pool.depth_for(fill).map_err(CapacityError::PickUp)?;
        if let Some(neck) = neck {
            let held = pool.at(neck).map_err(CapacityError::Neck)?.volume;
            if held < by_share {
                fill = held;
                fill_depth = neck;
            }
        }
        if !(pick_up < fill_depth) {
            return Err(CapacityError::PickUp(OutOfRange {
                value: Value::Length(pick_up),
                limit: Limit::Below(Value::Length(fill_depth)),
            }));
        }
        let dead = pool.at(pick_up).map_err(CapacityError::PickUp)?.volume;
        let usable = Volume::from_cubic_metres(fill.si() - dead.si());
        Ok(Self {
            brim,
            fill,
            usable,
            fill_depth,
            full_depth: pool.full_depth(),
            pick_up,
        })
    }

    /// Whether it holds as much by a measure as was asked for.
    #[must_use]
    pub fn meets(&self, measure: Measure, target: Volume) -> bool {
        self.of(measure) >= target
    }

    /// The share of all that it holds that a volume is.
    #[must_use]
    pub fn share(&self, volume: Volume) -> Ratio {
        Ratio::from_share(volume.si() / self.brim.si())
    }

    /// The volume by one measure.
    #[must_use]
    pub const fn of(&self, measure: Measure) -> Volume {
        match measure {
            Measure::Brim => self.brim,
            Measure::Fill => self.fill,
            Measure::Usable => self.usable,
        }
    }
}
