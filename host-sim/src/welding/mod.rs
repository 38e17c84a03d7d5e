//! What a job asks of core's weld plan, and the plan's picture.

pub mod plot;
mod threads;

use seamwright_core::input::limits::MAX_STITCHES;
use seamwright_core::tank::Tank;
use seamwright_core::weld::{
    FINE_CELLS, FINE_LINKS, FINER_PARTS, OrderEffort, OrderSearch, PARTS, PlanError, PlanOptions,
    PlanRoom, Planner, SearchEffort, WeldPlan,
};

use self::threads::Threads;
use crate::job_file::Extras;

/// Follows the heat of an order that is chosen.
type FinePlanner = Planner<{ MAX_STITCHES as usize }, FINE_CELLS, FINE_LINKS>;

/// The plan of a tank, with the rests that the ratings of power source and torch ask for, and with waits for cooler metal
/// where its alloy must not stay warm for long; the best order of the ways made better, where stitches wait for metal, and
/// followed once more among finer cells.
///
/// # Errors
/// [`PlanError`] where the metal never cools, or the tank has more stitches than a plan may have.
pub fn plan(tank: &Tank, extras: &Extras) -> Result<WeldPlan, PlanError> {
    let options = PlanOptions::resting(&extras.equipment, tank.arc());
    let plan = plan_with(tank, &options, Some(&OrderEffort::USUAL))?;
    finer(tank, &options, &plan)
}

/// A plan's order among finer cells, with everything that is told beside it.
fn finer(tank: &Tank, options: &PlanOptions, plan: &WeldPlan) -> Result<WeldPlan, PlanError> {
    let mut planners = Vec::with_capacity(FINER_PARTS);
    planners.resize_with(FINER_PARTS, FinePlanner::with_room);
    let Some(planners) = planners.first_chunk_mut() else {
        // There are as many as that says.
        return Ok(plan.clone());
    };
    tank.weld_plan_finer(plan, planners, &Threads::of_machine(), options)
        .cloned()
}

/// The plan as `options` ask for it, among a gauge's cells, its order made better with so much effort; without, the order of
/// the best way, as a gauge finds it.
///
/// # Errors
/// As [`plan`].
pub fn plan_with(
    tank: &Tank,
    options: &PlanOptions,
    effort: Option<&OrderEffort>,
) -> Result<WeldPlan, PlanError> {
    let mut planners = Vec::with_capacity(PARTS);
    planners.resize_with(PARTS, Planner::new);
    let Some(planners) = planners.first_chunk_mut() else {
        // There are as many as that says; one alone finds what they find, but for a better order.
        let mut planner = Box::new(Planner::new());
        return tank.weld_plan_held(&mut planner, options).cloned();
    };
    let figures = effort.map_or(0, |_| tank.order_figures());
    let mut table = vec![0.0; figures];
    let room = PlanRoom {
        planners,
        table: &mut table,
    };
    tank.weld_plan_by_crew(room, &Threads::of_machine(), options, effort)
        .cloned()
}

/// The best order of so many that a search finds for a tank, beginning with that of its plan.
///
/// # Errors
/// As [`plan`].
pub fn search(
    tank: &Tank,
    extras: &Extras,
    plan: &WeldPlan,
    tries: u32,
) -> Result<OrderSearch, PlanError> {
    let mut planner = Box::new(Planner::new());
    let options = PlanOptions {
        // Where the plan waits for cooler metal, so do the orders beside it.
        interpass: Some(plan.interpass_max()),
        ..PlanOptions::resting(&extras.equipment, tank.arc())
    };
    let found =
        tank.search_weld_order_from(&mut planner, &options, plan, &SearchEffort::of(tries))?;
    // Orders are weighed among a gauge's cells; what they take is told by the plan's own.
    let alone = PlanOptions {
        comparisons: false,
        ..options
    };
    let best = finer(tank, &alone, &found.best)?;
    let best = if best.totals().job() < plan.totals().job() {
        best
    } else {
        plan.clone()
    };
    Ok(OrderSearch { best, ..found })
}
