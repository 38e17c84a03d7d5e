//! The planner on the emulated chip: it fits, and finds the laptop's plan to the bit.

use seamwright_core::tank::Tank;
use seamwright_core::weld::{PlanOptions, PlannedStitch, Planner, Progress};
use seamwright_tests::Outcome;
use seamwright_tests::board::HeatBoard;
use seamwright_tests::jobs;

#[test]
fn the_board_plans_the_header_tank_to_the_bit() -> Outcome {
    let job = jobs::example("header-tank");
    let told = HeatBoard::start()?.plan(job.draft.clone())?;

    let tank = Tank::build(&job.draft).map_err(|error| error.to_string())?;
    let mut planner = Box::new(Planner::new());
    planner.begin(&PlanOptions::GAUGE);
    while planner.progress() != Progress::Tried(1) {
        assert!(planner.is_busy());
        planner.advance(&tank);
    }
    let bits = |value: f64| format!("{:016x}", value.to_bits());
    let stitch = |one: PlannedStitch| {
        let wait = one.wait.beside_move().si();
        let figures = [one.start.si(), wait, one.start_temperature.si()].map(bits);
        let [from, to] = [one.from, one.to].map(|at| bits(at.si()));
        format!("{} {from} {to} {}", one.seam_place, figures.join(" "))
    };
    let stitches: Vec<String> = planner.plan().stitches(&tank).map(stitch).collect();
    let totals = planner.plan().totals();
    assert!(stitches.len() > 30);
    assert_eq!(told.stitches, stitches);
    let [job, pull] = [totals.job().si(), totals.pull().si()].map(bits);
    assert_eq!(told.figure("planned job"), Some(job.as_str()));
    assert_eq!(told.figure("planned pull"), Some(pull.as_str()));
    Ok(())
}
