//! Why a wall and its ends make no drum.

use core::fmt;

use crate::units::{Length, LengthUnit};

/// Why a wall and its ends make no drum.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum TurnedError {
    /// Radius, length or the depth of an end is not above zero, or not a number.
    Size {
        /// What was given.
        value: Length,
    },
    /// The crown is flatter than its drum is wide, or a number that is none.
    Crown {
        /// What was given.
        crown: Length,
        /// The least: the drum's own radius.
        least: Length,
    },
    /// The knuckle is not above zero, or larger than fits.
    Knuckle {
        /// What was given.
        knuckle: Length,
        /// The most: the drum's own radius, and less than the crown's.
        most: Length,
    },
}

impl fmt::Display for TurnedError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mm = |length: &Length| length.display(LengthUnit::Millimetre, 2);
        match self {
            Self::Size { value } => {
                write!(f, "sizes must be above zero, and one is {}", mm(value))
            }
            Self::Crown { crown, least } => write!(
                f,
                "the crown radius is {}: it must be at least the drum's own radius of {}",
                mm(crown),
                mm(least)
            ),
            Self::Knuckle { knuckle, most } => write!(
                f,
                "the knuckle radius is {}: it must be above zero, at most {}, and less than the crown's",
                mm(knuckle),
                mm(most)
            ),
        }
    }
}

impl core::error::Error for TurnedError {}
