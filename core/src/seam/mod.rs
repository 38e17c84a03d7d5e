//! Seams: where two panels meet and what joins them there.

mod tack;

pub use tack::{TACK_LENGTH, TACK_PITCH, Tacks};

use core::fmt;

use crate::body::{Body, Edge, Face};
use crate::geom::Vector;
use crate::panel::PanelMark;
use crate::quantity::{Angle, Length};

/// How two panels meet along an edge.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Joint {
    /// Both panels cut square and set edge to edge, so that their inside edges touch and leave an open
    /// groove outside.
    #[default]
    OpenCorner,
}

impl Joint {
    /// Every joint.
    pub const ALL: [Self; 1] = [Self::OpenCorner];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::OpenCorner => "open corner",
        }
    }
}

/// The mark of a seam: the letters of the two panels that it joins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct SeamMark(pub [PanelMark; 2]);

impl fmt::Display for SeamMark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [a, b] = self.0;
        write!(f, "{a}{b}")
    }
}

/// One seam.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Seam {
    /// Its mark.
    pub mark: SeamMark,
    /// The edge of the outside body that it follows.
    pub faces: [Face; 2],
    /// Start and end of that edge, in metres from the outside corner of the tank.
    pub ends: [Vector; 2],
    /// How the panels meet.
    pub joint: Joint,
    /// Its length, along the outside edge.
    pub length: Length,
    /// The inside angle between the panels.
    pub dihedral: Angle,
    /// Whether it is welded (and not folded).
    pub welded: bool,
    /// The thinner of the two sheets.
    pub thinner: Length,
    /// The thicker of the two sheets.
    pub thicker: Length,
}

/// The seams of a body, one for each outside edge and in the same order, all joined by `joint`.
pub fn seams(
    body: &Body,
    joint: Joint,
    thickness: impl Fn(Face) -> Length,
) -> impl Iterator<Item = Seam> {
    body.outside.edges().map(move |edge| {
        let sheets = edge.faces.map(&thickness).map(Length::si);
        let [a, b] = sheets;
        Seam {
            mark: mark(body, &edge),
            faces: edge.faces,
            joint,
            ends: edge.ends,
            length: edge.length(),
            dihedral: edge.dihedral,
            welded: true,
            thinner: Length::from_metres(libm::fmin(a, b)),
            thicker: Length::from_metres(libm::fmax(a, b)),
        }
    })
}

fn mark(body: &Body, edge: &Edge) -> SeamMark {
    SeamMark(edge.faces.map(|face| {
        let place = body
            .outside
            .faces()
            .zip(0_u8..)
            .find(|(view, _)| view.face() == face);
        PanelMark::at(place.map_or(0, |(_, place)| place))
    }))
}
