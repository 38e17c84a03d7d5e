//! The upright rectangle about an outline or one of its sides.

use super::node::Point;

/// The smallest upright rectangle around an outline.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Extents {
    /// Its lower left corner.
    pub least: Point,
    /// Its upper right corner.
    pub most: Point,
}

impl Extents {
    /// Its size to the right, in metres.
    #[must_use]
    pub fn width(&self) -> f64 {
        self.most.x - self.least.x
    }

    /// Its size upward, in metres.
    #[must_use]
    pub fn height(&self) -> f64 {
        self.most.y - self.least.y
    }

    /// Whether more than a touch of both lies on top of each other.
    pub(super) fn meets(&self, other: &Self) -> bool {
        self.least.x < other.most.x
            && other.least.x < self.most.x
            && self.least.y < other.most.y
            && other.least.y < self.most.y
    }
}
