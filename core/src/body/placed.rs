//! A drum where it stands in the tank.

use super::turned::Turned;
use crate::geom::Vector;
use crate::input::Axis;

/// A turned body where it stands in the tank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct PlacedDrum {
    pub(crate) turned: Turned,
    /// Where the axis meets the plane in which the first end begins.
    pub(crate) start: Vector,
    pub(crate) axis: Axis,
}
