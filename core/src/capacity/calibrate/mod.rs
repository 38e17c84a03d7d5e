//! A dip chart set right by what was really poured in.
//!
//! Sheet bulges, seams shrink and fittings displace more or less than drawn, so a tank holds a little more
//! or less than its model, and its rod may stand a little high or low. Two or more known pours give the
//! true volume as a + b V, V the volume by the model: a and b by least squares.

mod error;
#[cfg(test)]
mod tests;

pub use error::CalibrateError;

use crate::units::range::{Limit, OutOfRange, Value, within};
use crate::units::{Length, Volume};

/// The fewest pours that give a scale.
pub const LEAST_POURS: usize = 2;
/// The most pours that are taken.
pub const MOST_POURS: usize = 16;

/// A pour adds at least this share of the brim, by the model: with less, the reading of the rod is most of
/// the difference (common practice, no source).
const STEP: f64 = 0.02;
/// The first and the last pour are at least this share of the brim apart, so that the line between them
/// is not drawn out too far (common practice, no source).
const REACH: f64 = 0.2;
/// A scale further off than this is no tank of this model (common practice, no source).
const SCALE: [f64; 2] = [0.8, 1.25];

/// Figures that are found from the pours: offset and scale.
const FIGURES: usize = 2;

/// What the model says and what was measured, for the same level.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Pair {
    /// By the model.
    pub model: Volume,
    /// Poured in, in all.
    pub measured: Volume,
}

/// What the rod read and what was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Pour {
    /// On the rod.
    pub depth: Length,
    /// Poured in, in all.
    pub measured: Volume,
}

/// How a model is set right.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Calibration {
    /// a: added to the volume; may be negative.
    pub offset: Volume,
    /// b: the volume by the model is taken so many times.
    pub scale: f64,
}

/// A calibration and how well it fits.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Calibrated {
    /// The calibration.
    pub calibration: Calibration,
    /// The pour that it fits worst, counted from 1.
    pub worst: u8,
    /// By how much: measured less corrected.
    pub worst_by: Volume,
    /// Standard deviation of the residuals; zero where there are no more pours than figures sought, and so
    /// nothing left to check them by.
    pub deviation: Volume,
}

impl Calibration {
    /// The model as it is.
    pub const NONE: Self = Self {
        offset: Volume::from_cubic_metres(0.0),
        scale: 1.0,
    };

    /// The true volume where the model says `model`: a + b V.
    ///
    /// # Errors
    /// [`OutOfRange`] where that is below zero: the level is lower than the pours reach down to.
    pub fn volume(&self, model: Volume) -> Result<Volume, OutOfRange> {
        positive(Volume::from_cubic_metres(self.raw(model.si())))
    }

    /// The volume to ask the model the depth of, for a true volume: (W − a) / b.
    ///
    /// # Errors
    /// [`OutOfRange`] where that is below zero.
    pub fn model(&self, volume: Volume) -> Result<Volume, OutOfRange> {
        let model = (volume.si() - self.offset.si()) / self.scale;
        positive(Volume::from_cubic_metres(model))
    }

    /// What a pair comes to when the model is set right: measured less [`residual`](Self::residual).
    #[must_use]
    pub fn corrected(&self, pair: Pair) -> Volume {
        Volume::from_cubic_metres(pair.measured.si() - self.residual(pair).si())
    }

    /// Measured less corrected.
    #[must_use]
    pub fn residual(&self, pair: Pair) -> Volume {
        Volume::from_cubic_metres(pair.measured.si() - self.raw(pair.model.si()))
    }

    fn raw(&self, model: f64) -> f64 {
        self.offset.si() + self.scale * model
    }
}

/// Sets a model right by two or more pairs of volumes, in the order of the pours, for a tank that holds
/// `brim` by the model: a and b by least squares of measured = a + b · model.
///
/// # Errors
/// [`CalibrateError`] names the pour, its value and the limit.
pub fn calibrate(pairs: &[Pair], brim: Volume) -> Result<Calibrated, CalibrateError> {
    check(pairs, brim)?;
    finish(pairs)
}

fn count(pours: usize) -> Result<(), CalibrateError> {
    let small = |n| u32::try_from(n).unwrap_or(u32::MAX);
    within(
        small(pours),
        small(LEAST_POURS),
        small(MOST_POURS),
        Value::Count,
    )
    .map(|_| ())
    .map_err(CalibrateError::Count)
}

impl CalibrateError {
    /// Of more pours than are taken.
    pub(super) fn count_of(pours: usize) -> Self {
        let small = |n| Value::Count(u32::try_from(n).unwrap_or(u32::MAX));
        Self::Count(OutOfRange {
            value: small(pours),
            limit: Limit::AtMost(small(MOST_POURS)),
        })
    }
}

fn positive(value: Volume) -> Result<Volume, OutOfRange> {
    const NONE: Volume = Volume::from_cubic_metres(0.0);
    if value >= NONE {
        Ok(value)
    } else {
        Err(OutOfRange {
            value: Value::Volume(value),
            limit: Limit::AtLeast(Value::Volume(NONE)),
        })
    }
}

fn check(pairs: &[Pair], brim: Volume) -> Result<(), CalibrateError> {
    count(pairs.len())?;
    let none = Volume::from_cubic_metres(0.0);
    let not_above = |value: Volume, limit: Volume| OutOfRange {
        value: Value::Volume(value),
        limit: Limit::Above(Value::Volume(limit)),
    };
    if !(brim > none && brim.si().is_finite()) {
        return Err(CalibrateError::Brim(not_above(brim, none)));
    }
    let short = |value: Volume, from: Volume, share: f64| {
        let limit = Volume::from_cubic_metres(from.si() + share * brim.si());
        (!(value >= limit)).then_some(OutOfRange {
            value: Value::Volume(value),
            limit: Limit::AtLeast(Value::Volume(limit)),
        })
    };
    let mut before: Option<Pair> = None;
    for (pair, pour) in pairs.iter().zip(1_u8..) {
        within(pair.model, none, brim, Value::Volume)
            .map_err(|error| CalibrateError::Model { pour, error })?;
        let last = before.map_or(none, |before| before.measured);
        if !(pair.measured > last && pair.measured.si().is_finite()) {
            let error = not_above(pair.measured, last);
            return Err(CalibrateError::Measured { pour, error });
        }
        if let Some(error) = before.and_then(|before| short(pair.model, before.model, STEP)) {
            return Err(CalibrateError::TooClose { pour, error });
        }
        before = Some(*pair);
    }
    if let (Some(first), Some(last)) = (pairs.first(), pairs.last())
        && let Some(error) = short(last.model, first.model, REACH)
    {
        return Err(CalibrateError::ShortReach(error));
    }
    Ok(())
}

/// The straight line of least squares.
struct Line {
    offset: f64,
    scale: f64,
    squares: f64,
}

fn line(pairs: &[Pair]) -> Line {
    let count = pairs.len() as f64;
    let (mut x, mut y) = (0.0, 0.0);
    for pair in pairs {
        x += pair.model.si() / count;
        y += pair.measured.si() / count;
    }
    let (mut xx, mut xy) = (0.0, 0.0);
    for pair in pairs {
        let dx = pair.model.si() - x;
        xx += dx * dx;
        xy += dx * (pair.measured.si() - y);
    }
    let scale = xy / xx;
    let squares = pairs.iter().map(|pair| {
        let off = pair.measured.si() - y - scale * (pair.model.si() - x);
        off * off
    });
    Line {
        offset: y - scale * x,
        scale,
        squares: squares.sum(),
    }
}

fn finish(pairs: &[Pair]) -> Result<Calibrated, CalibrateError> {
    let Line {
        offset,
        scale,
        squares,
    } = line(pairs);
    let [least, most] = SCALE;
    if !(scale >= least && scale <= most) {
        return Err(CalibrateError::Scale(scale));
    }
    let calibration = Calibration {
        offset: Volume::from_cubic_metres(offset),
        scale,
    };
    let (mut worst, mut worst_by) = (1, Volume::from_cubic_metres(0.0));
    for (pair, pour) in pairs.iter().zip(1_u8..) {
        let by = calibration.residual(*pair);
        if libm::fabs(by.si()) > libm::fabs(worst_by.si()) {
            (worst, worst_by) = (pour, by);
        }
    }
    let free = pairs.len().saturating_sub(FIGURES);
    let deviation = if free == 0 {
        0.0
    } else {
        libm::sqrt(squares / free as f64)
    };
    Ok(Calibrated {
        calibration,
        worst,
        worst_by,
        deviation: Volume::from_cubic_metres(deviation),
    })
}
