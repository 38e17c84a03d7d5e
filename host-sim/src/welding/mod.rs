//! What a job asks of core's weld plan, and the plan's picture.

pub mod plot;

use seamwright_core::tank::Tank;
use seamwright_core::weld::{OrderSearch, PlanError, PlanOptions, Planner, WeldPlan};

use crate::job_file::Extras;

/// The plan of a tank, with the rests that the ratings of power source and torch ask for, and with waits for cooler metal
/// where its alloy must not stay warm for long.
///
/// # Errors
/// [`PlanError`] where the metal never cools, or the tank has more stitches than a plan may have.
pub fn plan(tank: &Tank, extras: &Extras) -> Result<WeldPlan, PlanError> {
    let mut planner = Box::new(Planner::new());
    let options = PlanOptions::resting(&extras.equipment, tank.arc());
    let plan = tank.weld_plan_held(&mut planner, &options)?;
    Ok(plan.clone())
}

/// The best order of so many that a search finds for a tank.
///
/// # Errors
/// As [`plan`].
pub fn search(tank: &Tank, extras: &Extras, tries: u32) -> Result<OrderSearch, PlanError> {
    let mut planner = Box::new(Planner::new());
    let options = PlanOptions::resting(&extras.equipment, tank.arc());
    tank.search_weld_order(&mut planner, &options, tries)
}
