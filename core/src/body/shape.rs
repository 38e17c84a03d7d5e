//! The shapes that a tank can have.

use core::fmt;

use super::{
    Block, BlockError, Body, Drum, DrumError, Face, Profile, ProfileError, Sheet, Taper, TaperError,
};

/// Whether a size is measured over the sheet or between the inner faces.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Sized {
    /// Sizes and cuts describe the outside of the tank.
    #[default]
    Outside,
    /// Sizes and cuts describe the space inside; cuts are measured from the inside corner.
    Inside,
}

/// A tank's shape, as its maker describes it.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Shape {
    /// A box with plane cuts.
    Block(Block),
    /// An outline carried from the front to the back.
    Profile(Profile),
    /// A rectangle below, another above.
    Taper(Taper),
    /// A round wall between two ends.
    Drum(Drum),
}

/// Why a shape with its sheet makes no tank.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum ShapeError {
    /// Of a block.
    Block(BlockError),
    /// Of a profile.
    Profile(ProfileError),
    /// Of a taper.
    Taper(TaperError),
    /// Of a drum.
    Drum(DrumError),
}

impl fmt::Display for ShapeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Block(error) => error.fmt(f),
            Self::Profile(error) => error.fmt(f),
            Self::Taper(error) => error.fmt(f),
            Self::Drum(error) => error.fmt(f),
        }
    }
}

impl core::error::Error for ShapeError {}

impl Shape {
    /// What the sizes measure.
    #[must_use]
    pub const fn sized(&self) -> Sized {
        match self {
            Self::Block(block) => block.sized,
            Self::Profile(profile) => profile.sized,
            Self::Taper(taper) => taper.sized,
            Self::Drum(drum) => drum.sized,
        }
    }

    /// The word for its kind.
    #[must_use]
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::Block(_) => "block",
            Self::Profile(_) => "profile",
            Self::Taper(_) => "taper",
            Self::Drum(_) => "drum",
        }
    }

    /// Whether the shape has a face of that name, before sheet and cuts are looked at.
    #[must_use]
    pub fn has(&self, face: Face) -> bool {
        let among = |number: u8, count: usize| (1..=count).contains(&usize::from(number));
        match (self, face) {
            (Self::Block(block), Face::Cut(number)) => among(number, block.cuts.len()),
            (Self::Profile(profile), Face::Side(number)) => among(number, profile.outline.len()),
            (Self::Profile(_), Face::Front | Face::Back) => true,
            (Self::Drum(drum), face) => face == Face::Shell || drum.axis.heads().contains(&face),
            (Self::Profile(_), _) => false,
            (Self::Block(_) | Self::Taper(_), face) => face.axis().is_some(),
        }
    }

    /// The outside and the inside of this shape in the given sheet.
    ///
    /// # Errors
    /// [`ShapeError`] names the part at fault.
    pub fn body(&self, sheet: &Sheet) -> Result<Body, ShapeError> {
        let mut body = Body::EMPTY;
        self.make(sheet, &mut body)?;
        Ok(body)
    }

    /// The same, made where it is to stay. What is left in `body` after an error is of no use.
    pub(crate) fn make(&self, sheet: &Sheet, body: &mut Body) -> Result<(), ShapeError> {
        match self {
            Self::Block(block) => block.make(sheet, body).map_err(ShapeError::Block),
            Self::Profile(profile) => profile.make(sheet, body).map_err(ShapeError::Profile),
            Self::Taper(taper) => taper.make(sheet, body).map_err(ShapeError::Taper),
            Self::Drum(drum) => drum.make(sheet, body).map_err(ShapeError::Drum),
        }
    }
}
