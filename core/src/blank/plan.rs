//! What the panels and seams of a tank follow from.

use super::joint::{Joints, is_same_edge};
use crate::body::{Body, SheetPlan};
use crate::input::Face;
use crate::units::Length;

/// What the panels and seams of a tank follow from.
#[derive(Clone, Copy, Debug)]
pub struct PanelPlan<'a> {
    /// The body.
    pub body: &'a Body,
    /// Its sheet.
    pub sheet: &'a SheetPlan,
    /// Its joints.
    pub joints: &'a Joints,
    /// Edges at which blanks are cut larger than joints alone ask for; mostly none.
    pub allowances: &'a [Allowance],
}

/// By how much the blanks that meet at an edge are cut larger, because its seam draws them in.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Allowance {
    /// The faces of the edge, in either order; one twice for the line along which a wall is closed on itself.
    pub faces: [Face; 2],
    /// How much is added on each of its two sides.
    pub each: Length,
}

impl PanelPlan<'_> {
    /// By how much each side of the edge between two faces is cut larger, in metres.
    pub(crate) fn larger_at(&self, faces: [Face; 2]) -> f64 {
        let own = self
            .allowances
            .iter()
            .find(|one| is_same_edge(one.faces, faces));
        own.map_or(0.0, |one| one.each.si())
    }
}
