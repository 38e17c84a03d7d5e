//! Why nodes make no outline.

use core::fmt;

/// Most nodes of an outline.
pub const MOST_NODES: usize = 96;

/// Why nodes make no outline.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum OutlineError {
    /// Fewer than two nodes.
    TooFewNodes {
        /// How many there are.
        found: u32,
    },
    /// More than [`MOST_NODES`].
    TooManyNodes {
        /// How many there are.
        found: u32,
        /// How many there may be.
        most: u32,
    },
    /// A number of this node, counted from 0, is infinite or not a number.
    NotFinite {
        /// The node.
        node: u32,
    },
    /// The side that starts at this node, counted from 0, has no length.
    NoSide {
        /// The node.
        node: u32,
    },
    /// The nodes run clockwise, or enclose nothing.
    NotCounterClockwise,
    /// The outline turns straight back on itself at this corner, counted from 0.
    Spike {
        /// The corner.
        node: u32,
    },
    /// Two sides cross. They count from 0; each starts at the node of its number.
    Crossing {
        /// The two sides.
        sides: [u32; 2],
    },
}

impl fmt::Display for OutlineError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooFewNodes { found } => {
                write!(f, "an outline needs two corners and more, not {found}")
            }
            Self::TooManyNodes { found, most } => {
                write!(f, "an outline has at most {most} corners, not {found}")
            }
            Self::NotFinite { node } => write!(f, "corner {node} is not a finite place"),
            Self::NoSide { node } => write!(f, "the side from corner {node} has no length"),
            Self::NotCounterClockwise => {
                f.write_str("the outline runs clockwise or encloses nothing")
            }
            Self::Spike { node } => {
                write!(f, "the outline turns straight back at corner {node}")
            }
            Self::Crossing { sides: [a, b] } => write!(f, "sides {a} and {b} cross"),
        }
    }
}

impl core::error::Error for OutlineError {}
