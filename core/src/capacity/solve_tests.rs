//! The search against figures whose inverse is known in closed form.

use core::cell::Cell;

use super::{MOST_EVALUATIONS, Sample, SolveError, solve, solve_from};

fn always(f: impl Fn(f64) -> f64) -> impl FnMut(f64) -> Result<f64, &'static str> {
    move |x| Ok(f(x))
}

#[track_caller]
fn near(got: f64, expected: f64, share: f64) {
    assert!(
        (got - expected).abs() <= share * expected.abs(),
        "{got:?} is not {expected:?}"
    );
}

/// Roots of plain equations; the last is J. Wallis' example for Newton's method, x³ − 2x − 5 = 0,
/// 2.0945514815423265 (from memory).
#[test]
fn closed_forms() {
    near(
        solve((0.0, 10.0), 2.0, always(|x| x * x)).unwrap(),
        2.0_f64.sqrt(),
        1e-12,
    );
    near(
        solve((0.0, 10.0), 27.0, always(|x| x * x * x)).unwrap(),
        3.0,
        1e-12,
    );
    near(
        solve((1e-9, 1e3), 1e-6, always(|x| 1.0 / (x * x))).unwrap(),
        1e3,
        1e-12,
    );
    near(
        solve((0.0, 10.0), 5.0, always(|x| x * x * x - 2.0 * x)).unwrap(),
        2.094_551_481_542_326_5,
        1e-12,
    );
    // Falling, ends included, negative.
    near(
        solve((-4.0, 4.0), 4.0, always(|x| -x)).unwrap(),
        -4.0,
        1e-12,
    );
    near(
        solve((-4.0, 4.0), -4.0, always(|x| -x)).unwrap(),
        4.0,
        1e-12,
    );
    assert!(solve((-1.0, 2.0), 0.0, always(|x| x)).unwrap().abs() < 1e-12);
}

/// The inside height of a sheet box is its outside height less two sheets, so the volume wanted has one
/// answer; heights under two sheets make no tank.
#[test]
fn heights_too_small_make_no_tank() {
    let sheet = 0.002;
    let inside = |h: f64| {
        if h > 2.0 * sheet {
            Ok(0.4 * 0.3 * (h - 2.0 * sheet))
        } else {
            Err("no inside")
        }
    };
    let height = solve((0.0, 1.0), 0.03, inside).unwrap();
    near(height, 0.25 + 2.0 * sheet, 1e-12);

    let SolveError::Unreachable {
        target,
        least,
        most,
        below,
        above,
    } = solve((0.0, 1.0), 0.2, inside).unwrap_err()
    else {
        panic!("0.2 m³ needs more than 1 m");
    };
    near(target, 0.2, 0.0);
    near(most.at, 1.0, 0.0);
    near(most.gives, 0.12 * 0.996, 1e-15);
    near(least.at, 2.0 * sheet, 1e-12);
    assert!(least.gives < 1e-12);
    assert_eq!((below, above), (Some("no inside"), None));
}

/// Only 0.6 to 0.61 works: the halves, quarters … of the range come upon it.
#[test]
fn a_narrow_part_that_works() {
    let f = |x: f64| {
        if (0.6..=0.61).contains(&x) {
            Ok(x)
        } else {
            Err(x < 0.6)
        }
    };
    near(solve((0.0, 1.0), 0.6099, f).unwrap(), 0.6099, 1e-12);
    let error = solve((0.0, 1.0), 0.7, f).unwrap_err();
    let SolveError::Unreachable {
        least,
        most,
        below,
        above,
        ..
    } = error
    else {
        panic!("{error:?}");
    };
    near(least.at, 0.6, 1e-12);
    near(most.at, 0.61, 1e-12);
    assert_eq!((below, above), (Some(true), Some(false)));
    let nothing = solve((0.0, 1.0), 0.7, |_| Err::<f64, _>("never")).unwrap_err();
    assert_eq!(
        nothing,
        SolveError::NothingWorks {
            at: 0.5,
            error: "never"
        }
    );
}

/// A parabola is met twice: the meeting nearest to the start is taken. Its top can be asked for though
/// no sample lies on it, and nothing above it.
#[test]
fn figures_that_rise_and_fall() {
    let hump = |x: f64| 1.0 - (x - 0.613).powi(2);
    for (start, expected) in [(0.0, 0.513), (0.2, 0.513), (0.8, 0.713), (1.0, 0.713)] {
        near(
            solve_from(start, (0.0, 1.0), 0.99, always(hump)).unwrap(),
            expected,
            1e-11,
        );
    }
    let top = solve_from(0.1, (0.0, 1.0), 1.0 - 1e-8, always(hump)).unwrap();
    near((top - 0.613).abs(), 1e-4, 1e-3);
    let error = solve_from(0.1, (0.0, 1.0), 1.01, always(hump)).unwrap_err();
    let SolveError::Unreachable { least, most, .. } = error else {
        panic!("{error:?}");
    };
    near(most.at, 0.613, 1e-6);
    near(most.gives, 1.0, 1e-14);
    assert_eq!(
        least,
        Sample {
            at: 0.0,
            gives: hump(0.0)
        }
    );
}

#[test]
fn leaps_and_gaps_are_told() {
    let step = always(|x| if x < 0.3 { 1.0 } else { 2.0 });
    let error = solve((0.0, 1.0), 1.5, step).unwrap_err();
    let SolveError::Leaps { low, high } = error else {
        panic!("{error:?}");
    };
    assert!(
        low.at < 0.3 && high.at >= 0.3 && high.at - low.at < 1e-15,
        "{error:?}"
    );

    let torn = |x: f64| {
        if x > 0.301 && x < 0.302 {
            Err("torn")
        } else {
            Ok(x)
        }
    };
    let error = solve((0.0, 1.0), 0.3015, torn).unwrap_err();
    assert!(
        matches!(error, SolveError::Gap { error: "torn", .. }),
        "{error:?}"
    );
    near(solve((0.0, 1.0), 0.4, torn).unwrap(), 0.4, 1e-12);
    assert!(solve((0.0, 1.0), 0.5, always(|_| f64::NAN)).is_err());
}

#[test]
fn inputs_that_make_no_sense() {
    let f = || always(|x| x);
    for range in [
        (1.0, 1.0),
        (2.0, 1.0),
        (f64::NAN, 1.0),
        (0.0, f64::INFINITY),
    ] {
        assert!(matches!(
            solve(range, 0.5, f()),
            Err(SolveError::Range { .. })
        ));
    }
    assert!(matches!(
        solve((0.0, 1.0), f64::NAN, f()),
        Err(SolveError::Target(_))
    ));
    for start in [-0.1, 1.1, f64::NAN] {
        let refused = solve_from(start, (0.0, 1.0), 0.5, f());
        assert!(matches!(refused, Err(SolveError::Start(_))));
    }
}

/// The bound on the work holds for figures chosen to be awkward: flat, steep, leaping, mostly refused.
#[test]
fn the_work_is_bounded() {
    let calls = Cell::new(0);
    let run = |f: &dyn Fn(f64) -> Result<f64, ()>| {
        for target in [-1.0, 0.0, 1e-9, 0.5, 0.999, 2.0] {
            calls.set(0);
            let first = solve((0.0, 1.0), target, |x| {
                calls.set(calls.get() + 1);
                f(x)
            });
            assert!(calls.get() <= MOST_EVALUATIONS, "{} calls", calls.get());
            // Equal inputs, equal outputs.
            assert_eq!(first, solve((0.0, 1.0), target, f));
        }
    };
    run(&|x| Ok(x.powi(31)));
    run(&|x| Ok((60.0 * x).sin()));
    run(&|x| Ok(if x < 0.77 { 0.0 } else { 1.0 }));
    run(&|x| if x > 0.98 { Ok(x.powi(9)) } else { Err(()) });
    run(&|_| Err(()));
    run(&|x| Ok((x - 0.5).abs().sqrt()));
}
