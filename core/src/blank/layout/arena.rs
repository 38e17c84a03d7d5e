//! The parts of a panel before they are laid out, in one place that a small stack has room for.

use heapless::Vec;

use super::MAX_PARTS;
use super::part::{Part, PartSide as Side};
use crate::geom::outline::Node;
use crate::input::Face;

/// Corners of all parts of a panel together: a corner a side, and another for each that is rounded.
const MOST_NODES: usize = 80;
/// Sides of all parts of a panel together.
const MOST_SIDES: usize = 54;

/// The parts of a panel, all their nodes and sides in one place.
#[derive(Debug, Default)]
pub(super) struct Arena<const N: usize = MOST_NODES> {
    nodes: Vec<Node, N>,
    sides: Vec<Side, MOST_SIDES>,
    pub(super) parts: Vec<Entry, MAX_PARTS>,
}

#[derive(Clone, Copy, Debug)]
pub(super) struct Entry {
    pub(super) face: Face,
    nodes: [u8; 2],
    sides: [u8; 2],
}

impl<const N: usize> Arena<N> {
    pub(super) fn add<const M: usize>(&mut self, face: Face, part: &Part<M>) -> Option<()> {
        let range = |before: usize, more: usize| {
            Some([
                u8::try_from(before).ok()?,
                u8::try_from(before + more).ok()?,
            ])
        };
        let entry = Entry {
            face,
            nodes: range(self.nodes.len(), part.nodes.len())?,
            sides: range(self.sides.len(), part.sides.len())?,
        };
        self.nodes.extend_from_slice(&part.nodes).ok()?;
        self.sides.extend_from_slice(&part.sides).ok()?;
        self.parts.push(entry).ok()
    }

    pub(super) fn nodes_of(&self, entry: &Entry) -> &[Node] {
        let [start, end] = entry.nodes.map(usize::from);
        self.nodes.get(start..end).unwrap_or_default()
    }

    pub(super) fn sides_of(&self, entry: &Entry) -> &[Side] {
        let [start, end] = entry.sides.map(usize::from);
        self.sides.get(start..end).unwrap_or_default()
    }

    pub(super) fn run(&self, entry: &Entry, side: &Side) -> Option<[[f64; 2]; 2]> {
        let nodes = self.nodes_of(entry);
        let start = usize::from(side.node);
        let (a, b) = (
            nodes.get(start)?,
            nodes.get((start + 1) % nodes.len().max(1))?,
        );
        Some([[a.x, a.y], [b.x, b.y]])
    }

    /// The part and side beyond a fold. A parted side has two halves with one fold each.
    pub(super) fn across(&self, from: u8, side: &Side) -> Option<(u8, &Side)> {
        let other = side.fold?;
        let own = self.parts.get(usize::from(from))?;
        for (entry, place) in self.parts.iter().zip(0_u8..) {
            if entry.face != other || place == from {
                continue;
            }
            let found = self
                .sides_of(entry)
                .iter()
                .find(|side| side.fold == Some(own.face));
            if let Some(found) = found {
                return Some((place, found));
            }
        }
        None
    }
}
