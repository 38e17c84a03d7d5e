//! Making the plan's order better.
//!
//! From the best order of the ways, stitches change places, are moved, and stretches are turned round, all within
//! their turn: simulated annealing as in [`search`](super::search), but judged by an [`Estimate`], so that thousands of
//! orders are looked at in the time of a simulation. What comes out is simulated; the estimate learns from that, and goes
//! on from the best so far. An order is taken only where its simulation is quicker, and no more lopsided than the ways'
//! own or than [`EVEN`].

use heapless::Vec;

use super::estimate::{Course, Estimate, Responses};
use super::laid::{Directed, LaidStitch};
use super::planner::Planner;
use super::pull::Pull;
use super::search::{Dice, Stretches, move_along, stretches};
use crate::tank::Tank;

/// Most stitches of an order that is made better: past it the table takes long to fill.
pub(super) const MOST_STITCHES: usize = 160;
/// A pull that is as good as none: seam by seam, four to eight times as much. Common practice knows no figure.
const EVEN: f64 = 0.05;
/// Orders with more stitches than this are tried the fewer times, for each takes the longer.
const MANY: usize = 60;
/// The heat of annealing at first, in shares of the mean time between stitches, and at last, in shares of that.
const WARM: f32 = 0.3;
const COLD: f32 = 0.01;
/// The heat at first in the rounds after the first, as a share of that in the first, and their tries.
const LATER: f32 = 0.25;
const FEWER: u64 = 8;
/// What pull past the limit costs while annealing, in times of the whole job.
const COST: f32 = 10.0;

/// How much effort a plan's order is worth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OrderEffort {
    /// Searches beside one another, as many as there are [`PARTS`](super::PARTS) but one at most.
    pub searches: usize,
    /// How often each simulates what it found and goes on from there.
    pub rounds: u32,
    /// Rounds one after another in which it finds nothing better, after which it ends.
    pub patience: u32,
    /// Orders that it judges in the first round, of sixty stitches or fewer; of more, fewer. In each later one it judges an
    /// eighth of them.
    pub tries: u32,
    /// Seed of the first; the others' follow it.
    pub seed: u64,
}

impl OrderEffort {
    /// What a laptop does in some tenths of a second.
    pub const USUAL: Self = Self {
        searches: 4,
        rounds: 13,
        patience: 3,
        tries: 24_000,
        seed: 0x5EA3_0029,
    };
}

impl<const STITCHES: usize> Planner<STITCHES> {
    /// Makes the plan better, whose tank is laid out. An order in which the metal never cools ends it.
    pub(super) fn improve(
        &mut self,
        tank: &Tank,
        responses: Responses<'_>,
        (effort, search): (&OrderEffort, usize),
    ) {
        let mut estimate = Estimate::new(tank, self, responses);
        let most_pull = libm::fmax(self.plan.totals.pull, EVEN);
        // Seeds that follow one another begin alike: their bits are spread by an odd number.
        let seed = effort.seed.wrapping_add(search as u64);
        let mut dice = Dice(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1);
        let count = self.plan.count().max(MANY);
        // There are 65,535 stitches at most.
        let tries = u64::from(effort.tries) * MANY as u64 / count as u64;
        estimate.learn(&self.plan.records);
        let mut idle = 0;
        for round in 0..effort.rounds {
            if !(self.plan.totals.waits > 0.0) || idle >= effort.patience {
                // Arcs and moves take what they take.
                return;
            }
            idle += 1;
            let order: Vec<Directed, STITCHES> = self.plan.order().collect();
            let (tries, warm) = match round {
                0 => (tries, WARM),
                _ => (tries / FEWER, LATER * WARM),
            };
            let found = estimate.anneal(order, most_pull, (tries, warm), &mut dice);
            let (given, _) = self.given_mut();
            given.clone_from(&found);
            let Ok(totals) = self.simulate_given(tank) else {
                return;
            };
            estimate.learn(&self.making);
            if totals.beats(&self.plan.totals) && totals.pull <= most_pull {
                self.keep(totals);
                idle = 0;
            }
        }
    }
}

/// An order on its way to a better one.
struct Walk<const STITCHES: usize> {
    order: Vec<Directed, STITCHES>,
    course: Course<STITCHES>,
    /// The pull after each stitch.
    pulls: Vec<Pull, STITCHES>,
    /// The places of the stitches that wait.
    waiting: Vec<u16, STITCHES>,
    /// Its time and what its pull costs, in s.
    time: f32,
}

impl<const STITCHES: usize> Estimate<'_, STITCHES> {
    /// The best order that so many tries find from one.
    fn anneal(
        &self,
        order: Vec<Directed, STITCHES>,
        most_pull: f64,
        (tries, warm): (u64, f32),
        dice: &mut Dice,
    ) -> Vec<Directed, STITCHES> {
        let stretches = stretches(&order, &self.stitches);
        let mut walk = Walk {
            order,
            course: Course::new(),
            pulls: Vec::new(),
            waiting: Vec::new(),
            time: 0.0,
        };
        walk.time = self.judge(&mut walk.order, 0, f32::INFINITY, &mut walk.course);
        walk.note(&self.stitches, 0);
        let mut best = walk.order.clone();
        let mut least = walk.time;
        let mut order = walk.order.clone();
        let mut course = Course::new();
        let cost = COST * walk.time;
        let mut heat = warm * walk.time / walk.order.len().max(1) as f32;
        let cooling = libm::powf(COLD, 1.0 / tries.max(1) as f32);
        for _ in 0..tries {
            heat *= cooling;
            order.clone_from(&walk.order);
            let Some(from) = change(&mut order, &walk.waiting, &stretches, dice) else {
                continue;
            };
            // What it may take, by the chance of this try; pull costs less to find than time.
            let most = walk.time - heat * libm::logf(1.0 - dice.share() as f32);
            let over = libm::fmax(walk.pull_of(&order, &self.stitches, from) - most_pull, 0.0);
            let pulled = cost * over as f32;
            let most = most - pulled;
            course.clear();
            // As many as there is room for.
            let _ = course.extend_from_slice(walk.course.get(..from).unwrap_or_default());
            let time = self.judge(&mut order, from, most, &mut course);
            if time > most {
                continue;
            }
            core::mem::swap(&mut walk.order, &mut order);
            core::mem::swap(&mut walk.course, &mut course);
            walk.time = time + pulled;
            walk.note(&self.stitches, from);
            if walk.time < least && !(over > 0.0) {
                least = walk.time;
                best.clone_from(&walk.order);
            }
        }
        best
    }
}

impl<const STITCHES: usize> Walk<STITCHES> {
    /// The pull before a place.
    fn pull_at(&self, stitches: &[LaidStitch], from: usize) -> Pull {
        let before = from.checked_sub(1).and_then(|last| self.pulls.get(last));
        before.copied().unwrap_or_else(|| Pull::of(stitches))
    }

    /// The most that an order pulls which is this one before its place `from`.
    fn pull_of(&self, order: &[Directed], stitches: &[LaidStitch], from: usize) -> f64 {
        let mut pull = self.pull_at(stitches, from);
        for one in order.iter().skip(from) {
            if let Some(stitch) = stitches.get(one.place()) {
                pull.weld(stitch);
            }
        }
        pull.most()
    }

    /// Notes pulls and waits of an order that is new from a place on.
    fn note(&mut self, stitches: &[LaidStitch], from: usize) {
        let mut pull = self.pull_at(stitches, from);
        self.pulls.truncate(from);
        for one in self.order.iter().skip(from) {
            if let Some(stitch) = stitches.get(one.place()) {
                pull.weld(stitch);
            }
            // One for each stitch.
            let _ = self.pulls.push(pull);
        }
        self.waiting.clear();
        for (place, done) in (0_u16..).zip(&self.course) {
            if done.wait > 0.0 {
                // At most one for each stitch.
                let _ = self.waiting.push(place);
            }
        }
    }
}

/// Makes one change within a turn, half of the times of a stitch that waits; the first place that is another then.
fn change(
    order: &mut [Directed],
    waiting: &[u16],
    stretches: &Stretches,
    dice: &mut Dice,
) -> Option<usize> {
    let a = if dice.below(2) == 0 && !waiting.is_empty() {
        usize::from(*waiting.get(dice.below(waiting.len()))?)
    } else {
        dice.below(order.len())
    };
    let turn = stretches.iter().find(|turn| turn.contains(&a))?;
    let b = turn.start + dice.below(turn.len());
    if a == b {
        return None;
    }
    let stretch = order.get_mut(a.min(b)..=a.max(b))?;
    match dice.below(5) {
        0 | 1 => {
            if let [first, .., last] = stretch {
                core::mem::swap(first, last);
            }
        }
        2 => stretch.reverse(),
        _ if a < b => move_along(stretch.iter_mut()),
        _ => move_along(stretch.iter_mut().rev()),
    }
    Some(a.min(b))
}
