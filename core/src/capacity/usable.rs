//! What can be drawn from a tank that leans, and the lean that leaves the most behind.

use core::fmt;

use heapless::Vec;

use super::{Lean, LeanRange, OpeningError, Pool, Space};
use crate::compartment::{Compartments, PickUp};
use crate::geom::Vector;
use crate::units::range::{Limit, OutOfRange, Value};
use crate::units::{Length, Volume};

/// A fill may be more than the level tank takes by this share of it: what is left of rounding.
const SLACK: f64 = 1e-9;
/// Pick-ups that a tank may have.
pub const MAX_PICK_UPS: usize = 4;

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
    /// There is no pick-up, or more than [`MAX_PICK_UPS`].
    PickUps,
}

impl fmt::Display for UsableError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Opening(error) => error.fmt(f),
            Self::Fill(error) => write!(f, "the fill: {error}"),
            Self::PickUps => write!(f, "a tank has 1 to {MAX_PICK_UPS} pick-ups"),
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
    /// What the pick-ups draw before they suck air.
    pub usable: Volume,
    /// What they leave, below themselves and behind baffles and humps that it does not get over; all that is held where the
    /// surface starts below them.
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

/// A tank, its fill, its pick-ups and its openings.
#[derive(Clone, Debug)]
pub struct Drawing<'a> {
    inside: Space<'a>,
    parted: &'a Compartments,
    openings: &'a [Vector],
    pick_ups: Vec<PickUp, MAX_PICK_UPS>,
    fill: f64,
    /// What was poured into pieces from which no way leads to a pick-up.
    shut_off: f64,
}

impl<'a> Drawing<'a> {
    /// From the space inside and how it is parted, what is poured in, where it is drawn, and the openings that are not shut,
    /// points in metres in tank axes. With no openings nothing spills.
    ///
    /// # Errors
    /// [`UsableError`] where there is no pick-up, where an opening is not finite, or where the fill is more than the level
    /// tank takes.
    pub fn new(
        inside: impl Into<Space<'a>>,
        parted: &'a Compartments,
        fill: FillTo,
        pick_ups: &[PickUp],
        openings: &'a [Vector],
    ) -> Result<Self, UsableError> {
        let inside = inside.into();
        let pick_ups = Vec::from_slice(pick_ups).map_err(|_| UsableError::PickUps)?;
        if pick_ups.is_empty() {
            return Err(UsableError::PickUps);
        }
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
        let depth = pool.depth_for(fill).map_err(UsableError::Fill)?;
        let shut_off = parted.shut_off(pool.up(), &pick_ups, pool.height_of(depth));
        Ok(Self {
            inside,
            parted,
            openings,
            pick_ups,
            fill: fill.si(),
            shut_off,
        })
    }

    /// What was poured in.
    #[must_use]
    pub const fn fill(&self) -> Volume {
        Volume::from_cubic_metres(self.fill)
    }

    /// At one lean.
    ///
    /// What is left lies below the pick-ups, or where it would have to rise over a door on every way to them
    /// ([`Compartments`]). Every such pool is taken to be as full as it can be at that lean, whatever way the tank came
    /// there, so that what is told to be usable is there for certain; while it stands level as it was filled there may
    /// be more. What was poured into a part without any way to a pick-up stays in it.
    #[must_use]
    pub fn at(&self, lean: Lean) -> Usable {
        let held = libm::fmin(self.fill, self.room(lean));
        let dead = libm::fmin(held, self.left(lean));
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
            leans.least(|lean| libm::fmin(self.fill, self.room(lean)) - self.left(lean));
        let (most_dead, behind) = leans.least(|lean| -self.left(lean));
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

    /// What the pick-ups would leave of any fill.
    fn left(&self, lean: Lean) -> f64 {
        let pool = Pool::new(self.inside, lean);
        let up = pool.up();
        let lowest = self
            .pick_ups
            .iter()
            .map(|one| one.mouth().high(up))
            .fold(f64::INFINITY, libm::fmin);
        let depth = Length::from_metres(lowest - pool.height_of(Length::from_metres(0.0)));
        let below = pool.up_to(depth).volume.si();
        let drawn = self.parted.drawn_to(up, &self.pick_ups);
        let kept = self.parted.kept_over(up, &drawn, lowest);
        let under = self.parted.under_shut_off(up, &drawn, lowest);
        libm::fmax(below + kept + self.shut_off - under, 0.0)
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
