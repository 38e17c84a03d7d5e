//! The tank as a solid.
//!
//! From a [`Shape`](crate::input::Shape), as its maker describes it, and the [`SheetPlan`] comes a [`Body`]:
//! two [`Solid`]s, the outside and the inside of the sheet. A solid knows its volume, centroid, faces and
//! edges, and how much of it lies below a plane, whatever its shape.

mod area;
mod block;
mod clip;
mod drum;
mod edge;
mod folded;
mod holds;
mod moment;
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

pub(crate) use area::{area_vector, clipped_area_vector};
pub use block::BlockError;
pub use drum::DrumError;
pub use edge::Edge;
pub use path::{ArcPath, Path};
pub(crate) use placed::PlacedDrum;
pub use plate::FlatForm;
pub(crate) use plate::{MAX_PLATE_CORNERS, disc_below};
pub use profile::ProfileError;
pub(crate) use round::half_turned;
pub use shape::ShapeError;
pub use sheet::SheetPlan;
pub use solid::{FaceView, MAX_EDGES, MAX_VERTICES, Solid};
pub use taper::TaperError;

use crate::input::Face;
use crate::input::limits::MAX_FOLDS;
use crate::units::Length;

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

    /// Rounds the folds of a body with plane faces, each with the inside radius of its bend and the sheet of
    /// its faces: at an inside corner of the body the inside of the bend is the tank's outside.
    pub(crate) fn fold(&mut self, folds: &[[Face; 2]], radius: Length, sheet: &SheetPlan) {
        let inner = radius.si();
        let reflex = |faces: [Face; 2], outside: &Solid| {
            let edge = outside.sharp_edge_between(faces);
            edge.is_some_and(|edge| edge.dihedral.si() > core::f64::consts::PI)
        };
        let mut radii = [(0.0, 0.0); MAX_FOLDS];
        for (faces, slot) in folds.iter().zip(&mut radii) {
            let outer = inner + sheet.of(faces[0]).si();
            *slot = if reflex(*faces, &self.outside) {
                (inner, outer)
            } else {
                (outer, inner)
            };
        }
        let all = folds.iter().copied();
        self.outside
            .fold(all.clone().zip(radii.map(|(outside, _)| outside)));
        self.inside.fold(all.zip(radii.map(|(_, inside)| inside)));
    }
}
