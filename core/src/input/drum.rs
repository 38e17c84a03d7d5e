//! A round wall between two ends, as its maker describes it.

use super::{Face, Sized};
use crate::geom::Vector;
use crate::units::Length;

/// Which way a drum stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Axis {
    /// Its axis runs up, along z; its ends are the bottom and the top.
    #[default]
    Upright,
    /// Its axis runs from left to right, along x; its ends are the left and the right.
    Lying,
}

impl Axis {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Upright, Self::Lying];

    /// The word for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Upright => "upright",
            Self::Lying => "lying",
        }
    }

    /// The names of the two ends, the one nearer the origin first.
    #[must_use]
    pub const fn heads(self) -> [Face; 2] {
        match self {
            Self::Upright => [Face::Bottom, Face::Top],
            Self::Lying => [Face::Left, Face::Right],
        }
    }

    /// Unit direction of the axis.
    #[must_use]
    pub const fn along(self) -> Vector {
        match self {
            Self::Upright => Vector::new(0.0, 0.0, 1.0),
            Self::Lying => Vector::new(1.0, 0.0, 0.0),
        }
    }

    /// Unit direction across the axis to where the wall is closed: the back of an upright drum, the top
    /// of a lying one, above the liquid.
    #[must_use]
    pub const fn to_seam(self) -> Vector {
        match self {
            Self::Upright => Vector::new(0.0, 1.0, 0.0),
            Self::Lying => Vector::new(0.0, 0.0, 1.0),
        }
    }
}

/// The form of a drum's ends.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Ends {
    /// Flat discs.
    #[default]
    Flat,
    /// Half spheres.
    Hemispherical,
    /// Half ellipsoids, half as deep as they are wide across the radius.
    Ellipsoidal,
    /// A spherical crown and a rounded knuckle.
    Torispherical {
        /// Radius of the crown, on the surface that is sized.
        crown: Length,
        /// Radius of the knuckle, on the surface that is sized.
        knuckle: Length,
    },
}

impl Ends {
    /// The words for it.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Flat => "flat",
            Self::Hemispherical => "hemispherical",
            Self::Ellipsoidal => "ellipsoidal 2:1",
            Self::Torispherical { .. } => "torispherical",
        }
    }
}

/// A drum: a round wall and two like ends.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Drum {
    /// What the sizes measure. A dished end of even thickness has its named form on the surface that
    /// is sized; see [`Drum::body`] for the other.
    pub sized: Sized,
    /// Across the wall.
    pub diameter: Length,
    /// Length of the straight wall: over flat ends where the outside is sized, between them where the inside
    /// is; between the lines where dished ends begin.
    pub length: Length,
    /// Which way it stands.
    pub axis: Axis,
    /// Its ends.
    pub ends: Ends,
}

impl Drum {
    /// An upright drum with flat ends, sized outside: across its wall and over its ends.
    #[must_use]
    pub const fn new(diameter: Length, length: Length) -> Self {
        Self {
            sized: Sized::Outside,
            diameter,
            length,
            axis: Axis::Upright,
            ends: Ends::Flat,
        }
    }
}
