//! A rectangle below and another above it, as its maker describes it.

use super::Sized;
use crate::units::Length;

/// A body between two level rectangles, its four walls plane.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Taper {
    /// What the sizes measure.
    pub sized: Sized,
    /// The rectangle below, along x and y.
    pub base: [Length; 2],
    /// The rectangle above, along x and y.
    pub top: [Length; 2],
    /// Between the two.
    pub height: Length,
    /// From the centre of the base to the centre of the top, along x and y.
    pub shift: [Length; 2],
}

impl Taper {
    /// A rectangle below and another centred above it, sized outside: each along x and y, and the height
    /// between them.
    #[must_use]
    pub const fn new(base: [Length; 2], top: [Length; 2], height: Length) -> Self {
        Self {
            sized: Sized::Outside,
            base,
            top,
            height,
            shift: [Length::from_metres(0.0); 2],
        }
    }
}
