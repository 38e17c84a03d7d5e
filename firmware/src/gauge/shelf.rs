//! The jobs that the gauge holds, in working memory.

use heapless::Vec;
use seamwright_core::job::Draft;

/// Jobs that the shelf takes.
pub const MOST_JOBS: usize = 6;

/// There is no room on the shelf; nothing on it was touched.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct ShelfFull;

/// Up to [`MOST_JOBS`] drafts, in the order in which they came.
#[derive(Clone, Debug, Default)]
pub(super) struct Shelf(Vec<Draft, MOST_JOBS>);

impl Shelf {
    pub(super) const fn new() -> Self {
        Self(Vec::new())
    }

    /// Takes a draft in: in place of the one of the same name, so that a job can be corrected and sent
    /// again, or else at the end. Returns its place, counted from 0.
    pub(super) fn keep(&mut self, draft: Draft) -> Result<usize, ShelfFull> {
        if let Some(place) = self.0.iter().position(|known| known.name == draft.name) {
            if let Some(known) = self.0.get_mut(place) {
                *known = draft;
            }
            return Ok(place);
        }
        self.0.push(draft).map_err(|_| ShelfFull)?;
        Ok(self.0.len() - 1)
    }

    pub(super) fn clear(&mut self) {
        self.0.clear();
    }

    pub(super) fn jobs(&self) -> &[Draft] {
        &self.0
    }
}
