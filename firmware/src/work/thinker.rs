//! What a gauge finds out by itself while nobody presses a button: the order of a job's stitches.

use core::fmt::Debug;

use seamwright_core::tank::Tank;
use seamwright_core::weld::{PlanOptions, Planner, Progress, WeldStep};

use super::order::{Order, Origin};

/// Something that may find the order of an open job's stitches, a small step at a time.
pub trait Think: Debug {
    /// Whether it ever finds one.
    const ABLE: bool;
    /// One that knows of no job.
    const NEW: Self;

    /// A step of the plan for the job at this place of the shelf, whose tank this is. Tells whether more is known.
    fn think(&mut self, job: usize, tank: &Tank) -> bool;

    /// Whether there is more to find out of the job at this place.
    fn is_busy(&self, job: usize) -> bool;

    /// What it has found for the job at this place.
    fn order(&self, job: usize) -> Order<'_>;

    /// The job at this place is another one now.
    fn forget(&mut self, job: usize);

    /// All jobs are gone.
    fn stop(&mut self);
}

/// No planner: a gauge without room for one.
#[derive(Clone, Copy, Debug)]
pub struct NoPlanner;

impl Think for NoPlanner {
    const ABLE: bool = false;
    const NEW: Self = Self;

    fn think(&mut self, _: usize, _: &Tank) -> bool {
        false
    }

    fn is_busy(&self, _: usize) -> bool {
        false
    }

    fn order(&self, _: usize) -> Order<'_> {
        Order::sent(&[])
    }

    fn forget(&mut self, _: usize) {}

    fn stop(&mut self) {}
}

/// A planner that knows which job it plans: coming back to that job, it goes on. It has room for as many stitches as an
/// order may have, and finds none for a job of more.
#[derive(Debug)]
pub struct Thinker {
    planner: Planner<{ WeldStep::MOST }>,
    job: Option<usize>,
}

impl Think for Thinker {
    const ABLE: bool = true;
    const NEW: Self = Self {
        planner: Planner::with_room(),
        job: None,
    };

    fn think(&mut self, job: usize, tank: &Tank) -> bool {
        if self.job != Some(job) {
            self.job = Some(job);
            self.planner.begin(&PlanOptions::GAUGE);
        }
        self.planner.advance(tank)
    }

    fn is_busy(&self, job: usize) -> bool {
        self.job != Some(job) || self.planner.is_busy()
    }

    fn order(&self, job: usize) -> Order<'_> {
        if self.job != Some(job) {
            return Order::planned(&[], Origin::Own(Progress::Idle));
        }
        let steps = self.planner.plan().steps();
        Order::planned(steps, Origin::Own(self.planner.progress()))
    }

    fn forget(&mut self, job: usize) {
        if self.job == Some(job) {
            self.stop();
        }
    }

    fn stop(&mut self) {
        self.planner.stop();
        self.job = None;
    }
}
