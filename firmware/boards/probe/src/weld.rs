//! The tank laid out in cells, and its stitches put in order.
//!
//! With as many cells as a gauge has room for. The laptop's finer shells are the same code with larger
//! numbers, and lie outside this proof.

use core::hint::black_box;

use seamwright_core::input::limits::MAX_STITCHES;
use seamwright_core::tank::Tank;
use seamwright_core::units::Ratio;
use seamwright_core::weld::{
    Bench, DEVICE_CELLS, DEVICE_FINE, DEVICE_LINKS, Planner, WAYS, Weights, WeldStep,
};

type Table = Bench<DEVICE_CELLS, DEVICE_LINKS>;

/// Reaches every way to put the stitches of one tank in order.
pub(crate) fn prove(tank: &Tank) {
    let mut table = Table::new();
    if tank.lay_out(&black_box(DEVICE_FINE), &mut table).is_err() {
        return;
    }
    black_box((table.shell.cells(), table.shell.links()));
    for run in &table.runs {
        black_box((run, run.arm()));
    }
    let manner = tank.manner_with(black_box(Ratio::from_share(0.4)));
    let seams = |seam: u8| tank.edge_of_seam(usize::from(seam));
    let keep_on = || black_box(true);
    if let Ok(way) = table.best_way(&manner, &seams, keep_on) {
        order(&mut table, tank, &way);
    }
    for way in WAYS {
        order(&mut table, tank, &black_box(way));
    }
    let _ = black_box(table.seam_by_seam(
        &manner,
        &seams,
        |one| {
            black_box(one);
        },
        keep_on,
    ));
    let _ = black_box(table.look_first(
        &manner,
        |one| {
            black_box(WeldStep::of(&one, tank.job().welding().ambient).pack());
        },
        keep_on,
    ));
    little_by_little(tank);
    let given = black_box([(0_u8, false); MAX_STITCHES as usize]);
    let _ = black_box(table.in_order(
        &given,
        &manner,
        &seams,
        |one| {
            black_box(one);
        },
        keep_on,
    ));
}

fn order(table: &mut Table, tank: &Tank, way: &Weights) {
    let manner = black_box(tank.manner());
    let seams = |seam: u8| tank.edge_of_seam(usize::from(seam));
    let sum = table.plan_by(
        way,
        &manner,
        &seams,
        |one| {
            black_box(one);
        },
        || black_box(true),
    );
    let _ = black_box(sum);
}

/// As a gauge does it that has buttons to watch.
fn little_by_little(tank: &Tank) {
    let mut planner = Planner::<DEVICE_CELLS, DEVICE_LINKS>::new();
    planner.begin();
    while planner.is_busy() {
        black_box((planner.advance(tank), planner.progress(), planner.sum()));
    }
    let steps = planner.steps().iter().copied();
    black_box(tank.is_order(steps.clone()));
    for step in steps {
        black_box(tank.stitch(step.run));
        black_box((
            WeldStep::unpack(step.pack()),
            step.waits(),
            step.starts_at(),
        ));
    }
    planner.stop();
}
