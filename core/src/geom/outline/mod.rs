//! Closed outlines in a plane: sides, areas, centroids, containment, crossing, offset, clipping.
//!
//! All coordinates are in metres, x to the right and y up. An outline runs counter-clockwise: what it
//! encloses lies to the left of each side. Three forms are kept, since each caller holds another thing:
//!
//! - [`Outline`] and [`Ring`]: nodes and bulges, as a cutting file has them. Straight [`Side`]s and arcs of
//!   any sweep; area, perimeter, extents, whether a point lies inside, whether two cross or overlap. Flat
//!   blanks are these.
//! - [`section`]: corners with a radius, as a maker draws a profile. Area, centroid and moment below a
//!   level, the prism over it, the offset by a sheet for each side.
//! - `polygon`: plain corners without arcs, for what is clipped: the part below a line or within a
//!   rectangle.
//!
//! They share the products of two steps. What looks alike beyond that does not give the same last bit
//! (an area summed about the first corner, about a point of the level or about the origin; a half chord
//! as `√(r² − m²)` or as `√((r − m)(r + m))`), and a figure once printed stays: where two forms of one
//! formula stand side by side, a comment says so.

mod contact;
mod error;
mod extents;
mod node;
mod owned;
pub(crate) mod polygon;
mod ring;
pub mod section;
mod side;
#[cfg(test)]
pub(crate) mod tests;

pub use error::{MOST_NODES, OutlineError};
pub use extents::Extents;
pub use node::{Node, Placing, Point};
pub use owned::Outline;
pub use ring::Ring;
pub(crate) use ring::area_about_origin;
pub use side::Side;

/// Lengths that differ by no more than this many metres count as equal: a tenth of a micrometre, far
/// below what any cut holds and far above what rounding does to a tank.
pub const TOUCH: f64 = 1e-7;

/// The vector product of two steps in the plane: above zero where the second lies to the left.
pub(crate) fn cross(a: [f64; 2], b: [f64; 2]) -> f64 {
    a[0] * b[1] - a[1] * b[0]
}

/// The scalar product of two steps in the plane.
pub(crate) fn dot(a: [f64; 2], b: [f64; 2]) -> f64 {
    a[0] * b[0] + a[1] * b[1]
}
