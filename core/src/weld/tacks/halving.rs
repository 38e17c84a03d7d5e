//! The order of the tacks along one seam.

/// The tacks between the ends of a seam, each in the middle of one of the longest stretches that are open, or next
/// to it where there is no middle.
///
/// Cut into equal parts at whole tacks, the stretches of one round differ by a tack at most, so the longest come
/// first if each round goes over its longer stretches and then over its shorter ones. Halving a stretch of a round
/// leaves two of the next.
#[derive(Clone, Copy, Debug)]
pub(super) struct Halving {
    /// From tack to tack, along the whole seam.
    gaps: u32,
    /// Stretches in this round.
    parts: u32,
    /// The place in this round, counted over its longer stretches first.
    place: u32,
    /// The last tack of a round seam, beside its first: it is left to the end.
    beside: Option<u16>,
}

impl Halving {
    /// The halving of a seam with `count` tacks; a round one has its last beside its first.
    pub(super) const fn of(count: u16, round: bool) -> Self {
        let last = count.saturating_sub(1);
        Self {
            gaps: last as u32,
            parts: 1,
            place: 0,
            beside: if round && last > 0 { Some(last) } else { None },
        }
    }

    /// The n-th of so many stretches counted from both ends in turn.
    const fn from_both_ends(n: u32, parts: u32) -> u32 {
        if n.is_multiple_of(2) {
            n / 2
        } else {
            parts.saturating_sub(1 + n / 2)
        }
    }

    /// Where the n-th of so many equal parts begins, in whole gaps.
    fn cut(&self, n: u32, parts: u32) -> u32 {
        // At most 9998 gaps and 2^14 parts, so the product is within a u32.
        n.saturating_mul(self.gaps) / parts.max(1)
    }

    /// The next tack, and how many gaps are open there.
    pub(super) fn next(&mut self) -> Option<(u16, u16)> {
        while self.gaps.div_ceil(self.parts.max(1)) > 1 {
            let shorter = self.gaps / self.parts.max(1);
            while self.place < 2 * self.parts {
                let longer = self.place < self.parts;
                let part = Self::from_both_ends(self.place % self.parts.max(1), self.parts);
                self.place += 1;
                let (start, end) = (self.cut(part, self.parts), self.cut(part + 1, self.parts));
                let open = end.saturating_sub(start);
                if open < 2 || (open > shorter) != longer {
                    continue;
                }
                let middle = self.cut(2 * part + 1, 2 * self.parts);
                return Some((u16::try_from(middle).ok()?, u16::try_from(open).ok()?));
            }
            self.parts = self.parts.saturating_mul(2);
            self.place = 0;
        }
        self.beside.take().map(|last| (last, 1))
    }
}

#[cfg(test)]
mod tests {
    extern crate std;

    use std::collections::BTreeSet;
    use std::vec::Vec;

    use super::Halving;

    fn order(count: u16) -> Vec<(u16, u16)> {
        let mut halving = Halving::of(count, false);
        core::iter::from_fn(|| halving.next()).collect()
    }

    /// By hand: nine tacks have their middle at 4, the halves theirs at 2 and 6, and the last four follow from both
    /// ends.
    #[test]
    fn nine_tacks_by_hand() {
        let numbers: Vec<u16> = order(9).into_iter().map(|(number, _)| number).collect();
        assert_eq!(numbers, [4, 2, 6, 1, 7, 3, 5]);
    }

    #[test]
    fn a_ring_ends_beside_its_start() {
        let mut halving = Halving::of(5, true);
        let all: Vec<(u16, u16)> = core::iter::from_fn(|| halving.next()).collect();
        assert_eq!(all, [(2, 4), (1, 2), (3, 2), (4, 1)]);
        assert_eq!(Halving::of(1, true).next(), None);
    }

    /// Played through with the open stretches in a list: each tack lies in the middle of a longest one, to within
    /// half a gap, and all come.
    #[test]
    fn always_the_longest_that_is_open() {
        for count in (0..200).chain([9_998, 9_999]) {
            let mut made = BTreeSet::new();
            let last = count.max(1) - 1;
            made.extend([0, last]);
            let whole = order(count);
            for (number, open) in &whole {
                if count < 200 {
                    let ends: Vec<u16> = made.iter().copied().collect();
                    let longest = ends
                        .iter()
                        .zip(ends.iter().skip(1))
                        .map(|(a, b)| b - a)
                        .max();
                    assert_eq!(Some(*open), longest, "{number} of {count}");
                }
                let before = made.range(..number).next_back().copied().unwrap_or(0);
                let after = made.range(number..).next().copied().unwrap_or(0);
                assert_eq!(after - before, *open, "{number} of {count}");
                assert!((number - before).abs_diff(after - number) <= 1);
                assert!(made.insert(*number));
            }
            assert_eq!(made.len(), usize::from(count.max(1)));
        }
    }
}
