//! Why parts cannot be laid out flat.

use core::fmt;

use heapless::Vec;

use super::{MOST_PARTS, PartSide};
use crate::geom::outline::OutlineError;
use crate::units::range::OutOfRange;

/// A number of a fold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum LinkField {
    /// Where the child's side starts.
    Along,
    /// Width of the strip.
    Width,
    /// How far it turns.
    Turn,
}

impl fmt::Display for LinkField {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Along => "place along the side",
            Self::Width => "width",
            Self::Turn => "turn",
        })
    }
}

/// Why parts cannot be laid out flat. Parts, sides and folds count from 0.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum UnfoldError {
    /// There is no part.
    NoPart,
    /// More than [`MOST_PARTS`].
    TooManyParts {
        /// How many there are.
        found: u32,
        /// How many there may be.
        most: u32,
    },
    /// The outline of a part is none.
    Part {
        /// The part.
        part: u8,
        /// What is wrong with it.
        error: OutlineError,
    },
    /// A fold names a part or a side that there is not.
    NoSuchSide {
        /// The fold.
        fold: u8,
        /// What it names.
        side: PartSide,
    },
    /// A fold lies along an arc.
    NotStraight {
        /// The fold.
        fold: u8,
        /// The arc.
        side: PartSide,
    },
    /// A number of a fold is out of its range.
    Link {
        /// The fold.
        fold: u8,
        /// Which number.
        field: LinkField,
        /// The value and its limit.
        problem: OutOfRange,
    },
    /// The two sides of a fold do not face each other anywhere.
    Apart {
        /// The fold.
        fold: u8,
    },
    /// A child's side is the parent's side of another fold.
    SideTaken {
        /// The other fold.
        fold: u8,
        /// The side.
        side: PartSide,
    },
    /// The folds make no tree: this part has two parents, or none leads to it from the root.
    NotATree {
        /// The part.
        part: u8,
    },
    /// The blank has more nodes than an outline may have.
    TooManyNodes {
        /// How many it may have.
        most: u32,
    },
    /// Two parts, each with the strip of the fold that leads to it, would lie on top of each other.
    Overlap {
        /// The two.
        parts: [u8; 2],
        /// The folds on the way from one to the other: one of them must become a seam.
        folds: Vec<u8, MOST_PARTS>,
    },
    /// The outline of the blank crosses itself.
    Crossing {
        /// The two sides of that outline.
        sides: [u32; 2],
    },
}

impl fmt::Display for UnfoldError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoPart => f.write_str("there is no part to lay out"),
            Self::TooManyParts { found, most } => {
                write!(f, "{found} parts are too many: a blank has at most {most}")
            }
            Self::Part { part, error } => write!(f, "part {part}: {error}"),
            Self::NoSuchSide { fold, side } => write!(
                f,
                "fold {fold} names side {} of part {}, which there is not",
                side.side, side.part
            ),
            Self::NotStraight { fold, side } => write!(
                f,
                "fold {fold} lies along side {} of part {}, which is not straight",
                side.side, side.part
            ),
            Self::Link {
                fold,
                field,
                problem,
            } => write!(f, "{field} of fold {fold}: {problem}"),
            Self::Apart { fold } => {
                write!(f, "the two sides of fold {fold} do not face each other")
            }
            Self::SideTaken { fold, side } => write!(
                f,
                "side {} of part {} joins it to its parent and cannot carry fold {fold} too",
                side.side, side.part
            ),
            Self::NotATree { part } => write!(
                f,
                "the folds make no tree: part {part} has two parents or none that leads to the root"
            ),
            Self::TooManyNodes { most } => {
                write!(f, "the outline of the blank needs more than {most} corners")
            }
            Self::Overlap {
                parts: [a, b],
                folds,
            } => {
                write!(
                    f,
                    "parts {a} and {b} would lie on top of each other; weld instead of folding one of:"
                )?;
                for fold in folds {
                    write!(f, " {fold}")?;
                }
                Ok(())
            }
            Self::Crossing { sides: [a, b] } => {
                write!(f, "sides {a} and {b} of the blank's outline cross")
            }
        }
    }
}

impl core::error::Error for UnfoldError {}
