//! How thick the sheet of each face is.

use heapless::Vec;

use crate::input::Face;
use crate::input::limits::MAX_FACES;
use crate::units::Length;

/// The sheet thickness of each face: one for all, and faces of their own.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetPlan {
    all: Length,
    own: Vec<(Face, Length), MAX_FACES>,
}

impl SheetPlan {
    /// The same thickness all over.
    #[must_use]
    pub const fn uniform(thickness: Length) -> Self {
        Self {
            all: thickness,
            own: Vec::new(),
        }
    }

    /// Sets one face. Gives the thickness back where as many faces as a body may have are set already.
    ///
    /// # Errors
    /// The thickness that found no room.
    pub fn set(&mut self, face: Face, thickness: Length) -> Result<(), Length> {
        if let Some((_, own)) = self.own.iter_mut().find(|(known, _)| *known == face) {
            *own = thickness;
            return Ok(());
        }
        self.own
            .push((face, thickness))
            .map_err(|(_, thickness)| thickness)
    }

    /// The thickness of one face.
    #[must_use]
    pub fn of(&self, face: Face) -> Length {
        self.own
            .iter()
            .find(|(known, _)| *known == face)
            .map_or(self.all, |(_, own)| *own)
    }
}
