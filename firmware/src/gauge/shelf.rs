//! The jobs that the gauge holds, in working memory, packed.

use heapless::Vec;
use seamwright_core::input::Draft;
use seamwright_core::weld::WeldStep;
use seamwright_core::wire::{MAX_PACKED, STEPS, name_of, pack, unpack};

/// Jobs that the shelf takes.
pub const MOST_JOBS: usize = 6;

/// Bytes that they may take together. A job of ordinary make has some 200; one with every part at its
/// largest some 2,750.
const ROOM: usize = 3_072;

/// There is no room on the shelf; nothing on it was touched.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct ShelfFull;

/// Up to [`MOST_JOBS`] drafts, in the order in which they came, each with the order of its stitches if one came
/// with it.
#[derive(Clone, Debug)]
pub(super) struct Shelf {
    /// Of each job the packed draft, then the packed steps of its order.
    bytes: Vec<u8, ROOM>,
    sizes: Vec<Size, MOST_JOBS>,
}

/// Bytes of a job.
#[derive(Clone, Copy, Debug)]
struct Size {
    draft: u16,
    order: u16,
}

impl Size {
    fn whole(self) -> usize {
        usize::from(self.draft) + usize::from(self.order)
    }
}

impl Shelf {
    pub(super) const fn new() -> Self {
        Self {
            bytes: Vec::new(),
            sizes: Vec::new(),
        }
    }

    /// Takes a draft in: in place of the one of the same name, so that a job can be corrected and sent
    /// again, or else at the end. Returns its place, counted from 0. An order that was there is gone: it was that of
    /// the old draft.
    // Out of line: the packed copy is on the stack only here.
    #[inline(never)]
    pub(super) fn keep(&mut self, draft: &Draft) -> Result<usize, ShelfFull> {
        let mut room = [0; MAX_PACKED];
        let used = pack(draft, &mut room).ok_or(ShelfFull)?;
        self.keep_packed(room.get(..used).ok_or(ShelfFull)?)
    }

    /// The same with a draft that is packed already.
    pub(super) fn keep_packed(&mut self, packed: &[u8]) -> Result<usize, ShelfFull> {
        let size = Size {
            draft: u16::try_from(packed.len()).map_err(|_| ShelfFull)?,
            order: 0,
        };
        let name = name_of(packed).unwrap_or_default();
        let known = self.names().position(|known| known == name);
        if known.is_none() && self.sizes.is_full() {
            return Err(ShelfFull);
        }
        let place = known.unwrap_or(self.sizes.len());
        let old = self.size(place).whole();
        self.put(self.start(place), old, packed)?;
        match self.sizes.get_mut(place) {
            Some(slot) => *slot = size,
            None => self.sizes.push(size).map_err(|_| ShelfFull)?,
        }
        Ok(place)
    }

    /// Takes in steps of a job's order, those before `from` being there already; what was there from that one on is
    /// replaced. Returns how many there are then: as many as before where there is a gap, none where there is no such
    /// job.
    pub(super) fn add_steps(
        &mut self,
        place: usize,
        from: u16,
        steps: &[WeldStep],
    ) -> Result<u16, ShelfFull> {
        let Some(&Size { draft, order }) = self.sizes.get(place) else {
            return Ok(0);
        };
        let have = usize::from(order) / WeldStep::BYTES;
        let from = usize::from(from);
        if from > have || from + steps.len() > WeldStep::MOST {
            return Ok(have as u16);
        }
        let mut packed = Vec::<u8, { STEPS * WeldStep::BYTES }>::new();
        for step in steps {
            packed
                .extend_from_slice(&step.pack())
                .map_err(|_| ShelfFull)?;
        }
        let kept = from * WeldStep::BYTES;
        let start = self.start(place) + usize::from(draft) + kept;
        self.put(start, usize::from(order) - kept, &packed)?;
        if let Some(size) = self.sizes.get_mut(place) {
            // At most 256 steps.
            size.order = (kept + packed.len()) as u16;
        }
        Ok((from + steps.len()) as u16)
    }

    /// Puts bytes in the place of `old` others; what comes after moves. Without room, nothing was touched.
    fn put(&mut self, start: usize, old: usize, new: &[u8]) -> Result<(), ShelfFull> {
        let length = self.bytes.len();
        let (rest, used) = (start + old, new.len());
        if length + used > ROOM + old {
            return Err(ShelfFull);
        }
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
            slot.copy_from_slice(new);
        }
        Ok(())
    }

    pub(super) fn clear(&mut self) {
        self.bytes.clear();
        self.sizes.clear();
    }

    pub(super) fn count(&self) -> usize {
        self.sizes.len()
    }

    pub(super) fn names(&self) -> impl Iterator<Item = &str> {
        (0..self.count()).map(|place| self.packed(place).and_then(name_of).unwrap_or_default())
    }

    /// The job at a place.
    pub(super) fn job(&self, place: usize) -> Option<Draft> {
        unpack(self.packed(place)?)
    }

    /// The packed steps of the order that came with a job; empty where none did.
    pub(super) fn order(&self, place: usize) -> &[u8] {
        let size = self.size(place);
        let start = self.start(place) + usize::from(size.draft);
        let found = self.bytes.get(start..start + usize::from(size.order));
        found.unwrap_or_default()
    }

    fn size(&self, place: usize) -> Size {
        let none = Size { draft: 0, order: 0 };
        self.sizes.get(place).copied().unwrap_or(none)
    }

    fn start(&self, place: usize) -> usize {
        self.sizes.iter().take(place).map(|size| size.whole()).sum()
    }

    fn packed(&self, place: usize) -> Option<&[u8]> {
        let start = self.start(place);
        let size = usize::from(self.size(place).draft);
        self.bytes.get(start..start + size)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench::{box_job, cut_job};
    use seamwright_core::input::Face;
    use seamwright_core::weld::StepCause;

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

    /// Steps that can be told from one another.
    fn steps(first: u8, count: u8) -> std::vec::Vec<WeldStep> {
        (first..first + count)
            .map(|run| WeldStep {
                stitch: run,
                reversed: run % 2 == 0,
                wait: 3 * u16::from(run),
                cause: (run % 3 == 0).then_some(StepCause::Torch),
                warmth: i16::from(run) - 20,
            })
            .collect()
    }

    fn order(shelf: &Shelf, place: usize) -> std::vec::Vec<WeldStep> {
        let (packed, []) = shelf.order(place).as_chunks() else {
            panic!("half a step");
        };
        packed.iter().copied().map(WeldStep::unpack).collect()
    }

    #[test]
    fn orders_come_in_pieces_and_stand_beside_their_jobs() {
        let mut shelf = Shelf::new();
        for name in ["a", "b", "c"] {
            shelf.keep(&box_job(name)).unwrap();
        }
        let all = steps(0, 60);
        assert_eq!(shelf.add_steps(1, 0, &all[..48]), Ok(48));
        assert_eq!(shelf.add_steps(1, 49, &all[49..]), Ok(48), "a gap");
        assert_eq!(shelf.add_steps(1, 48, &all[48..]), Ok(60));
        assert_eq!(shelf.add_steps(1, 48, &all[48..]), Ok(60), "asked again");
        assert_eq!(shelf.add_steps(0, 0, &steps(100, 7)), Ok(7));
        assert_eq!(shelf.add_steps(3, 0, &all[..2]), Ok(0), "no such job");
        assert_eq!(order(&shelf, 1), all);
        assert_eq!(order(&shelf, 0), steps(100, 7));
        assert_eq!(order(&shelf, 2), []);
        for (place, name) in ["a", "b", "c"].into_iter().enumerate() {
            assert_eq!(shelf.job(place), Some(box_job(name)));
        }
        // A new draft has no order yet, and the others keep theirs.
        assert_eq!(shelf.keep(&box_job("b")), Ok(1));
        assert_eq!(order(&shelf, 1), []);
        assert_eq!(order(&shelf, 0), steps(100, 7));
        assert_eq!(shelf.job(2), Some(box_job("c")));
        shelf.clear();
        assert_eq!(order(&shelf, 0), []);
    }

    #[test]
    fn an_order_has_no_more_steps_than_a_job_stitches() {
        let mut shelf = Shelf::new();
        shelf.keep(&box_job("a")).unwrap();
        for from in (0..240).step_by(48) {
            assert_eq!(shelf.add_steps(0, from, &steps(0, 48)), Ok(from + 48));
        }
        assert_eq!(shelf.add_steps(0, 240, &steps(0, 17)), Ok(240));
        assert_eq!(shelf.add_steps(0, 240, &steps(0, 16)), Ok(256));
        assert_eq!(shelf.add_steps(0, u16::MAX, &steps(0, 1)), Ok(256));
    }

    #[test]
    fn an_order_without_room_leaves_everything_as_it_was() {
        let mut shelf = Shelf::new();
        for name in ["a", "b"] {
            shelf.keep(&box_job(name)).unwrap();
            for from in (0..240).step_by(48) {
                shelf
                    .add_steps(shelf.count() - 1, from, &steps(0, 48))
                    .unwrap();
            }
        }
        shelf.keep(&box_job("c")).unwrap();
        let mut from = 0;
        while let Ok(have) = shelf.add_steps(2, from, &steps(0, 24)) {
            from = have;
        }
        assert_eq!(order(&shelf, 2).len(), usize::from(from));
        assert_eq!([order(&shelf, 0).len(), order(&shelf, 1).len()], [240; 2]);
        assert_eq!(shelf.job(2), Some(box_job("c")));
    }

    #[test]
    fn a_shelf_full_of_bytes_loses_nothing() {
        use seamwright_core::input::{FittingDraft, Label};
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
