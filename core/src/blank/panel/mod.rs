//! The panels of a tank: what is cut from sheet in one piece.
//!
//! A panel is one face, or several joined by folds. Its [`blank`] is the flat piece that it is made of.

mod axes;
pub(crate) mod blank;
mod group;
mod part;

pub use axes::Axes;
pub use blank::{Blank, BlankError};
pub use group::{Groups, Halves};

use core::fmt;

use heapless::Vec;

use super::fold::{Bend, MOST_SETBACK_TURN};
use super::joint::{EdgeFit, Joints, Meeting, same};
use crate::body::{Body, Edge, Sheet};
use crate::input::Face;
use crate::input::limits::MAX_FACES;
use crate::units::{Area, Length, Mass};

/// The mark of a panel: A for the one that holds the first face of the body, B for the next; baffles
/// follow, and fittings are numbered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct PanelMark(u8);

/// Marks from here on are fittings'.
const FITTINGS: u8 = 26;

impl PanelMark {
    /// The mark of the panel at `place` in the list, counted from 0. Bodies have at most 16 faces, and
    /// four baffles.
    #[must_use]
    pub const fn at(place: u8) -> Self {
        Self(place)
    }

    /// The mark of the n-th fitting, counted from 1.
    #[must_use]
    pub const fn fitting(number: u8) -> Self {
        Self(FITTINGS.saturating_add(number))
    }

    /// Its place in the list, counted from 0.
    pub(crate) const fn place(self) -> u8 {
        self.0
    }

    /// The letter; `None` for a fitting.
    #[must_use]
    pub fn letter(self) -> Option<char> {
        (self.0 < FITTINGS).then(|| char::from(b'A' + self.0))
    }
}

impl fmt::Display for PanelMark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        use fmt::Write;
        match self.letter() {
            Some(letter) => f.write_char(letter),
            None => write!(f, "{}", self.0.saturating_sub(FITTINGS)),
        }
    }
}

/// How a panel is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Making {
    /// Cut flat, and left flat.
    Flat,
    /// Cut flat and bent.
    Bent,
    /// Cut flat and rolled round.
    Rolled,
    /// Dished: bought, or spun by someone who does.
    Dished,
}

impl Making {
    /// The word for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Flat => "flat",
            Self::Bent => "bent",
            Self::Rolled => "rolled",
            Self::Dished => "dished",
        }
    }
}

/// One panel.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Panel {
    /// Its mark.
    pub mark: PanelMark,
    /// The faces that it makes, in the order of the body's.
    pub faces: Vec<Face, MAX_FACES>,
    /// How it is made.
    pub making: Making,
    /// Of its faces outside.
    pub outside_area: Area,
    /// Of its blank before holes; of a dished end, of the middle of its sheet.
    pub blank_area: Area,
    /// Of its sheet.
    pub thickness: Length,
    /// Of its blank.
    pub mass: Mass,
}

impl Panel {
    /// Its first face.
    #[must_use]
    pub fn face(&self) -> Face {
        self.faces.first().copied().unwrap_or(Face::Front)
    }
}

/// What the panels and seams of a tank follow from.
#[derive(Clone, Copy, Debug)]
pub struct Plan<'a> {
    /// The body.
    pub body: &'a Body,
    /// Its sheet.
    pub sheet: &'a Sheet,
    /// Its joints.
    pub joints: &'a Joints,
    /// Edges at which blanks are cut larger than joints alone ask for; mostly none.
    pub larger: &'a [Allowance],
}

/// By how much the blanks that meet at an edge are cut larger, because its seam draws them in.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Allowance {
    /// The faces of the edge, in either order; one twice for the line along which a wall is closed on itself.
    pub faces: [Face; 2],
    /// Of each of its two sides.
    pub each: Length,
}

impl<'a> Plan<'a> {
    /// By how much each side of the edge between two faces is cut larger, in metres.
    pub(crate) fn larger_at(&self, faces: [Face; 2]) -> f64 {
        let own = self.larger.iter().find(|one| same(one.faces, faces));
        own.map_or(0.0, |one| one.each.si())
    }

    /// Which faces are one panel.
    #[must_use]
    pub fn groups(&self) -> Groups {
        Groups::of(self)
    }

    /// What the joint at a welded edge leaves of the panel that makes `face`; nothing is given up at a
    /// fold, or where the joint cannot be made.
    #[must_use]
    pub fn edge_fit(&self, face: Face, edge: &Edge) -> EdgeFit {
        part::fit_at(self, face, edge).unwrap_or_default()
    }

    /// The bend at a folded edge.
    pub(crate) fn bend(&self, edge: &Edge) -> Result<Bend, BlankError> {
        part::bend_at(self, edge)
    }

    /// How far from the sharp outside edge a fold's bend begins, in metres; nothing for a bend that
    /// cannot be made.
    pub(crate) fn setback(&self, edge: &Edge) -> f64 {
        part::bend_at(self, edge).map_or(0.0, |bend| {
            let towards = edge.dihedral.si() > core::f64::consts::PI;
            let outside =
                bend.inside_radius().si() + if towards { 0.0 } else { bend.thickness().si() };
            outside * libm::tan(0.5 * bend.turn().si())
        })
    }

    /// Whether the joint or the bend at an edge can be made.
    ///
    /// # Errors
    /// [`BlankError`] says why not.
    pub fn check(&self, edge: &Edge) -> Result<(), BlankError> {
        match self.joints.at(edge) {
            Meeting::Folded => {
                let bend = part::bend_at(self, edge)?;
                if bend.turn() < MOST_SETBACK_TURN {
                    return Ok(());
                }
                Err(BlankError::Sharp {
                    faces: edge.faces,
                    turn: bend.turn(),
                    most: MOST_SETBACK_TURN,
                })
            }
            Meeting::Welded { .. } => part::fit_at(self, edge.faces[0], edge).map(|_| ()),
        }
    }

    /// The panels, in sheet of `density` kg/m³.
    pub fn panels(self, density: f64) -> impl Iterator<Item = Panel> + use<'a> {
        let groups = self.groups();
        (0..groups.count()).map(move |place| self.panel(&groups, place, density))
    }

    fn panel(&self, groups: &Groups, place: u8, density: f64) -> Panel {
        let outside = &self.body.outside;
        let mut panel = Panel {
            mark: PanelMark::at(place),
            faces: Vec::new(),
            making: Making::Flat,
            outside_area: Area::default(),
            blank_area: Area::default(),
            thickness: Length::default(),
            mass: Mass::default(),
        };
        let mut area = 0.0;
        for (view, at) in outside.faces().zip(0_usize..) {
            if groups.panel_of(at) != Some(place) {
                continue;
            }
            let face = view.face();
            // A body has at most as many faces as a panel may have.
            let _ = panel.faces.push(face);
            area += view.area().si();
            panel.thickness = self.sheet.of(face);
            panel.making = match (face, view.is_flat()) {
                (Face::Shell, _) => Making::Rolled,
                (_, false) => Making::Dished,
                (_, true) => Making::Flat,
            };
        }
        panel.outside_area = Area::from_square_metres(area);
        if panel.making == Making::Flat && groups.is_bent(self, place) {
            panel.making = Making::Bent;
        }
        // A blank that cannot be made is refused when the tank is built; here it counts as nothing.
        let blank = blank::area(self, groups, &panel).unwrap_or(0.0);
        panel.blank_area = Area::from_square_metres(blank);
        panel.mass = Mass::from_kilograms(blank * panel.thickness.si() * density);
        panel
    }
}
