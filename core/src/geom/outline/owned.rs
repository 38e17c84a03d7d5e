//! An outline that owns its nodes.

use core::fmt;

use heapless::Vec;

use super::{Extents, Node, Placing, Point, Ring};

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

/// A closed outline, counter-clockwise, of straight sides and arcs; about 2 KiB.
///
/// Only [`Outline::EMPTY`] has no nodes; it encloses nothing and stands for a place to be written to.
#[derive(Clone, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Outline {
    nodes: Vec<Node, MOST_NODES>,
}

impl Outline {
    /// No outline yet.
    pub const EMPTY: Self = Self { nodes: Vec::new() };

    /// From its nodes, of which the last leads back to the first.
    ///
    /// # Errors
    ///
    /// As [`Ring::new`], and where there are more than [`MOST_NODES`].
    pub fn new(nodes: &[Node]) -> Result<Self, OutlineError> {
        let too_many = OutlineError::TooManyNodes {
            found: u32::try_from(nodes.len()).unwrap_or(u32::MAX),
            most: MOST_NODES as u32,
        };
        if nodes.len() > MOST_NODES {
            return Err(too_many);
        }
        Ring::new(nodes)?;
        Ok(Self {
            nodes: Vec::from_slice(nodes).map_err(|_| too_many)?,
        })
    }

    /// Its nodes.
    #[must_use]
    pub fn nodes(&self) -> &[Node] {
        &self.nodes
    }

    /// The same outline, to be asked.
    #[must_use]
    pub fn ring(&self) -> Ring<'_> {
        Ring::of(&self.nodes)
    }

    /// See [`Ring::area`].
    #[must_use]
    pub fn area(&self) -> f64 {
        self.ring().area()
    }

    /// See [`Ring::perimeter`].
    #[must_use]
    pub fn perimeter(&self) -> f64 {
        self.ring().perimeter()
    }

    /// See [`Ring::extents`].
    #[must_use]
    pub fn extents(&self) -> Option<Extents> {
        self.ring().extents()
    }

    /// See [`Ring::contains`].
    #[must_use]
    pub fn contains(&self, point: Point) -> bool {
        self.ring().contains(point)
    }

    /// See [`Ring::crossing`].
    #[must_use]
    pub fn crossing(&self) -> Option<[usize; 2]> {
        self.ring().crossing()
    }

    /// See [`Ring::overlaps`].
    #[must_use]
    pub fn overlaps(&self, other: &Self) -> bool {
        self.ring().overlaps(&other.ring())
    }

    /// Moves it.
    pub fn place(&mut self, placing: Placing) {
        for node in &mut self.nodes {
            *node = placing.node(*node);
        }
    }

    pub(crate) fn clear(&mut self) {
        self.nodes.clear();
    }

    pub(crate) fn nodes_mut(&mut self) -> &mut Vec<Node, MOST_NODES> {
        &mut self.nodes
    }
}
