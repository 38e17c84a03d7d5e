//! How much the tank holds: to the brim, to the fill mark, and of that what can be drawn.
//!
//! Levels are measured along up from the lowest inside point, whatever the lean.

mod dip;
mod expansion;
mod lean;
mod leans;
mod openings;
mod pool;
mod round_step;
mod solve;
mod stick;
mod touch;
mod usable;

pub use dip::{Dip, DipError, Dipped, MAX_DIPS};
pub use expansion::{Expansion, ExpansionError, Outcome, Warming, linear_expansion};
pub use lean::Lean;
pub use leans::LeanRange;
pub use openings::{Marks, OpeningError};
pub use pool::{Level, Pool};
pub use round_step::round_step;
pub use solve::{MOST_EVALUATIONS, NEARNESS, Sample, SolveError, solve, solve_from};
pub use stick::{Stick, StickError};
pub use usable::{Drawing, FillTo, Usable, UsableError, WorstUsable};

use crate::body::Solid;
use crate::bound::{Limit, OutOfRange, Value};
use crate::quantity::{Length, Ratio, Volume};

/// Which capacity a target is set for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Measure {
    /// All that the tank holds.
    Brim,
    /// Up to the fill mark.
    Fill,
    /// Between the pick-up and the fill mark.
    #[default]
    Usable,
}

impl Measure {
    /// Every measure.
    pub const ALL: [Self; 3] = [Self::Brim, Self::Fill, Self::Usable];

    /// The word for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Brim => "brim",
            Self::Fill => "fill",
            Self::Usable => "usable",
        }
    }
}

/// What a level tank holds.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Capacity {
    /// All that it holds.
    pub brim: Volume,
    /// Up to the fill mark: the brim less the headspace.
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

    /// The capacity of the space `inside`, standing level, with a share of it kept as headspace and
    /// nothing drawn from below `pick_up`.
    ///
    /// # Errors
    /// [`OutOfRange`] where the pick-up is not below the fill mark. The share must be in 0 ≤ s < 1.
    pub fn level(inside: &Solid, headspace: Ratio, pick_up: Length) -> Result<Self, OutOfRange> {
        let pool = Pool::new(inside, Lean::LEVEL);
        let brim = pool.brim();
        let fill = Volume::from_cubic_metres(brim.si() * (1.0 - headspace.si()));
        let fill_depth = pool.depth_for(fill)?;
        if !(pick_up < fill_depth) {
            return Err(OutOfRange {
                value: Value::Length(pick_up),
                limit: Limit::Below(Value::Length(fill_depth)),
            });
        }
        let dead = pool.at(pick_up)?.volume;
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
