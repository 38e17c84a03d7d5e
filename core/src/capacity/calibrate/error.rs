//! Why pours give no calibration.

use core::fmt;

use crate::units::Decimal;
use crate::units::range::OutOfRange;

/// Why pours give no calibration. Pours count from 1.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum CalibrateError {
    /// Too few pours, or more than are taken.
    Count(OutOfRange),
    /// The brim is not above zero.
    Brim(OutOfRange),
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
}

impl fmt::Display for CalibrateError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Count(error) => write!(f, "the number of pours: {error}"),
            Self::Brim(error) => write!(f, "the brim: {error}"),
            Self::Model { pour, error } => write!(f, "pour {pour}, volume by the model: {error}"),
            Self::Measured { pour, error } => write!(f, "pour {pour}, measured volume: {error}"),
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
        }
    }
}

impl core::error::Error for CalibrateError {}
