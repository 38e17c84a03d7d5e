//! The panels of a tank: one for each face.
//!
//! The joint known so far is the open corner, whose square-cut blanks meet on their inside edges; the
//! blank of a panel is then the inside face itself.

use core::fmt;

use crate::body::{Body, Face};
use crate::quantity::{Area, Length, Mass};

/// The letter that marks a panel: A for the first face of the body, B for the next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct PanelMark(u8);

impl PanelMark {
    /// The mark of the panel at `place` in the list, counted from 0. Bodies have at most 16 faces.
    #[must_use]
    pub const fn at(place: u8) -> Self {
        Self(place)
    }

    /// The letter.
    #[must_use]
    pub fn letter(self) -> char {
        char::from(b'A'.saturating_add(self.0.min(25)))
    }
}

impl fmt::Display for PanelMark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        use fmt::Write;
        f.write_char(self.letter())
    }
}

/// One panel.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Panel {
    /// Its mark.
    pub mark: PanelMark,
    /// The face that it makes.
    pub face: Face,
    /// Of the face outside.
    pub outside_area: Area,
    /// Of the blank, cut for open corners.
    pub blank_area: Area,
    /// Of its sheet.
    pub thickness: Length,
    /// Of the blank.
    pub mass: Mass,
}

/// The panels of a body in a sheet of `density` kg/m³, whose thickness at each face `thickness` tells.
pub fn panels(
    body: &Body,
    density: f64,
    thickness: impl Fn(Face) -> Length,
) -> impl Iterator<Item = Panel> {
    body.outside.faces().zip(0_u8..).map(move |(view, place)| {
        let face = view.face();
        // A face that the sheet takes whole has no inside, and its blank no area; a notice says so.
        let blank_area = body
            .inside
            .face(face)
            .map_or(Area::default(), |inside| inside.area());
        let thickness = thickness(face);
        Panel {
            mark: PanelMark::at(place),
            face,
            outside_area: view.area(),
            blank_area,
            thickness,
            mass: Mass::from_kilograms(blank_area.si() * thickness.si() * density),
        }
    })
}
