//! What can be drawn from a tank that leans, and the lean that leaves the most behind.

use core::fmt;

use super::{Lean, LeanRange, OpeningError, Pool, Space};
use crate::body::Solid;
use crate::geom::Vector;
use crate::units::range::{Limit, OutOfRange, Value};
use crate::units::{Length, Volume};

/// A point this share of the body's size outside it still counts as inside: rounding of a point that was
/// computed to lie on the sheet.
const SLACK: f64 = 1e-9;

/// How much is poured in while the tank stands level.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum FillTo {
    /// This volume.
    Volume(Volume),
    /// Until it is about to run out of the lowest opening.
    LowestOpening,
}

/// Why nothing can be said about drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum UsableError {
    /// An opening is missing or not finite.
    Opening(OpeningError),
    /// The volume poured in is not between nothing and what the level tank takes before it runs over.
    Fill(OutOfRange),
    /// The pick-up lies outside the tank along the axis named, or is not a finite point.
    PickUp {
        /// `x`, `y` or `z`.
        axis: char,
        /// The coordinate and what it must keep.
        error: OutOfRange,
    },
}

impl fmt::Display for UsableError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Opening(error) => error.fmt(f),
            Self::Fill(error) => write!(f, "the fill: {error}"),
            Self::PickUp { axis, error } => {
                write!(f, "the pick-up is outside the tank: its {axis} of {error}")
            }
        }
    }
}

impl core::error::Error for UsableError {}

/// What becomes of the liquid at one lean.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Usable {
    /// The lean.
    pub lean: Lean,
    /// What the pick-up draws before it sucks air.
    pub usable: Volume,
    /// What it leaves; all that is held where the surface starts below it.
    pub dead: Volume,
    /// What has run out of the lowest opening.
    pub spilt: Volume,
}

/// The worst over a range of leans.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct WorstUsable {
    /// The lean at which least can be drawn, taken there straight from level.
    pub least: Usable,
    /// The lean that leaves the most behind.
    pub most_dead: Usable,
    /// The lean that spills the most.
    pub most_spilt: Usable,
    /// What can be drawn for certain from a tank that has been through every lean of the range, most
    /// spilt first, and then stands at the one that leaves the most behind.
    pub after_all: Volume,
}

/// A tank, its fill, its pick-up and its openings.
#[derive(Clone, Copy, Debug)]
pub struct Drawing<'a> {
    inside: Space<'a>,
    openings: &'a [Vector],
    pick_up: Vector,
    fill: f64,
}

impl<'a> Drawing<'a> {
    /// From the space inside, what is poured in, the lowest point at which the pick-up takes liquid, and
    /// the openings that are not shut, points in metres in tank axes. With no openings nothing spills.
    ///
    /// # Errors
    /// [`UsableError`] where the pick-up is outside the box around the space, where an opening is not
    /// finite, or where the fill is more than the level tank takes.
    pub fn new(
        inside: impl Into<Space<'a>>,
        fill: FillTo,
        pick_up: Vector,
        openings: &'a [Vector],
    ) -> Result<Self, UsableError> {
        let inside = inside.into();
        within(inside.solid(), pick_up)?;
        let pool = Pool::new(inside, Lean::LEVEL);
        let takes = match pool.marks(openings) {
            Ok(marks) => marks.full.volume,
            Err(OpeningError::None) if matches!(fill, FillTo::Volume(_)) => pool.brim(),
            Err(error) => return Err(UsableError::Opening(error)),
        };
        let fill = match fill {
            FillTo::LowestOpening => takes,
            FillTo::Volume(volume) => checked(volume, takes)?,
        };
        Ok(Self {
            inside,
            openings,
            pick_up,
            fill: fill.si(),
        })
    }

    /// What was poured in.
    #[must_use]
    pub const fn fill(&self) -> Volume {
        Volume::from_cubic_metres(self.fill)
    }

    /// At one lean.
    ///
    /// The dead volume lies below the level plane through the pick-up. Liquid is taken to be one pool
    /// that finds its level at once: a baffle without holes, or a hump that parts it, leaves more behind.
    #[must_use]
    pub fn at(&self, lean: Lean) -> Usable {
        let held = libm::fmin(self.fill, self.room(lean));
        let dead = libm::fmin(held, self.below_pick_up(lean));
        Usable {
            lean,
            usable: Volume::from_cubic_metres(held - dead),
            dead: Volume::from_cubic_metres(dead),
            spilt: Volume::from_cubic_metres(self.fill - held),
        }
    }

    /// The worst of a range.
    ///
    /// A search by grid and descent for each of the three (see the crate's tests for how it stands
    /// against a far finer grid): usually about 2000 evaluations in all, each one clip of the body by two
    /// planes; a fixed angle or a narrow range costs less. The work is bounded, at most 16,000.
    #[must_use]
    pub fn worst(&self, leans: LeanRange) -> WorstUsable {
        // The figures go on below zero where the pick-up is already dry, so that the search sees which
        // way is worse still.
        let (least, _) =
            leans.least(|lean| libm::fmin(self.fill, self.room(lean)) - self.below_pick_up(lean));
        let (most_dead, behind) = leans.least(|lean| -self.below_pick_up(lean));
        let (most_spilt, room) = leans.least(|lean| self.room(lean));
        let kept = libm::fmin(self.fill, room);
        WorstUsable {
            least: self.at(least),
            most_dead: self.at(most_dead),
            most_spilt: self.at(most_spilt),
            after_all: Volume::from_cubic_metres(libm::fmax(kept + behind, 0.0)),
        }
    }

    /// What the tank holds before it runs over.
    fn room(&self, lean: Lean) -> f64 {
        let pool = Pool::new(self.inside, lean);
        match pool.marks(self.openings) {
            Ok(marks) => marks.full.volume.si(),
            // No openings; `new` has let no other fault through.
            Err(_) => pool.brim().si(),
        }
    }

    fn below_pick_up(&self, lean: Lean) -> f64 {
        let pool = Pool::new(self.inside, lean);
        pool.up_to(pool.depth_of(self.pick_up)).volume.si()
    }
}

fn checked(volume: Volume, takes: Volume) -> Result<Volume, UsableError> {
    let none = Volume::from_cubic_metres(0.0);
    let limit = if volume > Volume::from_cubic_metres(takes.si() * (1.0 + SLACK)) {
        Limit::AtMost(Value::Volume(takes))
    } else if volume >= none {
        return Ok(volume);
    } else {
        Limit::AtLeast(Value::Volume(none))
    };
    Err(UsableError::Fill(OutOfRange {
        value: Value::Volume(volume),
        limit,
    }))
}

/// Whether a point lies in the upright box around a body.
fn within(inside: &Solid, point: Vector) -> Result<(), UsableError> {
    let axes = [
        ('x', Vector::new(1.0, 0.0, 0.0), point.x),
        ('y', Vector::new(0.0, 1.0, 0.0), point.y),
        ('z', Vector::new(0.0, 0.0, 1.0), point.z),
    ];
    for (axis, along, value) in axes {
        let (low, high) = inside.extent(along);
        let slack = SLACK * (high - low);
        let show = |value| Value::Length(Length::from_metres(value));
        let limit = if value > high + slack {
            Limit::AtMost(show(high))
        } else if value >= low - slack {
            continue;
        } else {
            Limit::AtLeast(show(low))
        };
        return Err(UsableError::PickUp {
            axis,
            error: OutOfRange {
                value: show(value),
                limit,
            },
        });
    }
    Ok(())
}
