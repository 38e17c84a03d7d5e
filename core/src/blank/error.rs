//! Why a panel does not come out of flat sheet.

use core::fmt;

use super::bend::BendError;
use super::joint::JointError;
use crate::input::Face;
use crate::units::{Angle, AngleUnit};

/// Folds that one message names.
pub(super) const NAMED_FOLDS: usize = 4;

/// Why a panel does not come out of flat sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum BlankError {
    /// A bend cannot be made.
    Bend {
        /// The edge.
        faces: [Face; 2],
        /// Why.
        error: BendError,
    },
    /// A joint does not suit its edge.
    Joint {
        /// The edge.
        faces: [Face; 2],
        /// Why.
        error: JointError,
    },
    /// A fold of this much doubles the sheet back on itself.
    Sharp {
        /// The edge.
        faces: [Face; 2],
        /// How far it would turn.
        turn: Angle,
        /// The most.
        most: Angle,
    },
    /// The folds close a ring, so that the panel cannot be laid flat.
    Ring {
        /// The fold that closes it.
        faces: [Face; 2],
    },
    /// Two faces would lie on top of each other in the flat.
    Overlap {
        /// The two faces.
        faces: [Face; 2],
        /// The folds between them, as many as are named.
        folds: [Option<[Face; 2]>; NAMED_FOLDS],
        /// How many there are.
        count: u8,
    },
    /// The setbacks and joints leave nothing of a face between its bends.
    Narrow {
        /// The face.
        face: Face,
    },
    /// More corners than a blank may have.
    TooComplex {
        /// The face at which the bound was met.
        face: Face,
    },
}

impl fmt::Display for BlankError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Bend {
                faces: [a, b],
                error,
            } => {
                write!(f, "the fold between {a} and {b}: {error}")
            }
            Self::Joint {
                faces: [a, b],
                error,
            } => {
                write!(f, "the edge between {a} and {b}: {error}")
            }
            Self::Sharp {
                faces: [a, b],
                turn,
                most,
            } => write!(
                f,
                "the fold between {a} and {b} turns by {}, which doubles the sheet back on itself; at most {}: weld that edge",
                turn.display(AngleUnit::Degree, 1),
                most.display(AngleUnit::Degree, 0)
            ),
            Self::Ring { faces: [a, b] } => write!(
                f,
                "the folds close a ring, which cannot be laid flat: weld the edge between {a} and {b}, or another of the ring"
            ),
            Self::Overlap {
                faces: [a, b],
                folds,
                count,
            } => {
                write!(
                    f,
                    "laid flat, {a} and {b} would lie on top of each other: weld one of the folds between them:"
                )?;
                for (place, [one, other]) in folds.iter().flatten().enumerate() {
                    let comma = if place == 0 { "" } else { "," };
                    write!(f, "{comma} {one}-{other}")?;
                }
                if usize::from(*count) > NAMED_FOLDS {
                    f.write_str(" …")?;
                }
                Ok(())
            }
            Self::Narrow { face } => write!(
                f,
                "the bends and joints beside the {face} leave nothing of it: take a smaller bend radius, a larger face, or weld it"
            ),
            Self::TooComplex { face } => write!(
                f,
                "the blank with the {face} has more corners than a blank may have: weld one of its folds"
            ),
        }
    }
}

impl core::error::Error for BlankError {}
