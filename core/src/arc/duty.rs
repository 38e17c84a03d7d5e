//! Duty cycle: how much of any ten minutes a power source or a torch may weld.
//!
//! A rating names a current and the share of a ten-minute period for which it may flow, at 40 °C
//! ambient: IEC 60974-1 (from memory); the AWS glossary words it alike. Power sources sold as of limited
//! duty (IEC 60974-6) are rated by another test and must not be read so. Torches are rated likewise by
//! IEC 60974-7.
//!
//! Between two ratings of a plate the share follows a straight line in log I and log X. Beyond the last
//! of them it follows `X₂ = X₁ (I₁/I₂)²` (AWS Welding Handbook, chapter on power sources; from memory),
//! which takes the losses to grow with the square of the current. The square law suits a machine that
//! warms slowly against ten minutes; it allows too much of one that warms fast.

use core::fmt;

use heapless::Vec;

use super::power::MOST_CURRENT;
use crate::input::limits::RATED_DUTY;
use crate::units::range::RangeError;
use crate::units::{Current, CurrentUnit, Figure, Ratio, Time};

/// The period that ratings refer to.
pub const PERIOD: Time = Time::from_seconds(600.0);

/// Most ratings on one plate.
pub const MAX_RATINGS: usize = 4;

/// Share of a torch's rating for direct current that is left on alternating current where the torch
/// names none of its own: about 70 % (from memory). Mathers, The Welding of Aluminium and its Alloys
/// (2002), p. 107, says that it must be reduced.
pub const TORCH_AC_SHARE: Ratio = Ratio::from_share(0.7);

/// One point of a rating plate.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Rating {
    /// The current.
    pub current: Current,
    /// The share of ten minutes for which it may flow.
    pub duty: Ratio,
}

/// Why a plate is no plate, or a current is not for it.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum DutyError {
    /// A value past its limit.
    Range(RangeError),
    /// No rating, or more than [`MAX_RATINGS`].
    Count(u32),
    /// A rating allows no less than another one of a smaller current.
    OutOfOrder {
        /// The rating of the smaller current.
        lower: Rating,
        /// The one that allows as much or more.
        upper: Rating,
    },
    /// More current than the machine may ever give or the torch may ever carry.
    PastMost {
        /// What was asked for.
        current: Current,
        /// The most.
        most: Current,
    },
}

impl fmt::Display for DutyError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let amps = |current: &Current| current.display(CurrentUnit::Ampere, 1);
        match self {
            Self::Range(error) => error.fmt(f),
            Self::Count(count) => write!(f, "{count} ratings: one to {MAX_RATINGS} are wanted"),
            Self::OutOfOrder { lower, upper } => write!(
                f,
                "the rating at {} allows no less than the one at {}: a plate allows less of a higher current",
                amps(&upper.current),
                amps(&lower.current)
            ),
            Self::PastMost { current, most } => write!(
                f,
                "{} is more than the rated maximum of {}: take less current, or a machine or torch that is rated for it",
                amps(current),
                amps(most)
            ),
        }
    }
}

impl core::error::Error for DutyError {}

impl From<RangeError> for DutyError {
    fn from(error: RangeError) -> Self {
        Self::Range(error)
    }
}

/// How a share was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum DutyBasis {
    /// A straight line in log I and log X between two ratings, or a rating itself.
    Plate,
    /// The square law from the nearest rating.
    SquareLaw,
    /// The current is low enough for all of the time.
    Continuous,
}

/// The share of ten minutes that a current is allowed.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Allowed {
    /// The share.
    pub duty: Ratio,
    /// How it was found.
    pub basis: DutyBasis,
}

/// What a power source or a torch is rated for.
#[derive(Clone, Debug, PartialEq)]
pub struct RatingPlate {
    /// Amperes and share, by rising current and falling share.
    points: Vec<[f64; 2], MAX_RATINGS>,
    most: f64,
}

impl RatingPlate {
    /// A plate of one to four ratings in any order, and the highest current that it names at all.
    ///
    /// # Errors
    /// [`DutyError`] for a count, a current outside 0 to 2000 A, a duty cycle outside 1 to 100 %, a
    /// rating above the highest current, or ratings that do not fall as the current rises.
    pub fn new(ratings: &[Rating], most: Current) -> Result<Self, DutyError> {
        let most = Figure::Current.above(most.si(), 0.0, MOST_CURRENT)?;
        let count = || DutyError::Count(u32::try_from(ratings.len()).unwrap_or(u32::MAX));
        let mut points = Vec::new();
        for rating in ratings {
            let amperes = Figure::Current.above(rating.current.si(), 0.0, most)?;
            let share =
                Figure::Duty.within(rating.duty.si(), RATED_DUTY.0.si(), RATED_DUTY.1.si())?;
            points.push([amperes, share]).map_err(|_| count())?;
        }
        if points.is_empty() {
            return Err(count());
        }
        crate::geom::sort::insertion(&mut points, |[a, _], [b, _]| a < b);
        for ([i0, x0], [i1, x1]) in points.iter().zip(points.iter().skip(1)) {
            if !(i0 < i1 && x0 > x1) {
                let rating = |i: &f64, x: &f64| Rating {
                    current: Current::from_amperes(*i),
                    duty: Ratio::from_share(*x),
                };
                return Err(DutyError::OutOfOrder {
                    lower: rating(i0, x0),
                    upper: rating(i1, x1),
                });
            }
        }
        Ok(Self { points, most })
    }

    /// A plate of one to four ratings, the highest current of which is the highest that it names at all.
    ///
    /// # Errors
    /// As [`new`](Self::new).
    pub fn of(ratings: &[Rating]) -> Result<Self, DutyError> {
        let currents = ratings.iter().map(|rating| rating.current);
        let most = currents.reduce(|a, b| if b > a { b } else { a });
        Self::new(ratings, most.ok_or(DutyError::Count(0))?)
    }

    /// The plate with every current, the highest one too, taken down to a share of itself: a torch on
    /// alternating current with [`TORCH_AC_SHARE`].
    ///
    /// # Errors
    /// [`DutyError`] for a share outside 10 to 100 %.
    pub fn reduced(mut self, share: Ratio) -> Result<Self, DutyError> {
        let share = Figure::TorchShare.within(share.si(), 0.1, 1.0)?;
        for [amperes, _] in &mut self.points {
            *amperes *= share;
        }
        self.most *= share;
        Ok(self)
    }

    /// The highest current that is rated at all.
    #[must_use]
    pub const fn most(&self) -> Current {
        Current::from_amperes(self.most)
    }

    /// How much of ten minutes a current may flow.
    ///
    /// # Errors
    /// [`DutyError`] for a current of nought or less, or past the rated maximum.
    pub fn allowed(&self, current: Current) -> Result<Allowed, DutyError> {
        let i = current.si();
        if i > self.most {
            return Err(DutyError::PastMost {
                current,
                most: self.most(),
            });
        }
        let i = Figure::Current.above(i, 0.0, self.most)?;
        let pairs = self.points.iter().zip(self.points.iter().skip(1));
        for ([i0, x0], [i1, x1]) in pairs {
            if i >= *i0 && i <= *i1 {
                let along = libm::log(i / i0) / libm::log(i1 / i0);
                return Ok(Allowed {
                    duty: Ratio::from_share(x0 * libm::pow(x1 / x0, along)),
                    basis: DutyBasis::Plate,
                });
            }
        }
        let Some([at, share]) = self.nearest(i) else {
            return Err(DutyError::Count(0));
        };
        let ratio = at / i;
        let duty = share * ratio * ratio;
        Ok(if duty >= 1.0 {
            Allowed {
                duty: Ratio::from_share(1.0),
                basis: DutyBasis::Continuous,
            }
        } else {
            Allowed {
                duty: Ratio::from_share(duty),
                // The rating itself; a part in 10⁹ is no current's accuracy.
                basis: if libm::fabs(ratio - 1.0) < 1e-9 {
                    DutyBasis::Plate
                } else {
                    DutyBasis::SquareLaw
                },
            }
        })
    }

    /// The first or the last rating, whichever is nearer to a current outside them.
    fn nearest(&self, amperes: f64) -> Option<[f64; 2]> {
        let (first, last) = (self.points.first()?, self.points.last()?);
        Some(if amperes < last[0] { *first } else { *last })
    }

    /// Arc and rest for `arc` of welding at a current.
    ///
    /// # Errors
    /// [`DutyError`] for the current, or an arc time that is not above 0 and at most 100 h.
    pub fn run(&self, current: Current, arc: Time) -> Result<ArcAndRest, DutyError> {
        ArcAndRest::of(self.allowed(current)?, arc)
    }
}

/// What is allowed by all of several plates: the power source's and the torch's.
///
/// # Errors
/// [`DutyError`] of the first that refuses; [`DutyError::Count`] without any plate.
pub fn allowed_by_all(plates: &[&RatingPlate], current: Current) -> Result<Allowed, DutyError> {
    let mut least: Option<Allowed> = None;
    for plate in plates {
        let allowed = plate.allowed(current)?;
        if least.is_none_or(|least| allowed.duty < least.duty) {
            least = Some(allowed);
        }
    }
    least.ok_or(DutyError::Count(0))
}

/// Arc and rest of a piece of work.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct ArcAndRest {
    /// The share of ten minutes, and how it was found.
    pub allowed: Allowed,
    /// Time with the arc burning.
    pub arc: Time,
    /// The longest that it may burn at a stretch.
    pub stretch: Time,
    /// The rest after a full stretch.
    pub pause: Time,
    /// All rests that lie between the first arc and the last.
    pub rest: Time,
    /// How many rests those are.
    pub rests: u32,
}

impl ArcAndRest {
    /// Arc and rest where a share is allowed. The last stretch needs no rest after it for this work's
    /// sake, so none is counted.
    ///
    /// # Errors
    /// [`DutyError`] for a share outside 0.1 to 100 % or an arc time that is not above 0 and at most
    /// 100 h.
    pub fn of(allowed: Allowed, arc: Time) -> Result<Self, DutyError> {
        let share = Figure::Duty.within(allowed.duty.si(), 0.001, 1.0)?;
        let seconds = Figure::ArcTime.above(arc.si(), 0.0, 360_000.0)?;
        let (stretch, pause) = (share * PERIOD.si(), (1.0 - share) * PERIOD.si());
        // A stretch too many by rounding would be ten minutes for nothing.
        let rests = libm::ceil(seconds / stretch - 1e-9) - 1.0;
        let rests = if share < 1.0 && rests > 0.0 {
            rests
        } else {
            0.0
        };
        Ok(Self {
            allowed,
            arc,
            stretch: if share < 1.0 {
                Time::from_seconds(stretch)
            } else {
                arc
            },
            pause: Time::from_seconds(pause),
            rest: Time::from_seconds(rests * pause),
            // At most 360 000 s over 0.6 s.
            rests: rests as u32,
        })
    }

    /// From the first arc to the end of the last.
    #[must_use]
    pub fn total(&self) -> Time {
        Time::from_seconds(self.arc.si() + self.rest.si())
    }
}
