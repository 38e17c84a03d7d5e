//! An outline that owns its nodes.

use heapless::Vec;

use super::error::{MOST_NODES, OutlineError};
use super::extents::Extents;
use super::node::{Node, Placing, Point};
use super::ring::Ring;

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
