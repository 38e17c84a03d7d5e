//! The tank as a solid.
//!
//! A [`Block`] is what its maker describes: a box with plane cuts. From it and the sheet comes a
//! [`Body`]: two [`Solid`]s, the outside and the inside of the sheet. A solid knows its volume,
//! centroid, faces and edges, and how much of it lies below a plane; nothing in it is special to
//! boxes, and its sums hold for bodies with inside corners as well.

mod block;
mod clip;
mod face;
mod solid;

pub use block::{Block, BlockError, Cut, Sheet, Sized};
pub use face::{Face, MAX_CUTS, NotAFace};
pub use solid::{Edge, FaceView, MAX_EDGES, MAX_FACES, MAX_VERTICES, Solid};

/// The outside and the inside of the sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    /// Over the sheet.
    pub outside: Solid,
    /// What the sheet encloses.
    pub inside: Solid,
}

impl Body {
    /// A place for a body that is about to be made.
    pub(crate) const EMPTY: Self = Self {
        outside: Solid::EMPTY,
        inside: Solid::EMPTY,
    };
}
