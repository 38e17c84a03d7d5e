//! What a job asks of core's weld plan, and the plan's picture.

pub mod plot;

use seamwright_core::tank::Tank;
use seamwright_core::weld::{ArcShare, OrderSearch, PlanError, PlanOptions, Planner, WeldPlan};

use crate::job_file::Extras;

/// What a plan is asked for, with the rests that the ratings of power source and torch call for. A current past them
/// has no share; the report says so beside.
fn options(tank: &Tank, extras: &Extras) -> PlanOptions {
    let arc = tank.arc();
    let torch = extras.torch.on(arc.process);
    let torch = torch.as_ref().map(|(plate, _)| plate);
    let share = ArcShare::of_ratings(extras.power_source.as_ref(), torch, arc.current);
    PlanOptions {
        arc_share: share.ok().flatten(),
        ..PlanOptions::default()
    }
}

/// The plan of a tank, with the rests that the ratings of power source and torch ask for.
///
/// # Errors
/// [`PlanError`] where the metal never cools, or the tank has more stitches than a plan may have.
pub fn plan(tank: &Tank, extras: &Extras) -> Result<WeldPlan, PlanError> {
    let mut planner = Box::new(Planner::new());
    let plan = tank.weld_plan_with(&mut planner, &options(tank, extras))?;
    Ok(plan.clone())
}

/// The best order of so many that a search finds for a tank.
///
/// # Errors
/// As [`plan`].
pub fn search(tank: &Tank, extras: &Extras, tries: u32) -> Result<OrderSearch, PlanError> {
    let mut planner = Box::new(Planner::new());
    tank.search_weld_order(&mut planner, &options(tank, extras), tries)
}
