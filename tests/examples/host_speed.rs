//! Prints how many plans a second this machine computes.
//!
//! `cargo run --release -p seamwright-tests --example host_speed`. A measure, never a test: it says what
//! this machine did just now.

use std::hint::black_box;
use std::time::Instant;

use seamwright_core::capacity::Lean;
use seamwright_core::input::Draft;
use seamwright_core::tank::Tank;
use seamwright_core::units::{Angle, AngleUnit, Length};
use seamwright_core::wire::summary;
use seamwright_tests::jobs::{self, EXAMPLES};

const PLANS: u32 = 5_000;
const LEVELS: u32 = 100_000;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    println!(
        "{:<26} {:>12} {:>16}",
        "example", "plans/s", "levels at a lean/s"
    );
    for example in EXAMPLES {
        let draft = jobs::example(example).draft;
        println!(
            "{example:<26} {:>12.0} {:>16.0}",
            plans(&draft)?,
            levels(&draft)?
        );
    }
    Ok(())
}

/// A plan: the tank, its dip chart, and every figure of panels, seams, tacks and stitches.
fn plans(draft: &Draft) -> Result<f64, Box<dyn std::error::Error>> {
    let start = Instant::now();
    for _ in 0..PLANS {
        let tank = Tank::build(black_box(draft))?;
        black_box(summary(&tank));
        tank.dip().for_each(|level| _ = black_box(level));
        tank.panels().for_each(|panel| _ = black_box(panel));
        tank.seams()
            .for_each(|seam| _ = black_box((tank.tacks(&seam), tank.division(&seam))));
        tank.each_notice(|notice| _ = black_box(notice));
    }
    Ok(f64::from(PLANS) / start.elapsed().as_secs_f64())
}

fn levels(draft: &Draft) -> Result<f64, Box<dyn std::error::Error>> {
    let tank = Tank::build(draft)?;
    let pool = tank.pool(Lean::new(
        Angle::new(7.0, AngleUnit::Degree),
        Angle::new(-4.0, AngleUnit::Degree),
    )?);
    let full = pool.full_depth().si();
    let start = Instant::now();
    for step in 0..LEVELS {
        let depth = Length::from_metres(full * f64::from(step) / f64::from(LEVELS));
        black_box(pool.at(black_box(depth))?);
    }
    Ok(f64::from(LEVELS) / start.elapsed().as_secs_f64())
}
