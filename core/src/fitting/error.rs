//! Why a fitting or a baffle does not fit where it is put.

use core::fmt;

use crate::input::Face;
use crate::units::{Length, LengthUnit};

/// Why a fitting or a baffle does not fit where it is put.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum PlaceError {
    /// The hole runs over the edge, or into the bend, of its face.
    OffFace {
        /// The face.
        face: Face,
        /// How far past.
        by: Length,
    },
    /// On a dished end a hole is set at the centre only.
    OffCentre {
        /// The end.
        face: Face,
        /// How far off it is.
        by: Length,
        /// Where the centre is, both ways.
        centre: Length,
    },
    /// A fitting without a passage needs its outer diameter.
    NoOuter,
    /// Two holes run into each other.
    Overlap {
        /// The other fitting, counted from 1.
        other: u8,
    },
    /// The baffle stands outside the space within the sheet.
    Outside {
        /// Where that space begins on the baffle's axis.
        low: Length,
        /// Where it ends.
        high: Length,
    },
    /// The plane of the baffle meets the space within in more than one piece.
    Parted,
    /// In a drum a baffle stands across the axis, within the straight wall.
    NotAcrossDrum,
    /// A hole runs over the edge of its baffle.
    OffBaffle {
        /// How far past.
        by: Length,
    },
}

impl fmt::Display for PlaceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mm = |length: &Length| length.display(LengthUnit::Millimetre, 2);
        match self {
            Self::OffFace { face, by } => write!(
                f,
                "the hole runs {} over the edge or into the bend of the {face}: move it, or make it smaller",
                mm(by)
            ),
            Self::OffCentre { face, by, centre } => write!(
                f,
                "on a dished end a fitting is set at the centre only, and this one is {} off that of the {face}: write {} both ways",
                mm(by),
                mm(centre)
            ),
            Self::NoOuter => f.write_str(
                "a fitting with no bore needs its outer diameter: what size is the hole that it is set into?",
            ),
            Self::Overlap { other } => {
                write!(f, "its hole runs into that of fitting {other}: move one of them")
            }
            Self::Outside { low, high } => write!(
                f,
                "the baffle stands outside the space within the sheet, which runs from {} to {} there",
                mm(low),
                mm(high)
            ),
            Self::Parted => f.write_str(
                "the inside is in more than one piece where this baffle stands: give each piece a panel of its own, or move the baffle",
            ),
            Self::NotAcrossDrum => f.write_str(
                "in a drum a baffle stands across the axis, within the straight wall",
            ),
            Self::OffBaffle { by } => write!(
                f,
                "the hole runs {} over the edge of its baffle: move it, or make it smaller",
                mm(by)
            ),
        }
    }
}

impl core::error::Error for PlaceError {}
