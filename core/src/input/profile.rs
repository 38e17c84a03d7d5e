//! An outline carried from the front of the tank to its back, as its maker describes it.

use heapless::Vec;

use super::Sized;
use super::limits::MAX_SIDES;
use crate::units::Length;

/// One point of an outline.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct ProfilePoint {
    /// Left to right.
    pub x: Length,
    /// Bottom to top.
    pub z: Length,
    /// Radius of the corner on the surface that is sized; zero leaves it sharp.
    pub radius: Length,
}

/// An outline in x and z carried along y.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Profile {
    /// What the sizes measure.
    pub sized: Sized,
    /// The outline, either way round; side n runs from point n to the next.
    pub outline: Vec<ProfilePoint, MAX_SIDES>,
    /// From front to back.
    pub width: Length,
}
