//! How far one has read through several pieces, each of one or more screenfuls.

/// How far something has been read: which piece of several, and which screenful of it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Reading {
    /// The piece, counted from 0.
    pub(crate) piece: usize,
    /// The screenful, counted from 0.
    pub(crate) part: usize,
}

impl Reading {
    /// At the first screenful of the first piece.
    pub(crate) const START: Self = Self { piece: 0, part: 0 };

    /// Goes to the piece above or below, of so many.
    pub(crate) fn step(&mut self, up: bool, pieces: usize) {
        let piece = along(self.piece, up, pieces);
        *self = Self { piece, part: 0 };
    }

    /// Reads on through so many screenfuls of the piece, and then from its start.
    pub(crate) const fn read_on(&mut self, parts: usize) {
        self.part = if self.part + 1 < parts {
            self.part + 1
        } else {
            0
        };
    }
}

/// The place above or below in a list of `count`; both ends stay.
pub(crate) fn along(place: usize, up: bool, count: usize) -> usize {
    if up {
        place.saturating_sub(1)
    } else {
        (place + 1).min(count.saturating_sub(1))
    }
}
