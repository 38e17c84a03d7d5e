//! The jobs that the gauge holds, in working memory, packed.

use heapless::Vec;
use seamwright_core::job::Draft;
use seamwright_core::wire::{MAX_PACKED, name_of, pack, unpack};

/// Jobs that the shelf takes.
pub const MOST_JOBS: usize = 6;

/// Bytes that they may take together. A job of ordinary make has some 200; one with every part at its
/// largest some 2,750.
const ROOM: usize = 3_072;

/// There is no room on the shelf; nothing on it was touched.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct ShelfFull;

/// Up to [`MOST_JOBS`] drafts, in the order in which they came.
#[derive(Clone, Debug)]
pub(crate) struct Shelf {
    bytes: Vec<u8, ROOM>,
    /// Bytes of each job.
    sizes: Vec<u16, MOST_JOBS>,
}

impl Shelf {
    pub(super) const fn new() -> Self {
        Self {
            bytes: Vec::new(),
            sizes: Vec::new(),
        }
    }

    /// Takes a draft in: in place of the one of the same name, so that a job can be corrected and sent
    /// again, or else at the end. Returns its place, counted from 0.
    // Out of line: the packed copy is on the stack only here.
    #[inline(never)]
    pub(super) fn keep(&mut self, draft: &Draft) -> Result<usize, ShelfFull> {
        let mut room = [0; MAX_PACKED];
        let used = pack(draft, &mut room).ok_or(ShelfFull)?;
        let packed = room.get(..used).ok_or(ShelfFull)?;
        let size = u16::try_from(used).map_err(|_| ShelfFull)?;
        let known = self.names().position(|name| name == draft.name.as_str());
        let old = known.map_or(0, |place| self.size(place));
        if known.is_none() && self.sizes.is_full() || self.bytes.len() - old + used > ROOM {
            return Err(ShelfFull);
        }
        let place = known.unwrap_or(self.sizes.len());
        let start = self.start(place);
        // What comes after moves by the difference; there is room, as was just seen.
        let rest = start + old;
        let length = self.bytes.len();
        if used > old {
            self.bytes
                .resize(length + used - old, 0)
                .map_err(|_| ShelfFull)?;
            self.bytes.copy_within(rest..length, start + used);
        } else {
            self.bytes.copy_within(rest..length, start + used);
            self.bytes.truncate(length + used - old);
        }
        if let Some(slot) = self.bytes.get_mut(start..start + used) {
            slot.copy_from_slice(packed);
        }
        match self.sizes.get_mut(place) {
            Some(slot) => *slot = size,
            None => self.sizes.push(size).map_err(|_| ShelfFull)?,
        }
        Ok(place)
    }

    pub(super) fn clear(&mut self) {
        self.bytes.clear();
        self.sizes.clear();
    }

    pub(crate) fn count(&self) -> usize {
        self.sizes.len()
    }

    pub(crate) fn names(&self) -> impl Iterator<Item = &str> {
        (0..self.count()).map(|place| self.packed(place).and_then(name_of).unwrap_or_default())
    }

    /// The job at a place.
    pub(super) fn job(&self, place: usize) -> Option<Draft> {
        unpack(self.packed(place)?)
    }

    fn size(&self, place: usize) -> usize {
        self.sizes.get(place).map_or(0, |size| usize::from(*size))
    }

    fn start(&self, place: usize) -> usize {
        (0..place).map(|before| self.size(before)).sum()
    }

    fn packed(&self, place: usize) -> Option<&[u8]> {
        let start = self.start(place);
        self.bytes.get(start..start + self.size(place))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench::{box_job, cut_job};
    use seamwright_core::body::Face;

    #[test]
    fn a_job_that_grows_or_shrinks_keeps_its_place_and_its_neighbours() {
        let mut shelf = Shelf::new();
        for name in ["a", "b", "c"] {
            shelf.keep(&box_job(name)).unwrap();
        }
        let mut larger = cut_job([Face::Top, Face::Front]);
        larger.name = "b".try_into().unwrap();
        assert_eq!(shelf.keep(&larger), Ok(1));
        assert_eq!(shelf.job(1), Some(larger));
        assert_eq!(shelf.job(2), Some(box_job("c")));
        assert_eq!(shelf.keep(&box_job("b")), Ok(1));
        assert_eq!(shelf.job(0), Some(box_job("a")));
        assert_eq!(shelf.job(1), Some(box_job("b")));
        assert_eq!(shelf.job(2), Some(box_job("c")));
        assert_eq!(shelf.names().collect::<std::vec::Vec<_>>(), ["a", "b", "c"]);
    }

    #[test]
    fn a_shelf_full_of_bytes_loses_nothing() {
        use seamwright_core::job::{FittingDraft, Label};
        let mut large = box_job("a");
        let fitting = FittingDraft {
            name: Label::try_from("a bung of longest names").unwrap(),
            face: Face::Top,
            at: [crate::bench::mm(30.0); 2],
            bore: crate::bench::mm(12.0),
            outer: None,
            stand_in: crate::bench::mm(3.0),
        };
        while large.fittings.push(fitting.clone()).is_ok() {}
        let mut shelf = Shelf::new();
        let mut kept = 0;
        let full = loop {
            let mut next = large.clone();
            next.name = std::format!("job {kept}").as_str().try_into().unwrap();
            match shelf.keep(&next) {
                Ok(place) => assert_eq!(place, kept),
                Err(full) => break full,
            }
            kept += 1;
        };
        assert_eq!(full, ShelfFull);
        assert!(kept < MOST_JOBS, "bytes ran out first");
        for place in 0..kept {
            assert_eq!(shelf.job(place).unwrap().fittings, large.fittings);
        }
    }
}
