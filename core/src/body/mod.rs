//! The tank as a solid.
//!
//! From a [`Shape`](crate::input::Shape), as its maker describes it, and the [`SheetPlan`] comes a [`Body`]:
//! two [`Solid`]s, the outside and the inside of the sheet. A solid knows its volume, centroid, faces and
//! edges, and how much of it lies below a plane, whatever its shape.

mod block;
mod clip;
mod drum;
mod path;
mod placed;
mod plate;
mod profile;
mod round;
mod shape;
mod sheet;
mod solid;
mod taper;
pub mod turned;

pub use block::BlockError;
pub use drum::DrumError;
pub use path::{ArcPath, Path};
pub(crate) use placed::PlacedDrum;
pub use plate::FlatForm;
pub(crate) use plate::{MAX_PLATE_CORNERS, disc_below};
pub use profile::ProfileError;
pub use shape::ShapeError;
pub use sheet::SheetPlan;
pub(crate) use solid::clipped_area_vector;
pub use solid::{Edge, FaceView, MAX_EDGES, MAX_VERTICES, Solid};
pub use taper::TaperError;

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
