//! A tank on the bench: its shell, its stitches, and what welding them in an order takes.

use core::fmt;

use heapless::Vec;

use super::run::{MAX_POINTS, Point, Run, Seams, Turn};
use super::{MAX_STITCHES, pull::Pull};
use crate::heat::network::{Mesh, Shell, Spot};

/// How the tank is welded. SI units; temperatures in K over the surroundings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Manner {
    /// Heat that the shell receives while the arc burns, in W.
    pub power: f64,
    /// Along the seam, in m/s.
    pub travel: f64,
    /// The warmest that the metal may be where a stitch starts.
    pub limit: f64,
    /// From one stitch to the next, in s.
    pub moving: f64,
    /// Each stitch of a seam is welded towards the one before it.
    pub back_step: bool,
}

/// Why there is no plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum PlanError {
    /// The metal does not come below the interpass limit within two hours, or the job not to its end within a day.
    NeverCool,
    /// The tank has more stitches than a plan may have, or more places where they begin.
    TooMany,
    /// The tank has more walls than cells.
    Mesh,
    /// Broken off.
    Broken,
}

impl fmt::Display for PlanError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NeverCool => {
                "no order of welding: the metal needs over two hours to cool below the interpass limit, or the job over a day; raise the limit, weld in cooler air, or check current and travel"
            }
            Self::TooMany => "more stitches than a plan may have: make stitch_max longer",
            Self::Mesh => "the tank has more walls than its heat can be followed in",
            Self::Broken => "the plan was broken off",
        })
    }
}

impl core::error::Error for PlanError {}

/// One stitch of a plan, in the order of welding.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Planned {
    /// Its place among the runs.
    pub run: u8,
    /// Whether it is welded from its seam's end towards its start.
    pub reversed: bool,
    /// From the first arc of the job, in s.
    pub start: f32,
    /// Waited before it, besides the moving, in s.
    pub wait: f32,
    /// The metal where it starts, just before the arc, in K over the surroundings.
    pub warmth: f32,
}

/// What a whole order takes.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Sum {
    /// From the first arc to the end of the last, in s.
    pub job: f64,
    /// Of the waits, in s.
    pub waits: f64,
    /// The hottest start, in K over the surroundings.
    pub hottest: f64,
    /// The largest pull to one side on the way, 0 to about 1: the first moment of what is welded about the middle of the
    /// welds, over the sum of all lengths by their distances.
    pub pull: f64,
}

/// The longest wait, in s.
const LONGEST_WAIT: f64 = 7_200.0;
/// The longest job, in s.
const LONGEST_JOB: f64 = 86_400.0;

/// A tank with its stitches.
#[derive(Debug)]
pub struct Bench<const C: usize, const L: usize> {
    /// Its sheets.
    pub mesh: Mesh,
    /// Its heat.
    pub shell: Shell<C, L>,
    /// Its stitches, seam by seam.
    pub runs: Vec<Run, { MAX_STITCHES as usize }>,
    /// Where they begin and end.
    pub points: Vec<Point, MAX_POINTS>,
}

impl<const C: usize, const L: usize> Default for Bench<C, L> {
    fn default() -> Self {
        Self::new()
    }
}

/// How the next stitch is found: the welding as it stands, what is left, and the pull so far.
pub(super) struct Standing<'a, const C: usize, const L: usize> {
    pub(super) bench: &'a Bench<C, L>,
    pub(super) left: &'a [bool],
    pub(super) pull: &'a Pull,
    pub(super) manner: &'a Manner,
}

impl<const C: usize, const L: usize> Bench<C, L> {
    /// An empty bench.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            mesh: Mesh::new(),
            shell: Shell::new(),
            runs: Vec::new(),
            points: Vec::new(),
        }
    }

    /// Welds the tank in an order that `next` chooses as it goes, and gives each stitch to `see`.
    ///
    /// Waits are whole steps of the shell. `keep_on` is asked at every step.
    ///
    /// # Errors
    /// [`PlanError::NeverCool`], or [`PlanError::Broken`] once `keep_on` says no.
    pub(super) fn weld(
        &mut self,
        manner: &Manner,
        seams: &impl Seams,
        mut next: impl FnMut(&Standing<'_, C, L>) -> Option<(u8, bool)>,
        mut see: impl FnMut(Planned),
        mut keep_on: impl FnMut() -> bool,
    ) -> Result<Sum, PlanError> {
        self.shell.rest();
        let step = self.shell.step_length();
        let mut left = [false; MAX_STITCHES as usize];
        for (slot, _) in left.iter_mut().zip(&self.runs) {
            *slot = true;
        }
        let mut pull = Pull::of(&self.runs);
        let mut sum = Sum::default();
        let mut clock = 0.0;
        for count in 0..self.runs.len() {
            if count > 0 {
                let mut moved = 0.0;
                while moved < manner.moving {
                    if !keep_on() {
                        return Err(PlanError::Broken);
                    }
                    self.shell.pass(None);
                    clock += step;
                    moved += step;
                }
            }
            if clock > LONGEST_JOB {
                return Err(PlanError::NeverCool);
            }
            let chosen = next(&Standing {
                bench: self,
                left: &left,
                pull: &pull,
                manner,
            });
            let Some((number, reversed)) = chosen else {
                break;
            };
            let Some(run) = self.runs.get(usize::from(number)).copied() else {
                break;
            };
            if let Some(slot) = left.get_mut(usize::from(number)) {
                *slot = false;
            }
            let mut wait = 0.0;
            let start = self.start_of(&run, reversed, seams);
            let warmth_now = |bench: &Self| {
                start.map_or_else(
                    || bench.rough_warmth(&run, reversed),
                    |spot| bench.shell.warmth_at(spot),
                )
            };
            let mut warmth = warmth_now(self);
            while warmth > manner.limit {
                if !keep_on() {
                    return Err(PlanError::Broken);
                }
                if wait > LONGEST_WAIT || clock > LONGEST_JOB {
                    return Err(PlanError::NeverCool);
                }
                self.shell.pass(None);
                clock += step;
                wait += step;
                warmth = warmth_now(self);
            }
            see(Planned {
                run: number,
                reversed,
                start: clock as f32,
                wait: wait as f32,
                warmth: warmth as f32,
            });
            sum.waits += wait;
            sum.hottest = libm::fmax(sum.hottest, warmth);
            clock += self.burn(&run, reversed, manner, seams, &mut keep_on)?;
            sum.job = clock;
            pull.weld(&run);
        }
        sum.pull = pull.most();
        Ok(sum)
    }

    /// Lets the arc burn along a stitch, and gives the time that passes: its last step may be longer than
    /// the arc.
    fn burn(
        &mut self,
        run: &Run,
        reversed: bool,
        manner: &Manner,
        seams: &impl Seams,
        keep_on: &mut impl FnMut() -> bool,
    ) -> Result<f64, PlanError> {
        let Some(edge) = seams.edge(run.seam) else {
            return Ok(0.0);
        };
        let step = self.shell.step_length();
        let length = edge.length().si() / f64::from(run.of);
        let from = length * f64::from(run.number);
        let arc = length / manner.travel;
        let mut burnt = 0.0;
        while burnt < arc {
            if !keep_on() {
                return Err(PlanError::Broken);
            }
            let bit = libm::fmin(step, arc - burnt);
            let gone = manner.travel * (burnt + 0.5 * bit);
            let at = from + if reversed { length - gone } else { gone };
            let spot = self.mesh.spot(&edge, at, &self.shell);
            self.shell.pass(spot.map(|spot| (spot, manner.power * bit)));
            burnt += step;
        }
        Ok(burnt)
    }

    /// The place where a stitch starts.
    fn start_of(&self, run: &Run, reversed: bool, seams: &impl Seams) -> Option<Spot> {
        let edge = seams.edge(run.seam)?;
        let length = edge.length().si() / f64::from(run.of);
        let at = length * f64::from(u16::from(run.number) + u16::from(reversed));
        self.mesh.spot(&edge, at, &self.shell)
    }

    /// How warm the cells are where a stitch starts: good enough to choose by.
    pub(super) fn rough_warmth(&self, run: &Run, reversed: bool) -> f64 {
        let point = usize::from(run.point) + usize::from(reversed);
        self.points.get(point).map_or(0.0, |point| {
            let [a, b] = point.cells.map(|cell| self.shell.warmth(cell));
            0.5 * (a + b)
        })
    }

    pub(super) fn is_corner(&self, run: &Run, reversed: bool) -> bool {
        let point = usize::from(run.point) + usize::from(reversed);
        self.points.get(point).is_some_and(|point| point.corner)
    }
}

impl<const C: usize, const L: usize> Standing<'_, C, L> {
    /// The earliest turn of which something is left.
    pub(super) fn turn(&self) -> Option<Turn> {
        self.candidates().map(|(_, run)| run.turn).min()
    }

    /// What is left to weld.
    pub(super) fn candidates(&self) -> impl Iterator<Item = (u8, Run)> + '_ {
        (0_u8..=u8::MAX)
            .zip(&self.bench.runs)
            .zip(self.left)
            .filter(|(_, left)| **left)
            .map(|((number, run), _)| (number, *run))
    }

    /// The share of a panel's stitches that is welded.
    pub(super) fn progress(&self, panel: u8) -> f64 {
        let mut counts = [0_u16; 2];
        for (run, left) in self.bench.runs.iter().zip(self.left) {
            if run.panels.contains(&panel) {
                counts[0] += 1;
                counts[1] += u16::from(!*left);
            }
        }
        f64::from(counts[1]) / f64::from(counts[0].max(1))
    }

    /// Whether a stitch of the same seam is welded already.
    pub(super) fn is_welded(&self, run: &Run, number: Option<u8>) -> bool {
        let Some(number) = number else { return false };
        self.bench
            .runs
            .iter()
            .zip(self.left)
            .any(|(other, left)| other.seam == run.seam && other.number == number && !left)
    }
}
