//! Which stitch comes next.
//!
//! The plan's own choice is greedy: always the stitch whose start is coolest, where pull to one side, panels welded far
//! and starts in corners count as if they were warmer. Which weights leave the fewest stitches in hot places at the end
//! depends on the tank, so the planner tries eight ways and keeps the best. Where there is memory for it, [`improve`](super::improve) goes on from
//! there.

use super::laid::{Directed, LaidStitch};
use super::state::State;

/// How much each matter weighs against warmth, as a share of the interpass limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChoiceWeights {
    /// A whole unit of pull to one side.
    pull: f64,
    /// A panel that is welded all round, against one not yet begun.
    progress: f64,
    /// A start in a corner.
    corner: f64,
}

const fn weights(pull: f64, progress: f64, corner: f64) -> ChoiceWeights {
    ChoiceWeights {
        pull,
        progress,
        corner,
    }
}

/// The ways to weigh that a plan tries. The first is a good one on most tanks, and the one of the first look.
pub const WAYS: [ChoiceWeights; 8] = [
    weights(1.0, 1.0, 0.03),
    weights(1.0, 3.0, 0.0),
    weights(1.0, 2.0, 0.03),
    weights(2.0, 2.0, 0.03),
    weights(2.0, 1.0, 0.0),
    weights(1.0, 0.6, 0.0),
    weights(0.5, 4.0, 0.03),
    weights(2.0, 0.3, 0.05),
];

/// How the next stitch is found.
#[derive(Clone, Copy, Debug)]
pub(super) enum Choice<'a> {
    /// The stitch whose start is coolest, weighed so, stage by stage of building, the stitch that closes
    /// the tank last. Of equals, the first in the list of seams; so the plan is the same every time, on every machine.
    Coolest(&'a ChoiceWeights),
    /// Seam by seam, each from its start to its end, in the order of the list within each stage: for comparison.
    SeamBySeam,
    /// As this order has it.
    Given(&'a [Directed]),
}

impl Choice<'_> {
    /// The next stitch; `None` where nothing is left, or the given order has come to its end.
    pub(super) fn next<const STITCHES: usize, const CELLS: usize, const LINKS: usize>(
        &self,
        state: &State<'_, STITCHES, CELLS, LINKS>,
    ) -> Option<Directed> {
        match self {
            Self::Coolest(weights) => coolest(state, weights),
            Self::SeamBySeam => {
                let stage = state.turn()? / 2;
                let mut due = state
                    .candidates()
                    .filter(|(_, stitch)| stitch.stage == stage);
                due.next().map(|(stitch, _)| Directed::new(stitch, false))
            }
            Self::Given(order) => order.get(state.welded).copied(),
        }
    }
}

fn coolest<const STITCHES: usize, const CELLS: usize, const LINKS: usize>(
    state: &State<'_, STITCHES, CELLS, LINKS>,
    weights: &ChoiceWeights,
) -> Option<Directed> {
    let turn = state.turn()?;
    let mut best = None;
    let mut least = f64::INFINITY;
    for (number, stitch) in state.candidates() {
        if stitch.turn() != turn {
            continue;
        }
        let (reversed, warmth) = direction(state, (number, &stitch));
        let limit = state.procedure.limit;
        // What is added is never below zero: most are out of the running before the pull, which costs most.
        if warmth >= least {
            continue;
        }
        let [one, other] = stitch.panels;
        let progress = 0.5 * (state.progress(one) + state.progress(other));
        let progress = weights.progress * limit * progress;
        if warmth + progress >= least {
            continue;
        }
        let mut score = warmth + weights.pull * limit * state.pull.with(&stitch) + progress;
        if stitch.is_corner(reversed) {
            score += weights.corner * limit;
        }
        if score < least {
            least = score;
            best = Some(Directed::new(number, reversed));
        }
    }
    best
}

/// Whether a stitch is welded backwards, and how warm its start is then, in K over the surroundings: away from a corner
/// at an end of the seam, towards a neighbour welded before where that is asked for, and else from its cooler end.
fn direction<const STITCHES: usize, const CELLS: usize, const LINKS: usize>(
    state: &State<'_, STITCHES, CELLS, LINKS>,
    (number, stitch): (u16, &LaidStitch),
) -> (bool, f64) {
    let workspace = state.workspace;
    let [ahead, back] = [false, true].map(|reversed| workspace.rough_warmth(stitch, reversed));
    let pick = |reversed: bool| (reversed, if reversed { back } else { ahead });
    if state.procedure.back_step {
        let before = state.is_welded(stitch, number.checked_sub(1));
        let after = state.is_welded(stitch, number.checked_add(1));
        if before != after {
            // Towards what is welded already.
            return pick(before);
        }
    }
    match [false, true].map(|reversed| stitch.is_corner(reversed)) {
        [true, false] => pick(true),
        [false, true] => pick(false),
        _ => pick(back < ahead),
    }
}
