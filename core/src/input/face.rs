//! The faces of a body, by name.

use core::fmt;
use core::str::FromStr;

use super::limits::{MAX_CUTS, MAX_SIDES};

/// A face of a body: one of the six of a box, the plane that a cut left, a side of a profile, or the
/// shell of a drum; also what is welded to faces inside.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Face {
    /// y = 0.
    Front,
    /// y at its largest.
    Back,
    /// x = 0.
    Left,
    /// x at its largest.
    Right,
    /// z = 0.
    Bottom,
    /// z at its largest.
    Top,
    /// What the n-th cut left, counted from 1.
    Cut(u8),
    /// The n-th side of a profile, counted from 1: from its n-th point to the next.
    Side(u8),
    /// The round wall of a drum.
    Shell,
    /// The n-th baffle, counted from 1: no face of the body, but welded to some.
    Baffle(u8),
    /// The n-th fitting, counted from 1: no face of the body, but welded to one.
    Fitting(u8),
}

impl Face {
    /// The six faces of the box, in the order in which panels are listed.
    pub const BOX: [Self; 6] = [
        Self::Front,
        Self::Back,
        Self::Left,
        Self::Right,
        Self::Bottom,
        Self::Top,
    ];

    /// The axis that a face of the box stands across: 0 for x, 1 for y, 2 for z; `None` for any other.
    #[must_use]
    pub const fn axis(self) -> Option<usize> {
        match self {
            Self::Left | Self::Right => Some(0),
            Self::Front | Self::Back => Some(1),
            Self::Bottom | Self::Top => Some(2),
            _ => None,
        }
    }

    /// Whether it is the face at the large end of its axis; false for any other.
    #[must_use]
    pub const fn is_far(self) -> bool {
        matches!(self, Self::Back | Self::Right | Self::Top)
    }
}

impl fmt::Display for Face {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Cut(n) => write!(f, "cut {n}"),
            Self::Side(n) => write!(f, "side {n}"),
            Self::Baffle(n) => write!(f, "baffle {n}"),
            Self::Fitting(n) => write!(f, "fitting {n}"),
            face => f.write_str(named(*face)),
        }
    }
}

/// A word that names no face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotAFace;

impl fmt::Display for NotAFace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(
            "a face is front, back, left, right, bottom or top; cut 1, cut 2 … on a block; side 1, side 2 … on a profile; shell on a drum",
        )
    }
}

impl core::error::Error for NotAFace {}

impl FromStr for Face {
    type Err = NotAFace;

    fn from_str(text: &str) -> Result<Self, NotAFace> {
        let text = text.trim();
        if let Some(face) = Self::BOX.iter().find(|face| named(**face) == text) {
            return Ok(*face);
        }
        if text == named(Self::Shell) {
            return Ok(Self::Shell);
        }
        let numbered = |word: &str, most: usize| {
            let number = text.strip_prefix(word)?.trim().parse::<u8>().ok()?;
            (1..=most).contains(&usize::from(number)).then_some(number)
        };
        if let Some(number) = numbered(named(Self::Cut(0)), MAX_CUTS) {
            return Ok(Self::Cut(number));
        }
        if let Some(number) = numbered(named(Self::Side(0)), MAX_SIDES) {
            return Ok(Self::Side(number));
        }
        Err(NotAFace)
    }
}

const fn named(face: Face) -> &'static str {
    match face {
        Face::Front => "front",
        Face::Back => "back",
        Face::Left => "left",
        Face::Right => "right",
        Face::Bottom => "bottom",
        Face::Top => "top",
        Face::Cut(_) => "cut",
        Face::Side(_) => "side",
        Face::Shell => "shell",
        Face::Baffle(_) => "baffle",
        Face::Fitting(_) => "fitting",
    }
}
