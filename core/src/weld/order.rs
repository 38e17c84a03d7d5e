//! Orders in which to weld: the plan's own, and the plain one to compare it with.

use super::bench::{Bench, Manner, PlanError, Planned, Sum};
use super::course::Standing;
use super::run::{Run, Seams};

/// How much each matter weighs against warmth, as a share of the interpass limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weights {
    /// A whole unit of pull to one side.
    pull: f64,
    /// A panel that is welded all round, against one not yet begun.
    progress: f64,
    /// A start in a corner.
    corner: f64,
}

const fn weights(pull: f64, progress: f64, corner: f64) -> Weights {
    Weights {
        pull,
        progress,
        corner,
    }
}

/// The ways to weigh that a plan tries. Which leaves the fewest stitches in warm places at the end is a matter of
/// the tank; the first is a good one on most.
pub const WAYS: [Weights; 8] = [
    weights(1.0, 1.0, 0.03),
    weights(1.0, 3.0, 0.0),
    weights(1.0, 2.0, 0.03),
    weights(2.0, 2.0, 0.03),
    weights(2.0, 1.0, 0.0),
    weights(1.0, 0.6, 0.0),
    weights(0.5, 4.0, 0.03),
    weights(2.0, 0.3, 0.05),
];

impl<const C: usize, const L: usize> Bench<C, L> {
    /// An order: always the stitch whose start is coolest, where pull to one side and starts in corners
    /// count as if they were warmer. Baffles come before the walls about them, the stitch that closes the tank
    /// last. Of equals, the first in the list of seams; so the plan is the same every time, on every machine.
    ///
    /// # Errors
    /// [`PlanError`] where the metal never cools, or `keep_on` says no.
    pub fn plan_by(
        &mut self,
        way: &Weights,
        manner: &Manner,
        seams: &impl Seams,
        see: impl FnMut(Planned),
        keep_on: impl FnMut() -> bool,
    ) -> Result<Sum, PlanError> {
        self.weld(
            manner,
            seams,
            |standing: &Standing<'_, C, L>| coolest(standing, way),
            see,
            keep_on,
        )
    }

    /// A first look: the first of [`WAYS`] with the arc's heat in the cells at the ends of the stitches, for a bench laid
    /// out as [`FIRST_LOOK`](super::FIRST_LOOK) says. Within some six per cent of the best on the examples.
    ///
    /// # Errors
    /// As [`Bench::plan_by`].
    pub fn look_first(
        &mut self,
        manner: &Manner,
        see: impl FnMut(Planned),
        keep_on: impl FnMut() -> bool,
    ) -> Result<Sum, PlanError> {
        let [way, ..] = WAYS;
        self.plan_by(&way, manner, &|_: u8| None, see, keep_on)
    }

    /// The best of [`WAYS`]: the way with the shortest job, of equals the least lopsided, of equals
    /// the first.
    ///
    /// # Errors
    /// As [`Bench::plan_by`].
    pub fn best_way(
        &mut self,
        manner: &Manner,
        seams: &impl Seams,
        mut keep_on: impl FnMut() -> bool,
    ) -> Result<Weights, PlanError> {
        let [first, ..] = WAYS;
        let mut best = (first, None::<Sum>);
        for way in WAYS {
            let sum = self.plan_by(&way, manner, seams, |_| (), &mut keep_on)?;
            if best.1.is_none_or(|known| sum.beats(&known)) {
                best = (way, Some(sum));
            }
        }
        Ok(best.0)
    }

    /// Seam by seam, each from its start to its end, in the order of the list: for comparison.
    ///
    /// # Errors
    /// As [`Bench::plan_by`].
    pub fn seam_by_seam(
        &mut self,
        manner: &Manner,
        seams: &impl Seams,
        see: impl FnMut(Planned),
        keep_on: impl FnMut() -> bool,
    ) -> Result<Sum, PlanError> {
        let first = |standing: &Standing<'_, C, L>| {
            standing
                .candidates()
                .next()
                .map(|(number, _)| (number, false))
        };
        self.weld(manner, seams, first, see, keep_on)
    }

    /// In a given order, each stitch with its sense.
    ///
    /// # Errors
    /// As [`Bench::plan_by`].
    pub fn in_order(
        &mut self,
        order: &[(u8, bool)],
        manner: &Manner,
        seams: &impl Seams,
        see: impl FnMut(Planned),
        keep_on: impl FnMut() -> bool,
    ) -> Result<Sum, PlanError> {
        let mut given = order.iter();
        self.weld(
            manner,
            seams,
            |_: &Standing<'_, C, L>| given.next().copied(),
            see,
            keep_on,
        )
    }
}

pub(crate) fn coolest<const C: usize, const L: usize>(
    standing: &Standing<'_, C, L>,
    way: &Weights,
) -> Option<(u8, bool)> {
    let turn = standing.turn()?;
    let mut best = None;
    let mut least = f64::INFINITY;
    for (number, run) in standing.candidates() {
        if run.turn != turn {
            continue;
        }
        let (reversed, warmth) = sense(standing, &run);
        let limit = standing.manner.limit;
        // What is added is never below zero: most are out of the running before the pull, which costs most.
        if warmth >= least {
            continue;
        }
        let progress = 0.5 * (standing.progress(run.panels[0]) + standing.progress(run.panels[1]));
        let progress = way.progress * limit * progress;
        if warmth + progress >= least {
            continue;
        }
        let mut score = warmth + way.pull * limit * standing.pull.with(&run) + progress;
        if standing.bench.is_corner(&run, reversed) {
            score += way.corner * limit;
        }
        if score < least {
            least = score;
            best = Some((number, reversed));
        }
    }
    best
}

/// Which way a stitch is welded, and how warm its start is: away from a corner's end of the seam, towards a
/// neighbour welded before where that is asked for, and else from its cooler end.
fn sense<const C: usize, const L: usize>(standing: &Standing<'_, C, L>, run: &Run) -> (bool, f64) {
    let bench = standing.bench;
    let [ahead, back] = [false, true].map(|reversed| bench.rough_warmth(run, reversed));
    let pick = |reversed: bool| (reversed, if reversed { back } else { ahead });
    if standing.manner.back_step {
        let before = standing.is_welded(run, run.number.checked_sub(1));
        let after = standing.is_welded(run, run.number.checked_add(1));
        if before != after {
            // Towards what is welded already.
            return pick(before);
        }
    }
    match [false, true].map(|reversed| bench.is_corner(run, reversed)) {
        [true, false] => pick(true),
        [false, true] => pick(false),
        _ => pick(back < ahead),
    }
}
