//! What a weld plan is asked for beyond what the tank's own job says.

use super::rest::ArcShare;
use crate::arc::{Arc, Equipment};
use crate::heat::shell::Fineness;
use crate::tank::Tank;
use crate::units::{Length, LengthUnit, Temperature};

/// Cells that a planner has room for, if it is not said: a gauge's.
pub const GAUGE_CELLS: usize = 224;
/// Links between them.
pub const GAUGE_LINKS: usize = 520;

/// Cells in which a laptop follows the heat of an order that is chosen ([`Tank::weld_plan_finer`]).
pub const FINE_CELLS: usize = 1_000;
/// Links between them.
pub const FINE_LINKS: usize = 2_400;

/// A first look: coarse enough for a gauge to have it in two seconds.
pub(super) const FIRST_LOOK: Fineness = Fineness {
    rim: 0.1,
    cells: 64,
    longest: 10.0,
    beads: false,
};

/// What is asked of a [`Planner`](super::Planner). By default: the plan and all comparisons, without a first look, and no
/// rests for power source and torch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlanOptions {
    /// The share of any ten minutes for which power source and torch let the arc burn; `None` where neither has a rating.
    /// [`PlanOptions::resting`] works it out.
    pub arc_share: Option<ArcShare>,
    /// The warmest that the metal may be where a stitch starts; `None` for that of the job, or of its alloy.
    pub interpass: Option<Temperature>,
    /// Width of the cells along the rims of the sheets, in which heat is followed: 8 mm by default. Where a planner has
    /// no room for cells as narrow, they are as narrow as it has room for; a width that is not above zero makes no cells
    /// ([`PlanError::Mesh`](super::PlanError)).
    pub cell_width: Length,
    /// Whether a coarse order is looked for first, to be shown while the plan is made.
    pub first_look: bool,
    /// Whether welding seam by seam and the ends of the band of the arc's share are simulated too.
    pub comparisons: bool,
}

impl PlanOptions {
    /// Of a planner that has nothing to plan: all zeros.
    pub(super) const NONE: Self = Self {
        arc_share: None,
        interpass: None,
        cell_width: Length::from_metres(0.0),
        first_look: false,
        comparisons: false,
    };

    /// What a gauge asks for: a first look to show, then the plan, without the comparisons, which it has no page for.
    pub const GAUGE: Self = Self {
        arc_share: None,
        interpass: None,
        cell_width: Length::new(8.0, LengthUnit::Millimetre),
        first_look: true,
        comparisons: false,
    };

    /// The plan and all comparisons, with the rests that the ratings of power source and torch call for. A current past
    /// them has no share, and the plan then no rests:
    /// [`WorkNotice::CurrentPastRating`](crate::advice::work::WorkNotice) tells that beside.
    #[must_use]
    pub fn resting(equipment: &Equipment, arc: &Arc) -> Self {
        Self {
            arc_share: ArcShare::of_equipment(equipment, arc).ok().flatten(),
            ..Self::default()
        }
    }

    /// The warmest that the metal of a tank may be where a stitch starts.
    pub(super) fn interpass_of(&self, tank: &Tank) -> Temperature {
        self.interpass.unwrap_or_else(|| tank.interpass_max())
    }

    /// How finely the plan itself follows the heat.
    pub(super) const fn fineness(&self) -> Fineness {
        Fineness::with_rim(self.cell_width.si())
    }
}

impl Default for PlanOptions {
    fn default() -> Self {
        Self {
            first_look: false,
            comparisons: true,
            ..Self::GAUGE
        }
    }
}
