//! A tank on the bench: its shell, its stitches, and what welding them in an order takes.

use core::fmt;

use heapless::Vec;

use super::course::{Advance, Course, Standing};
use super::run::{MAX_POINTS, Point, Run, Seams};
use crate::body::Edge;
use crate::heat::shell::{Mesh, Shell, Spot};
use crate::input::limits::MAX_STITCHES;

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
    /// Share of any ten minutes for which the arc may burn; none where nothing is known of power source and torch.
    pub duty: Option<f64>,
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
    /// Waited before it, besides the moving, in s: for the metal to cool, or for power source and torch.
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
    /// Of that, when the metal was cool enough and power source or torch rested, in s.
    pub rests: f64,
    /// The hottest start, in K over the surroundings.
    pub hottest: f64,
    /// The largest pull to one side on the way, 0 to about 1: the first moment of what is welded about the middle of the
    /// welds, over the sum of all lengths by their distances.
    pub pull: f64,
}

impl Sum {
    pub(crate) const NONE: Self = Self {
        job: 0.0,
        waits: 0.0,
        rests: 0.0,
        hottest: 0.0,
        pull: 0.0,
    };

    /// Whether it is the better of two: the shorter job, of equals the less lopsided.
    #[must_use]
    pub fn beats(&self, other: &Self) -> bool {
        self.job < other.job || (self.job <= other.job && self.pull < other.pull)
    }
}

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
        let mut course = Course::new();
        course.start(self);
        loop {
            match course.advance(self, manner, seams, &mut next)? {
                Advance::Stitch(one) => see(one),
                Advance::Over(sum) => return Ok(sum),
                Advance::Passed => {
                    if !keep_on() {
                        return Err(PlanError::Broken);
                    }
                }
            }
        }
    }

    /// The place where a stitch starts.
    pub(super) fn start_of(&self, run: &Run, reversed: bool, edge: &Edge) -> Option<Spot> {
        let length = edge.length().si() / f64::from(run.of);
        let at = length * f64::from(u16::from(run.number) + u16::from(reversed));
        self.mesh.spot(edge, at, &self.shell)
    }

    /// How warm the cells are where a stitch starts: good enough to choose by.
    pub(super) fn rough_warmth(&self, run: &Run, reversed: bool) -> f64 {
        let point = usize::from(run.point) + usize::from(reversed);
        self.points.get(point).map_or(0.0, |point| {
            let [a, b] = point.cells.map(|cell| self.shell.warmth(cell));
            0.5 * (a + b)
        })
    }

    /// The cells at the nearer end of a stitch, of a place so far along it.
    pub(super) fn nearest(&self, run: &Run, gone: f64) -> [u16; 2] {
        let past = gone > 0.5 * f64::from(run.length);
        let point = usize::from(run.point) + usize::from(past);
        self.points
            .get(point)
            .map_or([u16::MAX; 2], |point| point.cells)
    }

    pub(super) fn is_corner(&self, run: &Run, reversed: bool) -> bool {
        let point = usize::from(run.point) + usize::from(reversed);
        self.points.get(point).is_some_and(|point| point.corner)
    }
}
