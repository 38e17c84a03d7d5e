//! The weld plan: found little by little, read, compared with orders of others, and searched.

use core::hint::black_box;

use seamwright_core::arc::Equipment;
use seamwright_core::arc::duty::RatingPlate;
use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, Ratio};
use seamwright_core::weld::{ArcShare, PlanOptions, Planner, RatedPart, WeldPlan, WeldStep};

/// Reaches every way to put the stitches of one tank in order.
pub(crate) fn prove(tank: &Tank) {
    let mut planner = Planner::new();
    let options = PlanOptions {
        arc_share: black_box(Some(ArcShare {
            share: Ratio::from_share(0.35),
            part: RatedPart::Torch,
        })),
        cell_width: black_box(Length::from_metres(0.01)),
        ..PlanOptions::default()
    };
    little_by_little(tank, &mut planner);
    as_a_gauge(tank, &mut Planner::with_room());
    if let Ok(plan) = tank.weld_plan(&mut planner) {
        read(plan, tank);
    }
    if let Ok(plan) = tank.weld_plan_with(&mut planner, &options) {
        read(plan, tank);
    }
    let given = black_box(
        [WeldStep {
            stitch: 0,
            reversed: false,
            wait: 0,
            cause: None,
            warmth: 0,
        }; WeldStep::MOST],
    );
    if let Ok(plan) = tank.weld_in_order(&mut planner, &options, given) {
        read(plan, tank);
    }
    // The search for a better order is not among what is proved: it is the laptop's.
}

/// The share that two ratings allow.
pub(crate) fn prove_share(plates: [Option<&RatingPlate>; 2], tank: &Tank) {
    let [source, torch] = black_box(plates);
    let share = ArcShare::of_ratings(source, torch, tank.arc().current);
    let _ = black_box(share.map(|share| share.map(|share| share.part.name())));
}

fn read(plan: &WeldPlan, tank: &Tank) {
    for stitch in plan.stitches(tank) {
        for part in stitch.wait.parts() {
            black_box(part);
        }
        for part in stitch.wait.parts_beside_move() {
            black_box(part);
        }
        black_box(stitch);
    }
    let totals = plan.totals();
    black_box((
        totals.job(),
        totals.arc(),
        totals.moves(),
        totals.waits(),
        totals.metal_waits(),
        totals.rests(),
    ));
    black_box((
        totals.hottest_start(),
        totals.hottest_rise(),
        totals.pull(),
        plan.seam_by_seam(),
    ));
    for end in plan.band() {
        black_box(end);
    }
    for step in plan.steps().iter().copied() {
        black_box(tank.stitch(step.stitch.into()));
        black_box((
            WeldStep::unpack(step.pack()),
            step.waits(),
            step.starts_at(),
        ));
    }
    crate::work::prove_notices(tank, plan, &black_box(Equipment::default()));
    black_box(tank.is_order(plan.steps().iter().copied()));
}

/// With the room that a gauge has.
fn as_a_gauge(tank: &Tank, planner: &mut Planner<{ WeldStep::MOST }>) {
    planner.begin(&PlanOptions::GAUGE);
    while planner.is_busy() {
        black_box(planner.advance(tank));
    }
    black_box(tank.is_order(planner.plan().steps().iter().copied()));
    planner.stop();
}

/// As a gauge does it that has buttons to watch.
fn little_by_little(tank: &Tank, planner: &mut Planner) {
    planner.begin(&PlanOptions::GAUGE);
    while planner.is_busy() {
        black_box((planner.advance(tank), planner.progress()));
        black_box((planner.is_laying_out(), planner.cells_and_links()));
    }
    if let Ok(plan) = planner.outcome() {
        read(plan, tank);
    }
    read(planner.plan(), tank);
    planner.stop();
}
