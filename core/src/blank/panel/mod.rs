//! The panels of a tank: what is cut from sheet in one piece.
//!
//! A panel is one face, or several joined by folds. Its [`Blank`](super::Blank) is the flat piece that it
//! is made of.

mod axes;
mod group;

pub use axes::Axes;
pub use group::{Groups, Halves};

use core::fmt;

use heapless::Vec;

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
    /// Area of its faces outside.
    pub outside_area: Area,
    /// Area of its blank before holes; for a dished end, that of the middle of its sheet.
    pub blank_area: Area,
    /// Thickness of its sheet.
    pub thickness: Length,
    /// Mass of its blank.
    pub mass: Mass,
}

impl Panel {
    /// Its first face.
    #[must_use]
    pub fn face(&self) -> Face {
        self.faces.first().copied().unwrap_or(Face::Front)
    }
}
