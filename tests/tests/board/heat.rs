//! The planner on the emulated chip: it fits, and finds the laptop's plan to the bit.

use seamwright::welding::Table;
use seamwright_core::tank::Tank;
use seamwright_core::weld::{DEVICE_FINE, Planned, WAYS};
use seamwright_tests::Outcome;
use seamwright_tests::board::HeatBoard;
use seamwright_tests::jobs;

#[test]
fn the_board_plans_the_header_tank_to_the_bit() -> Outcome {
    let job = jobs::example("header-tank");
    let told = HeatBoard::start()?.plan(job.draft.clone())?;

    let tank = Tank::build(&job.draft).map_err(|error| error.to_string())?;
    let mut table = Box::new(Table::new());
    tank.lay_out(&DEVICE_FINE, &mut table)?;
    let seams = |seam: u8| tank.edge_of_seam(usize::from(seam));
    let mut stitches = Vec::new();
    let see = |one: Planned| {
        stitches.push(format!(
            "{} {} {:08x} {:08x} {:08x}",
            one.run,
            u8::from(one.reversed),
            one.start.to_bits(),
            one.wait.to_bits(),
            one.warmth.to_bits()
        ));
    };
    let [way, ..] = WAYS;
    let sum = table.plan_by(&way, &tank.manner(), &seams, see, || true)?;
    assert!(stitches.len() > 30);
    assert_eq!(told.stitches, stitches);
    let bits = |value: f64| format!("{:016x}", value.to_bits());
    assert_eq!(told.figure("planned job"), Some(bits(sum.job).as_str()));
    assert_eq!(told.figure("planned pull"), Some(bits(sum.pull).as_str()));
    Ok(())
}
