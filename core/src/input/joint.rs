//! How the edges of a tank are joined, as its maker describes it.

use super::Face;
use crate::tables::ranges::SeamKind;

/// How two panels are welded together along an edge.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Joint {
    /// Both panels cut square and set edge to edge, so that their inside edges touch and leave an open
    /// groove outside.
    #[default]
    OpenCorner,
    /// The first panel covers half of the second one's edge.
    HalfOpenCorner,
    /// The first panel covers the whole of the second one's edge.
    ClosedCorner,
    /// Edge to edge in one plane.
    Butt,
    /// The first panel runs past the corner, the second lands on its inner face.
    Tee,
    /// In one plane, the second panel stepped inward by its thickness to lap under the first.
    JoggleLap,
    /// The second panel ends in a folded flange that lies on the inner face of the first.
    FlangedLap,
}

impl Joint {
    /// Every joint.
    pub const ALL: [Self; 7] = [
        Self::OpenCorner,
        Self::HalfOpenCorner,
        Self::ClosedCorner,
        Self::Butt,
        Self::Tee,
        Self::JoggleLap,
        Self::FlangedLap,
    ];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::OpenCorner => "open corner",
            Self::HalfOpenCorner => "half-open corner",
            Self::ClosedCorner => "closed corner",
            Self::Butt => "butt",
            Self::Tee => "tee",
            Self::JoggleLap => "joggle lap",
            Self::FlangedLap => "flanged lap",
        }
    }

    /// Whether it joins two panels in one plane, and no others.
    #[must_use]
    pub const fn is_flat(self) -> bool {
        matches!(self, Self::Butt | Self::JoggleLap)
    }

    /// Whether the lap given with the joints has a say in it.
    #[must_use]
    pub const fn laps(self) -> bool {
        matches!(self, Self::Tee | Self::JoggleLap | Self::FlangedLap)
    }
}

/// An edge with a joint of its own.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct OwnJoint {
    /// The two faces; the first one's panel runs through where the joint has one that does.
    pub faces: [Face; 2],
    /// The joint.
    pub joint: Joint,
}

impl SeamKind {
    /// What kind of seam a joint makes.
    #[must_use]
    pub const fn of(joint: Joint) -> Self {
        match joint {
            Joint::Butt => Self::Butt,
            Joint::OpenCorner | Joint::HalfOpenCorner | Joint::ClosedCorner => Self::Corner,
            Joint::Tee | Joint::JoggleLap | Joint::FlangedLap => Self::Fillet,
        }
    }
}
