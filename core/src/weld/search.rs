//! A search for a better order than the plan's, to judge the plan by.
//!
//! Simulated annealing after S. Kirkpatrick, C. Gelatt and M. Vecchi, Science 220 (1983), p. 671: from the plan's
//! order, two stitches change places, one is moved, a stretch is turned round or a stitch is welded the other
//! way; what makes the job shorter is kept, and what makes it longer by chance, ever less. Stages of building stay one
//! after another and the closing stitch stays last. The same seed gives the same search on every machine.

use core::ops::Range;

use heapless::Vec;

use super::laid::{Directed, LaidStitch};
use super::options::PlanOptions;
use super::plan::WeldPlan;
use super::planner::Planner;
use super::workspace::PlanError;
use crate::build::MAX_STAGES;
use crate::input::limits::MAX_STITCHES;
use crate::tank::Tank;
use crate::units::Ratio;

type Order<const STITCHES: usize> = Vec<Directed, STITCHES>;
/// The stretches of an order that belong to one turn each: the stages of building, and the stitch that closes the tank.
pub(super) type Stretches = Vec<Range<usize>, { MAX_STAGES + 1 }>;

/// What a search found.
#[derive(Clone, Debug, PartialEq)]
pub struct OrderSearch<const STITCHES: usize = { MAX_STITCHES as usize }> {
    /// Orders that were tried.
    pub tried: u32,
    /// The best of them and of the plan's own, without comparisons.
    pub best: WeldPlan<STITCHES>,
}

/// A small generator of its own, so that every machine searches alike: xorshift64* of G. Marsaglia and S. Vigna.
pub(super) struct Dice(pub(super) u64);

impl Dice {
    fn roll(&mut self) -> u64 {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        self.0.wrapping_mul(0x2545_F491_4F6C_DD1D)
    }

    /// A whole number below `most`.
    pub(super) fn below(&mut self, most: usize) -> usize {
        usize::try_from(self.roll() % (most.max(1) as u64)).unwrap_or(0)
    }

    /// A number from 0 to 1, without 1.
    pub(super) fn share(&mut self) -> f64 {
        (self.roll() >> 11) as f64 / (1_u64 << 53) as f64
    }
}

/// How far a search goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SearchEffort {
    /// Orders that it tries.
    pub tries: u32,
    /// Another seed makes another search.
    pub seed: u64,
    /// The most that the order it finds may pull to one side; `None` where that does not matter.
    pub most_pull: Option<Ratio>,
}

impl SearchEffort {
    /// So many tries, whatever the pull.
    #[must_use]
    pub const fn of(tries: u32) -> Self {
        Self {
            tries,
            seed: 0x5EA3_0017,
            most_pull: None,
        }
    }
}

impl Tank {
    /// Looks for an order that takes less time than the plan's, trying so many. An order in which the metal never
    /// cools counts as tried, and is not kept.
    ///
    /// # Errors
    /// [`PlanError`] where there is no plan to start from.
    pub fn search_weld_order<const STITCHES: usize>(
        &self,
        planner: &mut Planner<STITCHES>,
        options: &PlanOptions,
        tries: u32,
    ) -> Result<OrderSearch<STITCHES>, PlanError> {
        let options = PlanOptions {
            first_look: false,
            comparisons: false,
            ..*options
        };
        planner.run(self, &options)?;
        self.search_on(planner, &SearchEffort::of(tries))
    }

    /// The same, from a plan that there is.
    ///
    /// # Errors
    /// As [`Tank::search_weld_order`].
    pub fn search_weld_order_from<const STITCHES: usize>(
        &self,
        planner: &mut Planner<STITCHES>,
        options: &PlanOptions,
        plan: &WeldPlan<STITCHES>,
        effort: &SearchEffort,
    ) -> Result<OrderSearch<STITCHES>, PlanError> {
        planner.lay_out(self, options)?;
        planner.weld_given(self, plan.order())?;
        self.search_on(planner, effort)
    }

    /// Searches from the plan that the planner has.
    fn search_on<const STITCHES: usize>(
        &self,
        planner: &mut Planner<STITCHES>,
        effort: &SearchEffort,
    ) -> Result<OrderSearch<STITCHES>, PlanError> {
        let tries = effort.tries;
        let plan = planner.plan();
        let most_pull = effort.most_pull.map_or(f64::INFINITY, Ratio::si);
        let mut order: Order<STITCHES> = plan.order().collect();
        let mut best_order = order.clone();
        let (mut now, mut best) = (plan.totals().job, plan.totals().job);
        let (_, workspace) = planner.given_mut();
        let stretches = stretches(&order, &workspace.stitches);
        let mut dice = Dice(effort.seed | 1);
        // A tenth of the mean time between stitches at first, a hundredth of that at last.
        let warm = 0.1 * now / (order.len().max(1) as f64);
        for one in 0..tries {
            let (given, _) = planner.given_mut();
            given.clone_from(&order);
            change(given, &stretches, &mut dice);
            let Ok(totals) = planner.simulate_given(self) else {
                continue;
            };
            if totals.pull > most_pull {
                continue;
            }
            let heat = warm * libm::pow(0.01, f64::from(one) / f64::from(tries));
            let longer = totals.job - now;
            if longer <= 0.0 || dice.share() < libm::exp(-longer / heat) {
                let (given, _) = planner.given_mut();
                order.clone_from(given);
                now = totals.job;
            }
            if now < best {
                best_order.clone_from(&order);
                best = now;
            }
        }
        planner.weld_given(self, best_order.into_iter())?;
        Ok(OrderSearch {
            tried: tries,
            best: planner.plan().clone(),
        })
    }
}

/// The stretches of an order whose stitches belong to the same turn.
pub(super) fn stretches(order: &[Directed], stitches: &[LaidStitch]) -> Stretches {
    let turn = |directed: &Directed| {
        let stitch = stitches.get(directed.place());
        stitch.map(LaidStitch::turn)
    };
    let mut stretches = Stretches::new();
    for stretch in order.chunk_by(|a, b| turn(a) == turn(b)) {
        let start = stretches.last().map_or(0, |last| last.end);
        // The plan's order goes through the turns once.
        let _ = stretches.push(start..start + stretch.len());
    }
    stretches
}

/// Makes one change, within a stretch of stitches that belong to the same turn.
fn change(order: &mut [Directed], stretches: &[Range<usize>], dice: &mut Dice) {
    let a = dice.below(order.len());
    let Some(stage) = stretches.iter().find(|stage| stage.contains(&a)) else {
        return;
    };
    let b = stage.start + dice.below(stage.len());
    let what = dice.below(4);
    if what > 2 {
        if let Some(directed) = order.get_mut(a) {
            *directed = directed.turned();
        }
        return;
    }
    let Some(stretch) = order.get_mut(a.min(b)..=a.max(b)) else {
        return;
    };
    match what {
        0 => {
            if let [first, .., last] = stretch {
                core::mem::swap(first, last);
            }
        }
        1 => stretch.reverse(),
        _ if a < b => move_along(stretch.iter_mut().rev()),
        _ => move_along(stretch.iter_mut()),
    }
}

/// Moves the last that comes to the place of the first, and each other one place on.
pub(super) fn move_along<'a>(stretch: impl Iterator<Item = &'a mut Directed>) {
    let mut all = stretch;
    let Some(first) = all.next() else { return };
    for slot in all {
        core::mem::swap(first, slot);
    }
}
