//! Why pours give no calibration.

use core::fmt;

use crate::units::range::{OutOfRange, Value};
use crate::units::{Decimal, Length};

/// Why pours give no calibration. Pours count from 1.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum CalibrateError {
    /// Too few pours, or more than are taken.
    Count(OutOfRange),
    /// The brim is not above zero.
    Brim(OutOfRange),
    /// The model has no volume at this depth: it is outside the tank.
    Outside {
        /// Which.
        pour: u8,
        /// Its depth, on the rod.
        depth: Length,
    },
    /// A volume by the model is outside the tank.
    Model {
        /// Which.
        pour: u8,
        /// The volume, and the limit.
        error: OutOfRange,
    },
    /// A measured volume is not above the one before.
    Measured {
        /// Which.
        pour: u8,
        /// The volume, and the limit.
        error: OutOfRange,
    },
    /// A depth is not above the one before.
    Depth {
        /// Which.
        pour: u8,
        /// The depth, and the limit.
        error: OutOfRange,
    },
    /// A pour is too close to the one before: by the model it adds less than 2 % of the brim.
    TooClose {
        /// Which.
        pour: u8,
        /// The volume by the model, and the limit.
        error: OutOfRange,
    },
    /// The last pour is too close to the first: less than a fifth of the brim lies between them.
    ShortReach(OutOfRange),
    /// The scale comes out below 0.8 or above 1.25: this is another tank, or another unit.
    Scale(f64),
    /// How far the rod may stand off is not above zero.
    Most(OutOfRange),
    /// The walls are too straight between the pours to tell a rod that stands high from a volume that is
    /// missing at the bottom: calibrate without the zero, which then holds both.
    Straight,
    /// The rod would have to stand off by as much as it may, or more.
    ZeroFar(OutOfRange),
}

impl fmt::Display for CalibrateError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Count(error) => write!(f, "the number of pours: {error}"),
            Self::Brim(error) => write!(f, "the brim: {error}"),
            Self::Outside { pour, depth } => write!(
                f,
                "pour {pour}: {} on the rod is outside the tank",
                Value::Length(*depth)
            ),
            Self::Model { pour, error } => write!(f, "pour {pour}, volume by the model: {error}"),
            Self::Measured { pour, error } => write!(f, "pour {pour}, measured volume: {error}"),
            Self::Depth { pour, error } => write!(f, "pour {pour}, depth: {error}"),
            Self::TooClose { pour, error } => write!(
                f,
                "pour {pour} is too close to the one before, by the model: {error}"
            ),
            Self::ShortReach(error) => {
                write!(f, "the pours are too close together, by the model: {error}")
            }
            Self::Scale(value) => write!(
                f,
                "the tank would hold {} times what its model does: it must be from 0.8 to 1.25; is it this tank, in these units?",
                Decimal::new(*value, 3)
            ),
            Self::Most(error) => write!(f, "how far the rod may stand off: {error}"),
            Self::Straight => f.write_str(
                "the walls are too straight between these pours to tell how the rod stands: calibrate without it",
            ),
            Self::ZeroFar(error) => write!(f, "how far the rod stands off: {error}"),
        }
    }
}

impl core::error::Error for CalibrateError {}
