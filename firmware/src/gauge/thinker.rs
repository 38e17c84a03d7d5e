//! The planner, and which job it is at.

use seamwright_core::tank::Tank;
use seamwright_core::weld::{PlanOptions, Planner, Progress};

use super::order::{Order, Origin};

/// A planner that knows which job it plans: coming back to that job, it goes on.
#[derive(Debug)]
pub(super) struct Thinker {
    planner: Planner,
    job: Option<usize>,
}

impl Thinker {
    pub(super) const fn new() -> Self {
        Self {
            planner: Planner::new(),
            job: None,
        }
    }

    /// A step of the plan for the job at this place, whose tank this is. Tells whether more is known.
    pub(super) fn think(&mut self, job: usize, tank: &Tank) -> bool {
        if self.job != Some(job) {
            self.job = Some(job);
            self.planner.begin(&PlanOptions::GAUGE);
        }
        self.planner.advance(tank)
    }

    /// Whether there is more to find out.
    pub(super) fn is_busy(&self, job: usize) -> bool {
        self.job != Some(job) || self.planner.is_busy()
    }

    /// What it has found for the job at this place.
    pub(super) fn order(&self, job: usize) -> Order<'_> {
        if self.job != Some(job) {
            return Order::planned(None, Origin::Own(Progress::Idle));
        }
        let plan = Some(self.planner.plan());
        Order::planned(plan, Origin::Own(self.planner.progress()))
    }

    /// The job at this place is another one now.
    pub(super) fn forget(&mut self, job: usize) {
        if self.job == Some(job) {
            self.stop();
        }
    }

    pub(super) fn stop(&mut self) {
        self.planner.stop();
        self.job = None;
    }
}
