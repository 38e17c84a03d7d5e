//! Flat shapes of sheet: outlines of straight sides and arcs, and parts joined by folds laid out flat.
//!
//! All coordinates are in metres, x to the right and y up. An outline runs counter-clockwise: the sheet
//! lies to the left of each side.

mod contact;
mod node;
mod outline;
mod ring;
mod side;
#[cfg(test)]
mod tests;
pub mod unfold;

pub use node::{Node, Placing, Point};
pub use outline::{MOST_NODES, Outline, OutlineError};
pub use ring::{Extents, Ring};
pub use side::Side;
pub use unfold::{
    BendLine, FoldLink, LinkField, MOST_PARTS, PartSide, UnfoldError, Unfolded, unfold,
};

/// Lengths that differ by no more than this many metres count as equal: a tenth of a micrometre, far
/// below what any cut holds and far above what rounding does to a tank.
pub const TOUCH: f64 = 1e-7;
