//! Welding a tank stitch by stitch, one step of its shell at a time, so that it can be laid aside between any two.

use super::bench::{Bench, Manner, PlanError, Planned, Sum};
use super::pull::Pull;
use super::rest::Recent;
use super::run::{Run, Seams, Turn};
use crate::body::Edge;
use crate::heat::shell::Spot;
use crate::input::limits::MAX_STITCHES;

/// The longest wait, in s.
const LONGEST_WAIT: f64 = 7_200.0;
/// The longest job, in s.
const LONGEST_JOB: f64 = 86_400.0;

/// How the next stitch is found: the welding as it stands, what is left, and the pull so far.
pub(crate) struct Standing<'a, const C: usize, const L: usize> {
    pub(super) bench: &'a Bench<C, L>,
    pub(super) left: &'a [bool],
    pub(super) panels: &'a Panels,
    pub(super) pull: &'a Pull,
    pub(super) manner: &'a Manner,
}

/// Of each panel, how many of the stitches at it there are and how many are welded.
type Panels = [[u16; 2]; PANELS];
/// Marks of panels lie below this: walls and baffles to 25, fittings from 27.
const PANELS: usize = 48;

fn count(panels: &mut Panels, run: &Run, which: usize) {
    let [one, other] = run.panels;
    let both = [Some(one), (other != one).then_some(other)];
    for panel in both.into_iter().flatten() {
        let slot = panels.get_mut(usize::from(panel));
        if let Some(slot) = slot.and_then(|counts| counts.get_mut(which)) {
            *slot += 1;
        }
    }
}

/// What is being done, and where it says so for how long by now, in s.
#[derive(Clone, Copy, Debug)]
enum Doing {
    /// The torch goes to the next stitch.
    Moving,
    /// The next stitch is chosen.
    Choosing,
    /// The metal cools where it is to start.
    Waiting(f64),
    /// Its arc burns.
    Burning(f64),
    /// Everything is welded.
    Nothing,
}

/// The stitch that is being welded.
#[derive(Clone, Copy, Debug)]
struct Current {
    number: u8,
    run: Run,
    reversed: bool,
    edge: Option<Edge>,
    start: Option<Spot>,
}

impl Current {
    /// In m.
    fn length(&self) -> f64 {
        self.edge.as_ref().map_or_else(
            || f64::from(self.run.length),
            |edge| edge.length().si() / f64::from(self.run.of),
        )
    }

    /// For how long its arc burns, in s.
    fn arc(&self, manner: &Manner) -> f64 {
        self.length() / manner.travel
    }
}

/// What one step brought.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Advance {
    /// Time has passed.
    Passed,
    /// A stitch is about to be welded.
    Stitch(Planned),
    /// Everything is welded.
    Over(Sum),
}

/// The welding of a tank on its way.
#[derive(Clone, Debug)]
pub(crate) struct Course {
    left: [bool; MAX_STITCHES as usize],
    welded: usize,
    panels: Panels,
    pull: Pull,
    sum: Sum,
    /// From the first arc, in s.
    clock: f64,
    /// The same as the shell has it: whole steps, never further than half a step off when something begins or ends, so
    /// that what is lost to rounding once is won the next time.
    passed: f64,
    doing: Doing,
    current: Option<Current>,
    recent: Recent,
    /// Whether it is only power source or torch that is waited for.
    resting: bool,
}

impl Course {
    /// Nothing to weld: a place for [`Course::start`] to write to.
    pub(crate) const fn new() -> Self {
        Self {
            left: [false; MAX_STITCHES as usize],
            welded: 0,
            panels: [[0; 2]; PANELS],
            pull: Pull::NONE,
            sum: Sum::NONE,
            clock: 0.0,
            passed: 0.0,
            doing: Doing::Nothing,
            current: None,
            recent: Recent::new(),
            resting: false,
        }
    }

    /// At the first arc, everything cold.
    pub(crate) fn start<const C: usize, const L: usize>(&mut self, bench: &mut Bench<C, L>) {
        bench.shell.rest();
        self.left = [false; MAX_STITCHES as usize];
        for (slot, _) in self.left.iter_mut().zip(&bench.runs) {
            *slot = true;
        }
        self.welded = 0;
        self.panels = [[0; 2]; PANELS];
        for run in &bench.runs {
            count(&mut self.panels, run, 0);
        }
        self.pull = Pull::of(&bench.runs);
        self.sum = Sum::NONE;
        self.clock = 0.0;
        self.passed = 0.0;
        self.doing = Doing::Choosing;
        self.current = None;
        self.recent.clear();
    }

    /// One step of the shell at most.
    pub(crate) fn advance<const C: usize, const L: usize>(
        &mut self,
        bench: &mut Bench<C, L>,
        manner: &Manner,
        seams: &impl Seams,
        next: &mut impl FnMut(&Standing<'_, C, L>) -> Option<(u8, bool)>,
    ) -> Result<Advance, PlanError> {
        let step = bench.shell.step_length();
        match self.doing {
            Doing::Moving if self.passed + 0.5 * step < self.clock + manner.moving => {
                bench.shell.pass(None);
                self.passed += step;
                Ok(Advance::Passed)
            }
            Doing::Moving => {
                self.clock += manner.moving;
                self.doing = Doing::Choosing;
                Ok(Advance::Passed)
            }
            Doing::Choosing if self.clock > LONGEST_JOB => Err(PlanError::NeverCool),
            Doing::Choosing => {
                let standing = Standing {
                    bench,
                    left: &self.left,
                    panels: &self.panels,
                    pull: &self.pull,
                    manner,
                };
                match next(&standing) {
                    Some(chosen) => Ok(self.take_up(chosen, bench, manner, seams)),
                    None => Ok(self.end()),
                }
            }
            Doing::Waiting(waited) => {
                if waited > LONGEST_WAIT || self.clock > LONGEST_JOB {
                    return Err(PlanError::NeverCool);
                }
                bench.shell.pass(None);
                self.passed += step;
                self.clock += step;
                if self.resting {
                    self.sum.rests += step;
                }
                Ok(self.wait(waited + step, bench, manner))
            }
            Doing::Burning(burnt) => Ok(self.burn(burnt, bench, manner)),
            Doing::Nothing => Ok(Advance::Over(self.sum)),
        }
    }

    fn take_up<const C: usize, const L: usize>(
        &mut self,
        (number, reversed): (u8, bool),
        bench: &Bench<C, L>,
        manner: &Manner,
        seams: &impl Seams,
    ) -> Advance {
        let Some(run) = bench.runs.get(usize::from(number)).copied() else {
            return self.end();
        };
        if let Some(slot) = self.left.get_mut(usize::from(number)) {
            *slot = false;
        }
        count(&mut self.panels, &run, 1);
        let edge = seams.edge(run.seam);
        let start = edge.and_then(|edge| bench.start_of(&run, reversed, &edge));
        self.current = Some(Current {
            number,
            run,
            reversed,
            edge,
            start,
        });
        self.wait(0.0, bench, manner)
    }

    /// Waits on, or lights the arc.
    fn wait<const C: usize, const L: usize>(
        &mut self,
        waited: f64,
        bench: &Bench<C, L>,
        manner: &Manner,
    ) -> Advance {
        let Some(current) = &self.current else {
            return self.end();
        };
        let warmth = match current.start {
            Some(spot) => bench.shell.warmth_at(spot),
            None => bench.rough_warmth(&current.run, current.reversed),
        };
        let rested = manner
            .duty
            .is_none_or(|share| self.recent.allow(self.clock, current.arc(manner), share));
        self.resting = warmth <= manner.limit;
        if warmth > manner.limit || !rested {
            self.doing = Doing::Waiting(waited);
            return Advance::Passed;
        }
        self.sum.waits += waited;
        self.sum.hottest = libm::fmax(self.sum.hottest, warmth);
        self.doing = Doing::Burning(0.0);
        Advance::Stitch(Planned {
            run: current.number,
            reversed: current.reversed,
            start: self.clock as f32,
            wait: waited as f32,
            warmth: warmth as f32,
        })
    }

    /// Lets the arc burn for a step; in the last, for whatever is left of it.
    fn burn<const C: usize, const L: usize>(
        &mut self,
        burnt: f64,
        bench: &mut Bench<C, L>,
        manner: &Manner,
    ) -> Advance {
        let Some(current) = &self.current else {
            return self.end();
        };
        let run = current.run;
        let length = current.length();
        let arc = current.arc(manner);
        if burnt < arc {
            let step = bench.shell.step_length();
            let last = self.passed + 1.5 * step >= self.clock + arc;
            let bit = if last { arc - burnt } else { step };
            let heat = manner.power * bit;
            let way = manner.travel * (burnt + 0.5 * bit);
            let gone = if current.reversed { length - way } else { way };
            if let Some(edge) = &current.edge {
                let at = length * f64::from(run.number) + gone;
                let spot = bench.mesh.spot(edge, at, &bench.shell);
                bench.shell.pass(spot.map(|spot| (spot, heat)));
            } else {
                bench.shell.pass_at(bench.nearest(&run, gone), heat);
            }
            self.passed += step;
            self.doing = Doing::Burning(if last { arc } else { burnt + step });
            return Advance::Passed;
        }
        self.recent.note(self.clock, arc);
        self.clock += arc;
        self.sum.job = self.clock;
        self.pull.weld(&run);
        self.welded += 1;
        if self.welded == bench.runs.len() {
            return self.end();
        }
        self.doing = Doing::Moving;
        Advance::Passed
    }

    fn end(&mut self) -> Advance {
        self.sum.pull = self.pull.most();
        self.doing = Doing::Nothing;
        Advance::Over(self.sum)
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
        let counts = self.panels.get(usize::from(panel));
        let counts = counts.copied().unwrap_or_default();
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
