//! What is set into the walls and stands across the inside: fittings and baffles.

use core::fmt;

use crate::body::Face;
use crate::quantity::{Length, LengthUnit};

/// Why a fitting or a baffle does not fit where it is put.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum PlaceError {
    /// The hole runs over the edge of its face.
    OffFace {
        /// The face.
        face: Face,
        /// How far past.
        by: Length,
    },
}

impl fmt::Display for PlaceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OffFace { face, by } => write!(
                f,
                "the hole runs {} over the edge of the {face}",
                by.display(LengthUnit::Millimetre, 2)
            ),
        }
    }
}

impl core::error::Error for PlaceError {}
