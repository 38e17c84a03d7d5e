//! From a shape to its body.

use core::fmt;

use super::{BlockError, Body, DrumError, ProfileError, SheetPlan, TaperError};
use crate::input::Shape;

/// Why a shape with its sheet makes no tank.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum ShapeError {
    /// A block does not build.
    Block(BlockError),
    /// A profile does not build.
    Profile(ProfileError),
    /// A taper does not build.
    Taper(TaperError),
    /// A drum does not build.
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
    /// The outside and the inside of this shape in the given sheet.
    ///
    /// # Errors
    /// [`ShapeError`] names the part at fault.
    pub fn body(&self, sheet: &SheetPlan) -> Result<Body, ShapeError> {
        let mut body = Body::EMPTY;
        self.make(sheet, &mut body)?;
        Ok(body)
    }

    /// [`Shape::build`], made where the body is to stay. What is left in `body` after an error is of no use.
    pub(crate) fn make(&self, sheet: &SheetPlan, body: &mut Body) -> Result<(), ShapeError> {
        match self {
            Self::Block(block) => block.make(sheet, body).map_err(ShapeError::Block),
            Self::Profile(profile) => profile.make(sheet, body).map_err(ShapeError::Profile),
            Self::Taper(taper) => taper.make(sheet, body).map_err(ShapeError::Taper),
            Self::Drum(drum) => drum.make(sheet, body).map_err(ShapeError::Drum),
        }
    }
}
