//! Orders in which to weld: the plan's own, and the plain one to compare it with.

use super::bench::{Bench, Manner, PlanError, Planned, Standing, Sum};
use super::run::{Run, Seams};

/// How much a whole unit of pull weighs against warmth, as a share of the interpass limit.
const PULL_WEIGHT: f64 = 2.0;
/// How much a panel that is welded all round weighs against one not yet begun, likewise.
const PROGRESS_WEIGHT: f64 = 1.0;
/// How much starting in a corner weighs, likewise.
const CORNER_WEIGHT: f64 = 0.03;

impl<const C: usize, const L: usize> Bench<C, L> {
    /// Plans the order: always the stitch whose start is coolest, where pull to one side and starts in corners
    /// count as if they were warmer. Baffles come before the walls about them, the stitch that closes the tank
    /// last. Of equals, the first in the list of seams; so the plan is the same every time, on every machine.
    ///
    /// # Errors
    /// [`PlanError`] where the metal never cools, or `keep_on` says no.
    pub fn plan(
        &mut self,
        manner: &Manner,
        seams: &impl Seams,
        see: impl FnMut(Planned),
        keep_on: impl FnMut() -> bool,
    ) -> Result<Sum, PlanError> {
        self.weld(manner, seams, coolest, see, keep_on)
    }

    /// Seam by seam, each from its start to its end, in the order of the list: for comparison.
    ///
    /// # Errors
    /// As [`Bench::plan`].
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
    /// As [`Bench::plan`].
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

fn coolest<const C: usize, const L: usize>(standing: &Standing<'_, C, L>) -> Option<(u8, bool)> {
    let turn = standing.turn()?;
    let mut best = None;
    let mut least = f64::INFINITY;
    for (number, run) in standing.candidates() {
        if run.turn != turn {
            continue;
        }
        let (reversed, warmth) = sense(standing, &run);
        let limit = standing.manner.limit;
        let progress = 0.5 * (standing.progress(run.panels[0]) + standing.progress(run.panels[1]));
        let mut score = warmth
            + PULL_WEIGHT * limit * standing.pull.with(&run)
            + PROGRESS_WEIGHT * limit * progress;
        if standing.bench.is_corner(&run, reversed) {
            score += CORNER_WEIGHT * limit;
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
    let [ahead, back] = [false, true].map(|reversed| bench.start_warmth(run, reversed));
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
