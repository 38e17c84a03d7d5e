//! More heat never makes colder metal.
mod drive;

use drive::{Arc, Bench, Stitch, Vessel, stitches, vessels};
use proptest::prelude::*;

fn arcs() -> impl Strategy<Value = (f64, f64)> {
    let times = (0.1_f64.ln()..20_f64.ln()).prop_map(f64::exp);
    let travel = (10_f64.ln()..2_000_f64.ln()).prop_map(|log| log.exp() / 60e3);
    (times, travel)
}

fn run(vessel: &Vessel, stitches: &[Stitch], arc: &Arc, waits: f64) -> Bench {
    let mut bench = Bench::new(vessel, 2.0);
    for stitch in stitches {
        bench.weld(stitch, arc, |_| ());
        bench.wait(waits * stitch.wait, |_| ());
    }
    bench
}

fn worst(more: &[f64], less: &[f64]) -> (f64, usize) {
    let mut w = (0.0, 0);
    for (n, (a, b)) in more.iter().zip(less).enumerate() {
        if *b > 0.5 && (b - a) / b > w.0 { w = ((b - a) / b, n) }
    }
    w
}

#[test]
fn explore() {
    use proptest::test_runner::*;
    use proptest::strategy::ValueTree;
    let mut runner = TestRunner::new_with_rng(Config::default(), TestRng::deterministic_rng(RngAlgorithm::ChaCha));
    let count = std::env::var("N").ok().and_then(|n| n.parse().ok()).unwrap_or(200);
    let what = std::env::var("WHAT").unwrap_or_default();
    for _ in 0..count {
        let (vessel, stitches, (times, travel), ratio) = (vessels(), stitches(2.0..120.0), arcs(), 1.05_f64..3.0).new_tree(&mut runner).unwrap().current();
        let power = times * vessel.usual_power(travel);
        let (power2, travel2, waits2) = match what.as_str() { "travel" => (power, travel / ratio, 1.0), "wait" => (power, travel, 1.0 / ratio), _ => (power * ratio, travel, 1.0) };
        let a = run(&vessel, &stitches, &Arc { power, travel }, 1.0);
        let b = run(&vessel, &stitches, &Arc { power: power2, travel: travel2 }, waits2);
        let c = worst(&b.cells(), &a.cells());
        let p = worst(&b.places(), &a.places());
        let e = b.shell.energy() / a.shell.energy();
        let h = b.shell.warmest() / a.shell.warmest();
        if c.0 > 0.0 || p.0 > 0.0 || e < 1.0 || h < 1.0 {
            println!("cells {:.4} places {:.4} ({} of {}) energy {e:.4} hottest {h:.4} | {:?} {:.2} mm {} x {times:.2} {:.0} mm/min, ratio {ratio:.2}, {} stitches, warmest {:.0} K, kept {:.3}, step {}", c.0, p.0, p.1, a.places().len(), vessel.alloy, vessel.sheet, match vessel.shape { seamwright_core::input::Shape::Block(_) => "block", seamwright_core::input::Shape::Drum(_) => "drum", seamwright_core::input::Shape::Profile(_) => "profile", _ => "taper" }, travel * 60e3, stitches.len(), a.shell.warmest(), a.shell.energy() / a.fed, a.shell.step_length());
            if p.0 > 1e-4 { println!("     {:?} -> {:?}", a.places()[p.1], b.places()[p.1]); }
        }
    }
}
