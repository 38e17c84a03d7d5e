//! What a tank is asked for: its weld plan, and what an order of somebody else's takes.

use super::laid::Directed;
use super::options::PlanOptions;
use super::plan::WeldPlan;
use super::planner::Planner;
use super::step::WeldStep;
use super::workspace::PlanError;
use crate::tank::Tank;

impl Tank {
    /// The weld plan of this tank with all comparisons, without rests for power source and torch.
    ///
    /// The planner holds the plan; [`Clone`] it to keep it for longer.
    ///
    /// # Errors
    /// [`PlanError`] where the metal never cools, or the tank has more stitches or walls than a plan may have.
    pub fn weld_plan<'p>(&self, planner: &'p mut Planner) -> Result<&'p WeldPlan, PlanError> {
        self.weld_plan_with(planner, &PlanOptions::default())
    }

    /// The weld plan of this tank as `options` ask for it.
    ///
    /// # Errors
    /// As [`Tank::weld_plan`].
    pub fn weld_plan_with<'p>(
        &self,
        planner: &'p mut Planner,
        options: &PlanOptions,
    ) -> Result<&'p WeldPlan, PlanError> {
        planner.run(self, options)
    }

    /// What it takes to weld this tank in an order of somebody else's: each step's stitch and direction count, its wait
    /// and its warmth are found anew. Stitches that the order leaves out stay unwelded.
    ///
    /// # Errors
    /// As [`Tank::weld_plan`].
    pub fn weld_in_order<'p>(
        &self,
        planner: &'p mut Planner,
        options: &PlanOptions,
        order: impl IntoIterator<Item = WeldStep>,
    ) -> Result<&'p WeldPlan, PlanError> {
        planner.lay_out(self, options)?;
        planner.weld_given(
            self,
            order.into_iter().map(|step| Directed {
                stitch: step.stitch,
                reversed: step.reversed,
            }),
        )?;
        planner.outcome()
    }
}
