//! What a job asks of core's weld plan, and the plan's picture.

pub mod plot;
mod threads;

use seamwright_core::tank::Tank;
use seamwright_core::weld::{
    OrderEffort, OrderSearch, PARTS, PlanError, PlanOptions, PlanRoom, Planner, SearchEffort,
    WeldPlan,
};

use self::threads::Threads;
use crate::job_file::Extras;

/// The plan of a tank, with the rests that the ratings of power source and torch ask for, and with waits for cooler metal
/// where its alloy must not stay warm for long; the best order of the ways made better, where stitches wait for metal.
///
/// # Errors
/// [`PlanError`] where the metal never cools, or the tank has more stitches than a plan may have.
pub fn plan(tank: &Tank, extras: &Extras) -> Result<WeldPlan, PlanError> {
    let options = PlanOptions::resting(&extras.equipment, tank.arc());
    plan_with(tank, &options, Some(&OrderEffort::USUAL))
}

/// The plan as `options` ask for it, its order made better with so much effort; without, the order of the best way, as a
/// gauge finds it.
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
    tank.search_weld_order_from(&mut planner, &options, plan, &SearchEffort::of(tries))
}
