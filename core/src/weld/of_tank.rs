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
    /// ```
    /// # use seamwright_core::prelude::*;
    /// # let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// # let outside = Block::new(mm(320.0), mm(180.0), mm(160.0));
    /// # let draft = Draft::new("Header tank", outside, StockDraft::of(Alloy::A5754, mm(2.0)))?;
    /// # let tank = Tank::build(&draft)?;
    /// let mut planner = Planner::new();
    /// let plan = tank.weld_plan(&mut planner)?;
    /// let first = plan.stitches(&tank).next().ok_or("no stitch")?;
    /// // Nothing is warm yet.
    /// assert_eq!(first.wait.beside_move(), Time::default());
    /// assert!(plan.totals().waits() <= plan.totals().job());
    /// # Ok::<(), Box<dyn core::error::Error>>(())
    /// ```
    ///
    /// # Errors
    /// [`PlanError`] where the metal never cools, or the tank has more stitches or walls than a plan may have.
    pub fn weld_plan<'p, const STITCHES: usize>(
        &self,
        planner: &'p mut Planner<STITCHES>,
    ) -> Result<&'p WeldPlan<STITCHES>, PlanError> {
        self.weld_plan_with(planner, &PlanOptions::default())
    }

    /// The weld plan of this tank as `options` ask for it.
    ///
    /// # Errors
    /// As [`Tank::weld_plan`].
    pub fn weld_plan_with<'p, const STITCHES: usize>(
        &self,
        planner: &'p mut Planner<STITCHES>,
        options: &PlanOptions,
    ) -> Result<&'p WeldPlan<STITCHES>, PlanError> {
        planner.run(self, options)
    }

    /// What it takes to weld this tank in an order of somebody else's: each step's stitch and direction count, its wait
    /// and its warmth are found anew. Stitches that the order leaves out stay unwelded.
    ///
    /// # Errors
    /// As [`Tank::weld_plan`].
    pub fn weld_in_order<'p, const STITCHES: usize>(
        &self,
        planner: &'p mut Planner<STITCHES>,
        options: &PlanOptions,
        order: impl IntoIterator<Item = WeldStep>,
    ) -> Result<&'p WeldPlan<STITCHES>, PlanError> {
        planner.lay_out(self, options)?;
        planner.weld_given(
            self,
            order
                .into_iter()
                .map(|step| Directed::new(step.stitch.into(), step.reversed)),
        )?;
        planner.outcome()
    }
}
