//! Finding an order a little at a time: for a gauge that has buttons to watch.
//!
//! First a coarse look, then the fine plan by one way of weighing after another; whatever is best so far can be
//! shown at any time. When all ways are tried the order is the one that [`Bench::best_way`] finds, to the bit.

use heapless::Vec;

use super::LayingOut;
use super::{
    Advance, Bench, Course, DEVICE_FINE, FIRST_LOOK, PlanError, Planned, Seams, Standing, Sum,
    WAYS, Weights, WeldStep, coolest,
};
use crate::input::limits::MAX_STITCHES;
use crate::tank::Tank;

/// The steps of an order.
pub type Steps = Vec<WeldStep, { MAX_STITCHES as usize }>;

/// How far a planner is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Progress {
    /// Nothing is being planned.
    Idle,
    /// There is no order yet.
    Looking,
    /// There is the coarse order.
    Looked,
    /// There is the best order of so many ways; at [`WAYS`]' number it is the last word.
    Tried(u8),
    /// There is no order, and why.
    Failed(PlanError),
}

/// What is done next.
#[derive(Clone, Copy, Debug)]
enum Stage {
    Idle,
    /// The tank is being laid out, coarsely or finely.
    LayOut {
        fine: bool,
        laying: LayingOut,
    },
    /// The coarse look is on its way.
    Look,
    /// This way is on its way.
    Try(u8),
    Over,
}

/// A planner with room for `C` cells and `L` links.
#[derive(Debug)]
pub struct Planner<const C: usize, const L: usize> {
    bench: Bench<C, L>,
    course: Course,
    stage: Stage,
    progress: Progress,
    making: Steps,
    best: Steps,
    sum: Sum,
}

impl<const C: usize, const L: usize> Default for Planner<C, L> {
    fn default() -> Self {
        Self::new()
    }
}

impl<const C: usize, const L: usize> Planner<C, L> {
    /// With nothing to plan.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            bench: Bench::new(),
            course: Course::new(),
            stage: Stage::Idle,
            progress: Progress::Idle,
            making: Vec::new(),
            best: Vec::new(),
            sum: Sum::NONE,
        }
    }

    /// Begins afresh, with whichever tank [`Planner::advance`] is given.
    pub fn begin(&mut self) {
        self.making.clear();
        self.best.clear();
        self.sum = Sum::NONE;
        self.lay_out_next(false);
        self.progress = Progress::Looking;
    }

    /// Forgets what it was at.
    pub fn stop(&mut self) {
        self.making.clear();
        self.best.clear();
        self.stage = Stage::Idle;
        self.progress = Progress::Idle;
    }

    /// How far it is.
    #[must_use]
    pub const fn progress(&self) -> Progress {
        self.progress
    }

    /// Whether there is something left to do.
    #[must_use]
    pub const fn is_busy(&self) -> bool {
        !matches!(self.stage, Stage::Idle | Stage::Over)
    }

    /// The best order so far; empty while there is none.
    #[must_use]
    pub fn steps(&self) -> &[WeldStep] {
        &self.best
    }

    /// What that order takes; of the coarse one, about.
    #[must_use]
    pub const fn sum(&self) -> Sum {
        self.sum
    }

    /// Goes on for one step of the shell, or with one part of laying the tank out; tells whether [`Planner::progress`] changed. The tank
    /// must be the same until [`Planner::begin`].
    pub fn advance(&mut self, tank: &Tank) -> bool {
        let gone = match self.stage {
            Stage::Idle | Stage::Over => Ok(false),
            Stage::LayOut { fine, laying } => self.lay_out(tank, fine, laying),
            Stage::Look => self.look(tank),
            Stage::Try(way) => self.attempt(tank, way),
        };
        gone.unwrap_or_else(|error| {
            self.stage = Stage::Over;
            // A coarse order of a tank that has no fine one would mislead.
            self.best.clear();
            self.progress = Progress::Failed(error);
            true
        })
    }

    const fn lay_out_next(&mut self, fine: bool) {
        let fineness = if fine { &DEVICE_FINE } else { &FIRST_LOOK };
        let laying = LayingOut::new(fineness);
        self.stage = Stage::LayOut { fine, laying };
    }

    fn lay_out(
        &mut self,
        tank: &Tank,
        fine: bool,
        mut laying: LayingOut,
    ) -> Result<bool, PlanError> {
        if tank.lay_out_on(&mut laying, &mut self.bench)? {
            self.start(if fine { Stage::Try(0) } else { Stage::Look });
        } else {
            self.stage = Stage::LayOut { fine, laying };
        }
        Ok(false)
    }

    fn start(&mut self, stage: Stage) {
        self.making.clear();
        self.course.start(&mut self.bench);
        self.stage = stage;
    }

    fn look(&mut self, tank: &Tank) -> Result<bool, PlanError> {
        let [way, ..] = &WAYS;
        let Some(sum) = self.step(tank, &|_: u8| None, way)? else {
            return Ok(false);
        };
        self.take(sum, Progress::Looked);
        self.lay_out_next(true);
        Ok(true)
    }

    fn attempt(&mut self, tank: &Tank, number: u8) -> Result<bool, PlanError> {
        let Some(way) = WAYS.get(usize::from(number)) else {
            self.stage = Stage::Over;
            return Ok(false);
        };
        let seams = |seam: u8| tank.edge_of_seam(usize::from(seam));
        let Some(sum) = self.step(tank, &seams, way)? else {
            return Ok(false);
        };
        let progress = Progress::Tried(number + 1);
        if number == 0 || sum.beats(&self.sum) {
            self.take(sum, progress);
        }
        self.progress = progress;
        let next = number + 1;
        if usize::from(next) < WAYS.len() {
            self.start(Stage::Try(next));
        } else {
            self.stage = Stage::Over;
        }
        Ok(true)
    }

    /// One step of the course; its sum when it is over.
    fn step(
        &mut self,
        tank: &Tank,
        seams: &impl Seams,
        way: &Weights,
    ) -> Result<Option<Sum>, PlanError> {
        let mut next = |standing: &Standing<'_, C, L>| coolest(standing, way);
        match self
            .course
            .advance(&mut self.bench, &tank.manner(), seams, &mut next)?
        {
            Advance::Passed => Ok(None),
            Advance::Stitch(planned) => {
                self.note(&planned, tank);
                Ok(None)
            }
            Advance::Over(sum) => Ok(Some(sum)),
        }
    }

    fn note(&mut self, planned: &Planned, tank: &Tank) {
        let step = WeldStep::of(planned, tank.job().welding().ambient);
        // A bench holds no more stitches than an order.
        let _ = self.making.push(step);
    }

    fn take(&mut self, sum: Sum, progress: Progress) {
        self.best.clone_from(&self.making);
        self.sum = sum;
        self.progress = progress;
    }
}
