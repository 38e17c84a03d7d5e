//! The faces of a body, by name.

use core::fmt;
use core::str::FromStr;

/// Cuts a block may have.
pub const MAX_CUTS: usize = 8;

/// A face of a block: one of the six of the box, or the plane that a cut left.
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

    /// The axis that a face of the box stands across: 0 for x, 1 for y, 2 for z; `None` for a cut.
    #[must_use]
    pub const fn axis(self) -> Option<usize> {
        match self {
            Self::Left | Self::Right => Some(0),
            Self::Front | Self::Back => Some(1),
            Self::Bottom | Self::Top => Some(2),
            Self::Cut(_) => None,
        }
    }

    /// Whether it is the face at the large end of its axis; false for a cut.
    #[must_use]
    pub const fn is_far(self) -> bool {
        matches!(self, Self::Back | Self::Right | Self::Top)
    }
}

impl fmt::Display for Face {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Cut(n) => write!(f, "cut {n}"),
            face => f.write_str(named(*face)),
        }
    }
}

/// A word that names no face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotAFace;

impl fmt::Display for NotAFace {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a face is front, back, left, right, bottom, top, or cut 1, cut 2 …")
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
        let number = text
            .strip_prefix("cut")
            .map(str::trim)
            .and_then(|n| n.parse::<u8>().ok());
        match number {
            Some(n) if n >= 1 && usize::from(n) <= MAX_CUTS => Ok(Self::Cut(n)),
            _ => Err(NotAFace),
        }
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
    }
}
