//! More heat never makes colder metal, on any tank and at any setting, however odd; and all of it is there or has left.
//!
//! What is compared is chosen so that it holds of the conduction of heat itself:
//! - More power, or more of it taken up, with the same stitches at the same times: every cell of the tank is at least as
//!   warm, at any time. Each step of the shell keeps that order: heat is conducted and lost by amounts that grow with
//!   heat less fast than heat itself.
//! - A slower arc, with the same wait after each stitch: the tank holds at least as much heat. Not every place is warmer:
//!   a slow arc has left the beginning of its stitch for longer.
//! - Shorter waits: likewise. A place that the heat has yet to come to is warmer after a longer one.

mod drive;

use drive::{Arc, Bench, Stitch, Vessel, stitches, vessels};
use proptest::prelude::*;
use seamwright_core::heat::shell::Leaving;

/// Rounding: temperatures of groups of beads are whole parts of a kelvin.
const ROUNDING: f64 = 1e-3;

/// From a tenth of what makes a bead to twenty times of it, and 10 to 2,000 mm/min.
fn arcs() -> impl Strategy<Value = (f64, f64)> {
    let times = (0.1_f64.ln()..20_f64.ln()).prop_map(f64::exp);
    let travel = (10_f64.ln()..2_000_f64.ln()).prop_map(|log| log.exp() / 60e3);
    (times, travel)
}

/// Lays stitches and waits after each, all waits `waits` times as long.
fn run(vessel: &Vessel, stitches: &[Stitch], arc: &Arc, waits: f64) -> Bench {
    let mut bench = Bench::new(vessel, 2.0);
    for stitch in stitches {
        bench.weld(stitch, arc, |_| ());
        bench.wait(waits * stitch.wait, |_| ());
    }
    bench
}

/// All that leaves, in W.
fn total(leaving: &Leaving) -> f64 {
    leaving.air + leaving.radiation + leaving.glow
}

fn warmer(more: &[f64], less: &[f64]) -> Result<(), TestCaseError> {
    for (cell, (more, less)) in more.iter().zip(less).enumerate() {
        prop_assert!(
            *more >= less - ROUNDING * (1.0 + less),
            "cell {cell}: {more} K, {less} K with less"
        );
    }
    Ok(())
}

fn more_heat(more: &Bench, less: &Bench) -> Result<(), TestCaseError> {
    let [more, less] = [more, less].map(|bench| bench.shell.energy());
    prop_assert!(
        more >= less * (1.0 - ROUNDING),
        "{more} J, {less} J with less"
    );
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(250))]

    /// Power and uptake are one factor to the metal. The cells are read during the last stitch, right after it, and after
    /// its wait.
    #[test]
    fn more_power_or_uptake_makes_nothing_colder(
        vessel in vessels(),
        stitches in stitches(2.0..120.0),
        (times, travel) in arcs(),
        more in 1.02..5.0_f64,
    ) {
        let power = times * vessel.usual_power(travel);
        let read = |power| {
            let arc = Arc { power, travel };
            let mut bench = Bench::new(&vessel, 2.0);
            let mut seen = Vec::new();
            for stitch in &stitches {
                bench.weld(stitch, &arc, |_| ());
                seen.push(bench.cells());
                bench.wait(stitch.wait, |_| ());
                seen.push(bench.cells());
            }
            seen
        };
        for (more, less) in read(more * power).iter().zip(&read(power)) {
            warmer(more, less)?;
        }
    }

    /// As a plan reads the metal, by closed forms over the cells: with up to three times what makes a bead.
    #[test]
    fn more_power_is_read_as_warmer(
        vessel in vessels(),
        stitches in stitches(2.0..120.0),
        times in 0.1..3.0_f64,
        (_, travel) in arcs(),
        more in 1.1..2.0_f64,
    ) {
        let power = times * vessel.usual_power(travel);
        let read = |power| run(&vessel, &stitches, &Arc { power, travel }, 1.0).places();
        for (place, (more, less)) in read(more * power).iter().zip(&read(power)).enumerate() {
            // Far from all beads the closed forms and the cells are off by this much, either way.
            prop_assert!(more + 2.0 >= *less, "place {place}: {more} K, {less} K with less");
        }
    }

    /// Unless half of its power leaves while it burns: a slower arc is hotter where it stands, and one so slow gains little
    /// by what it brings later.
    #[test]
    fn a_slower_arc_leaves_more_heat(
        vessel in vessels(),
        stitches in stitches(2.0..120.0),
        (times, travel) in arcs(),
        slower in 1.05..4.0_f64,
    ) {
        let power = times * vessel.usual_power(travel);
        let weld = |travel| {
            let arc = Arc { power, travel };
            let mut bench = Bench::new(&vessel, 2.0);
            let mut most: f64 = 0.0;
            for stitch in &stitches {
                bench.weld(stitch, &arc, |shell| most = most.max(total(&shell.leaving())));
                bench.wait(stitch.wait, |_| ());
            }
            (bench, most)
        };
        let ((fast, _), (slow, most)) = (weld(travel), weld(travel / slower));
        prop_assume!(most < 0.5 * power);
        more_heat(&slow, &fast)?;
    }

    #[test]
    fn shorter_waits_leave_more_heat(
        vessel in vessels(),
        stitches in stitches(4.0..240.0),
        (times, travel) in arcs(),
        shorter in 0.1..0.9_f64,
    ) {
        let arc = Arc { power: times * vessel.usual_power(travel), travel };
        let [long, short] = [1.0, shorter].map(|waits| run(&vessel, &stitches, &arc, waits));
        more_heat(&short, &long)?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(30))]

    /// Neither is counted: what is there is the heat of the cells, and what has left the sum over all moments of what
    /// leaves at the temperatures of that moment, in steps so short that it does not matter how a step takes it.
    #[test]
    fn heat_is_there_or_has_left(
        vessel in vessels(),
        stitches in stitches(1.0..20.0),
        times in 0.1..4.0_f64,
        (_, travel) in arcs(),
    ) {
        let travel = travel.max(1e-3);
        let arc = Arc { power: times * vessel.usual_power(travel), travel };
        let mut bench = Bench::new(&vessel, 0.02);
        let step = bench.shell.step_length();
        let (mut left, mut before) = (0.0, 0.0);
        for stitch in &stitches {
            let mut each = |shell: &drive::Cells| {
                let now = total(&shell.leaving());
                left += 0.5 * step * (before + now);
                before = now;
            };
            bench.weld(stitch, &arc, &mut each);
            bench.wait(stitch.wait, &mut each);
        }
        let kept = bench.shell.energy();
        let off = (kept + left) / bench.fed - 1.0;
        prop_assert!(off.abs() < 1e-3, "{kept} J there and {left} J left of {} J; {:?}", bench.fed, bench.shell.leaving());
    }
}
