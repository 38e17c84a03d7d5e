//! Why there is no plan for a leak test.

use core::fmt;

use crate::strength::StrengthError;
use crate::units::range::{OutOfRange, RangeError};

/// Why there is no plan for a leak test.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum LeakError {
    /// A wall cannot be judged, so that none may be put under pressure.
    Strength(StrengthError),
    /// A figure that cannot be.
    Range(RangeError),
    /// The pressure that the test needs is above what the weakest wall or seam takes.
    TooWeak(OutOfRange),
    /// The pressure that the rule asks of air is above what is proposed here with air.
    TooMuchAir(OutOfRange),
    /// The air would store more than is proposed here.
    TooMuchEnergy(OutOfRange),
}

impl From<StrengthError> for LeakError {
    fn from(error: StrengthError) -> Self {
        Self::Strength(error)
    }
}

impl From<RangeError> for LeakError {
    fn from(error: RangeError) -> Self {
        Self::Range(error)
    }
}

impl fmt::Display for LeakError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Strength(error) => write!(f, "a wall cannot be judged: {error}"),
            Self::Range(error) => error.fmt(f),
            Self::TooWeak(error) => write!(
                f,
                "the weakest wall or seam does not take this test: {error}; stiffen it, use thicker sheet, or choose another rule"
            ),
            Self::TooMuchAir(error) => {
                write!(
                    f,
                    "too much for a test with air: {error}; prove it with water"
                )
            }
            Self::TooMuchEnergy(error) => write!(
                f,
                "the air in it would store too much: {error}; prove it with water"
            ),
        }
    }
}

impl core::error::Error for LeakError {}
