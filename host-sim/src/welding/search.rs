//! The best order that a search finds, to judge the plan's own by.
//!
//! Simulated annealing after S. Kirkpatrick, C. Gelatt and M. Vecchi, Science 220 (1983), p. 671: from the plan's
//! order, two stitches change places, one is moved, a stretch is turned round or a stitch is welded the other
//! way; what makes the job shorter is kept, and what makes it longer by chance, ever less. Baffles stay before the
//! walls about them and the closing stitch stays last. The same seed gives the same search.

use std::ops::Range;

use seamwright_core::weld::{PlanError, Planned, Sum};

use super::{Stitch, Welding};

/// What a search found.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// The order: places among the runs, and whether each is welded backwards.
    pub order: Vec<(u8, bool)>,
    /// What it takes.
    pub sum: Sum,
    /// Orders that were tried.
    pub tried: u32,
    /// The stitches in that order.
    pub stitches: Vec<Stitch>,
}

/// A small generator of its own, so that every machine searches alike: xorshift64* of G. Marsaglia and S. Vigna.
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> u64 {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        self.0.wrapping_mul(0x2545_F491_4F6C_DD1D)
    }

    fn below(&mut self, most: usize) -> usize {
        usize::try_from(self.roll() % (most.max(1) as u64)).unwrap_or(0)
    }

    fn share(&mut self) -> f64 {
        (self.roll() >> 11) as f64 / (1_u64 << 53) as f64
    }
}

impl Welding<'_> {
    /// Looks for an order that takes less time than the plan's, trying so many. An order in which the metal never
    /// cools counts as tried, and is not kept.
    ///
    /// # Errors
    /// [`PlanError`] where the metal never cools in the plan's own order.
    pub fn search(&mut self, tries: u32) -> Result<Found, PlanError> {
        let manner = self.manner();
        let mut order = Vec::new();
        let edges = self.edges.clone();
        let seams = |seam: u8| edges.get(usize::from(seam)).copied().flatten();
        let way = self.bench.best_way(&manner, &seams, || true)?;
        let mut now = self.bench.plan_by(
            &way,
            &manner,
            &seams,
            |one| order.push((one.run, one.reversed)),
            || true,
        )?;
        let mut best = Found {
            order: order.clone(),
            sum: now,
            tried: 0,
            stitches: Vec::new(),
        };
        let blocks = self.blocks(&order);
        let mut dice = Dice(0x5EA3_0017);
        let count = order.len();
        // A tenth of the mean time between stitches at first, a hundredth of that at last.
        let warm = 0.1 * now.job / (count.max(1) as f64);
        for one in 0..tries {
            let mut other = order.clone();
            change(&mut other, &blocks, &mut dice);
            best.tried += 1;
            let Ok(sum) = self.in_order(&other, &manner, |_| ()) else {
                continue;
            };
            let heat = warm * 0.01_f64.powf(f64::from(one) / f64::from(tries));
            let longer = sum.job - now.job;
            if longer <= 0.0 || dice.share() < (-longer / heat).exp() {
                (order, now) = (other, sum);
            }
            if now.job < best.sum.job {
                best.order.clone_from(&order);
                best.sum = now;
            }
        }
        let mut planned: Vec<Planned> = Vec::new();
        self.in_order(&best.order, &manner, |one| planned.push(one))?;
        best.stitches = self.stitches(&planned);
        Ok(best)
    }

    /// The stretches of an order whose stitches have the same turn.
    fn blocks(&self, order: &[(u8, bool)]) -> Vec<Range<usize>> {
        let turn = |(run, _): &(u8, bool)| self.bench.runs.get(usize::from(*run)).map(|r| r.turn);
        let mut blocks = Vec::new();
        for stretch in order.chunk_by(|a, b| turn(a) == turn(b)) {
            let start = blocks.last().map_or(0, |last: &Range<usize>| last.end);
            blocks.push(start..start + stretch.len());
        }
        blocks
    }
}

/// One change, within a stretch of stitches that have the same turn.
fn change(order: &mut [(u8, bool)], blocks: &[Range<usize>], dice: &mut Dice) {
    let a = dice.below(order.len());
    let Some(block) = blocks.iter().find(|block| block.contains(&a)) else {
        return;
    };
    let b = block.start + dice.below(block.len());
    let stretch = order.get_mut(a.min(b)..=a.max(b)).unwrap_or_default();
    match dice.below(4) {
        0 => order.swap(a, b),
        1 => stretch.reverse(),
        2 if a < b => stretch.rotate_left(1),
        2 => stretch.rotate_right(1),
        _ => {
            if let Some((_, reversed)) = order.get_mut(a) {
                *reversed = !*reversed;
            }
        }
    }
}
