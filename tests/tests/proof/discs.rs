//! Round plates: against published figures, and against numerical solutions of their equations.

use std::f64::consts::PI;

use seamwright_core::strength::panel::{PanelMetal, RoundPanel};
use seamwright_core::strength::plate::{
    Tilt, disc_clamped, disc_held, disc_reaction, disc_supported, stiffness,
};
use seamwright_core::units::Figure;
use seamwright_core::units::{Length, Pressure};
use seamwright_tests::Outcome;
use seamwright_tests::checks::{expect, geometry};
use seamwright_tests::near::{Tolerance, near};
use seamwright_tests::published::from_memory;

fn tight() -> Tolerance {
    Tolerance::relative(1e-9)
}

fn even(mean: f64) -> Tilt {
    Tilt { mean, rise: 0.0 }
}

/// `circ-ss` and `circ-cl` of `data/geometry/checks.json` (Timoshenko and Woinowsky-Krieger, article 16; Roark, table
/// 11.2, cases 10a and 10b).
#[test]
pub(super) fn an_even_pressure() -> Outcome {
    let (a, q) = (0.2_f64, 3e4);
    let (supported, clamped) = (geometry("circ-ss"), geometry("circ-cl"));
    let (free, held) = (disc_supported(a, even(q), 0.3), disc_clamped(a, even(q)));
    let bulge = q * a.powi(4);
    expect(&supported, "w_D_qa4", free.deflection / bulge)?;
    expect(&clamped, "w_D_qa4", held.deflection / bulge)?;
    let slim = q * (a / 0.004) * (a / 0.004);
    expect(&supported, "sigma_t2_qa2", free.stress(0.004) / slim)?;
    expect(&clamped, "sigma_edge_t2_qa2", held.stress(0.004) / slim)?;
    Ok(())
}

/// The part that changes, by itself: Timoshenko and Woinowsky-Krieger, article 63 (from memory): free to turn
/// `M_r = p a² (5 + ν)/(72 √3)` at the most, and `M_t` along the same diameter from
/// `p a² ρ ((5 + ν) (1 + 3 ν)/(3 + ν) − (1 + 5 ν) ρ²)/48`; held, p a²/24 at the edge.
#[test]
pub(super) fn the_part_that_changes() -> Outcome {
    let nu = 0.3;
    let only = Tilt {
        mean: 0.0,
        rise: 1.0,
    };
    let radial: f64 = (5.0 + nu) / (72.0 * 3f64.sqrt());
    // M_t = (c ρ − d ρ³)/48, highest at ρ² = c/(3 d).
    let (c, d) = ((5.0 + nu) * (1.0 + 3.0 * nu) / (3.0 + nu), 1.0 + 5.0 * nu);
    let at = (c / (3.0 * d)).sqrt();
    let round = 2.0 / 3.0 * c * at / 48.0;
    let got = disc_supported(1.0, only, nu);
    let article = from_memory("Timoshenko and Woinowsky-Krieger, article 63");
    article.near(
        "Supported disc, pressure that changes from side to side, ν 0.3: highest M/(q a²)",
        got.moment,
        radial.max(round),
        Tolerance::relative(1e-4),
    )?;
    article.near(
        "Clamped disc, pressure that changes from side to side: highest M/(q a²)",
        disc_clamped(1.0, only).moment,
        1.0 / 24.0,
        tight(),
    )?;
    Ok(())
}

/// Deflection and its first two derivatives by the distance from the middle, from there to the edge.
type Line = Vec<[f64; 3]>;

const STEPS: usize = 2_000;

/// Runge and Kutta's fourth-order steps from the middle to the edge of a disc of radius 1.
fn march<const N: usize>(
    start: [f64; N],
    from: f64,
    slope: &dyn Fn(f64, [f64; N]) -> [f64; N],
) -> Vec<[f64; N]> {
    let h = (1.0 - from) / STEPS as f64;
    let mut all = vec![start];
    let mut y = start;
    for step in 0..STEPS {
        let r = from + h * step as f64;
        let plus = |y: [f64; N], k: [f64; N], by: f64| std::array::from_fn(|i| y[i] + by * k[i]);
        let k1 = slope(r, y);
        let k2 = slope(r + 0.5 * h, plus(y, k1, 0.5 * h));
        let k3 = slope(r + 0.5 * h, plus(y, k2, 0.5 * h));
        let k4 = slope(r + h, plus(y, k3, h));
        y = std::array::from_fn(|i| y[i] + h / 6.0 * (k1[i] + 2.0 * k2[i] + 2.0 * k3[i] + k4[i]));
        all.push(y);
    }
    all
}

/// `w = f(r) cos nθ` under `r^n cos nθ` for n of 0 or 1, by `∇²∇²w = p`: g = ∇²w goes along as a function of its own.
/// Started a little off the middle from each function that is smooth there, and put together to meet the edge.
fn wave(n: i32, fixed: bool, nu: f64) -> Line {
    let m = f64::from(n * n);
    let from = 1e-3_f64;
    let run = |load: f64, start: [f64; 4]| {
        march(start, from, &|r, [f, f1, g, g1]| {
            [
                f1,
                g - f1 / r + m * f / (r * r),
                g1,
                load * r.powi(n) - g1 / r + m * g / (r * r),
            ]
        })
    };
    let (rise, along) = (from.powi(n), f64::from(n) * from.powi(n - 1));
    let loaded = run(1.0, [0.0; 4]);
    let plain = run(0.0, [rise, along, 0.0, 0.0]);
    // ∇² of r^(n + 2) is (4 n + 4) r^n.
    let fours = 4.0 * f64::from(n) + 4.0;
    let bent = run(
        0.0,
        [
            from.powi(n + 2),
            f64::from(n + 2) * from.powi(n + 1),
            fours * rise,
            fours * along,
        ],
    );
    let edge = |line: &[[f64; 4]]| {
        let [f, f1, g, _] = *line.last().unwrap();
        // M_r ∝ f″ + ν (f′ − n² f), and f″ = g − f′ + n² f.
        [
            f,
            if fixed {
                f1
            } else {
                g - (1.0 - nu) * (f1 - m * f)
            },
        ]
    };
    let ([a, b], [c, d], [e, f]) = (edge(&plain), edge(&bent), edge(&loaded));
    let by = a * d - b * c;
    let (s, t) = ((-e * d + f * c) / by, (-f * a + e * b) / by);
    loaded
        .iter()
        .zip(plain)
        .zip(bent)
        .enumerate()
        .map(|(step, ((l, p), q))| {
            let r = from + (1.0 - from) * step as f64 / STEPS as f64;
            let one = |i: usize| l[i] + s * p[i] + t * q[i];
            let (f, f1) = (one(0), one(1));
            [f, f1, one(2) - f1 / r + m * f / (r * r)]
        })
        .collect()
}

/// The whole of it, for several slopes of the pressure, against a march outward from the middle.
#[test]
fn by_marching_outward() -> Outcome {
    for nu in [0.28, 0.33] {
        for fixed in [true, false] {
            let (zero, one) = (wave(0, fixed, nu), wave(1, fixed, nu));
            for rise in [0.0, 0.3, 1.0] {
                let (mut w, mut moment) = (0.0_f64, 0.0_f64);
                for (step, (z, o)) in zero.iter().zip(&one).enumerate() {
                    let r = 1e-3 + (1.0 - 1e-3) * step as f64 / STEPS as f64;
                    let [f, f1, f2] = std::array::from_fn(|i| z[i] + rise * o[i]);
                    w = w.max(f);
                    // Round it: f′/r, and of the cosine −f/r² more.
                    let round = f1 / r - rise * o[0] / (r * r);
                    moment = moment
                        .max((f2 + nu * round).abs())
                        .max((round + nu * f2).abs());
                }
                let tilt = Tilt { mean: 1.0, rise };
                let got = if fixed {
                    disc_clamped(1.0, tilt)
                } else {
                    disc_supported(1.0, tilt, nu)
                };
                let what = format!("{nu} {fixed} {rise}");
                near(&what, got.deflection, w, Tolerance::relative(5e-4))?;
                near(&what, got.moment, moment, Tolerance::relative(1e-3))?;
            }
        }
    }
    Ok(())
}

/// What the edge hands on balances the load, and its turning: `∫ R a dθ = p₀ π a²`, and about the diameter
/// `∫ R cos θ a² dθ` less the edge moments is `p₁ π a³/4`.
#[test]
fn the_edge_balances_the_load() -> Outcome {
    let tilt = Tilt {
        mean: 1.0,
        rise: 0.4,
    };
    let (all, mean) = (disc_reaction(1.0, tilt), disc_reaction(1.0, even(1.0)));
    near("p₀", mean * 2.0 * PI, PI, tight())?;
    let edge = disc_clamped(1.0, tilt).moment - disc_clamped(1.0, even(1.0)).moment;
    near("p₁", (all - mean) * PI - edge * PI, 0.4 * PI / 4.0, tight())?;
    Ok(())
}

/// Bulge and the stress in the middle, bending and stretching together, of a disc with radius 1 that cannot pull
/// inward: von Kármán's two equations for a round plate (Timoshenko and Woinowsky-Krieger, article 97), shot from the
/// middle until both conditions at the edge hold, the load raised step by step.
fn von_karman(t: f64, e: f64, nu: f64, q: f64, fixed: bool) -> [f64; 2] {
    let d = stiffness(e, nu, t);
    let from = 1e-3;
    let shoot = |q: f64, [turn, pull]: [f64; 2]| {
        let line = march(
            [turn * from, turn, pull, 0.0],
            from,
            &|r, [p, p1, n, n1]| {
                [
                    p1,
                    (q * r / 2.0 + n * p) / d - p1 / r + p / (r * r),
                    n1,
                    -e * t * p * p / (2.0 * r * r) - 3.0 * n1 / r,
                ]
            },
        );
        let [p, p1, n, n1] = *line.last().unwrap();
        let left = [if fixed { p } else { p1 + nu * p }, n * (1.0 - nu) + n1];
        (left, line)
    };
    let mut at = if fixed {
        [-q / 64_000.0 / (16.0 * d), 0.0]
    } else {
        [-q / 64_000.0 * (3.0 + nu) / (16.0 * d * (1.0 + nu)), 0.0]
    };
    for step in 1..=40 {
        let q = q * (f64::from(step) / 40.0).powi(3);
        for _ in 0..30 {
            let (left, _) = shoot(q, at);
            let nudge = [1e-6 * at[0].abs(), 1e-6 * (at[1].abs() + e * t * 1e-6)];
            let by = |i: usize| {
                let mut there = at;
                there[i] += nudge[i];
                let (moved, _) = shoot(q, there);
                [0, 1].map(|k| (moved[k] - left[k]) / nudge[i])
            };
            let ([a, c], [b, f]) = (by(0), by(1));
            let det = a * f - b * c;
            let change = [
                (left[0] * f - left[1] * b) / det,
                (left[1] * a - left[0] * c) / det,
            ];
            at = [at[0] - change[0], at[1] - change[1]];
            if change[0].abs() < 1e-9 * at[0].abs() {
                break;
            }
        }
    }
    let (_, line) = shoot(q, at);
    let h = (1.0 - from) / STEPS as f64;
    // The trapezium rule from the edge inward.
    let bulge: f64 = line
        .windows(2)
        .map(|p| -0.5 * h * (p[0][0] + p[1][0]))
        .sum();
    let bent = -d * (1.0 + nu) * at[0];
    [bulge, 6.0 * bent / (t * t) + at[1] / t]
}

/// The cubic bulges no less than von Kármán's disc and not much more; the stress in its middle likewise.
#[test]
fn a_disc_that_stretches() -> Outcome {
    let (e, t) = (70e9, 0.01);
    for nu in [0.3, 0.33] {
        let metal = PanelMetal::new(Pressure::from_pascals(e), nu, Pressure::from_pascals(100e6))?;
        for times in [1.0, 3.0, 6.0] {
            // A bulge of so many times t/2, by bending alone and held.
            let q = times * 32.0 * stiffness(e, nu, t) * t;
            let panel = RoundPanel::new(
                Length::from_metres(1.0),
                Length::from_metres(t),
                metal,
                Pressure::from_pascals(q),
                Pressure::default(),
            )?;
            let got = panel.strength();
            for fixed in [true, false] {
                let [bulge, stress] = von_karman(t, e, nu, q, fixed);
                let held = if fixed {
                    got.held_clamped
                } else {
                    got.held_supported
                };
                let what = format!("{nu} {times} fixed {fixed}: {bulge} {stress} {held:?}");
                let share = held.bulge / bulge;
                assert!((0.99..1.08).contains(&share), "{what}: {share}");
                if !fixed {
                    let share = got.stress_held.si() / stress;
                    assert!((0.99..1.25).contains(&share), "{what}: {share}");
                }
            }
            // Bending alone is the bulge that stretching takes off from.
            assert!(got.held_clamped.bulge < got.bulge_clamped.si());
            let again = disc_held(1.0, got.bulge_clamped.si(), t, e, true);
            near("same", again.bulge, got.held_clamped.bulge, tight())?;
        }
    }
    Ok(())
}

/// The sheet that mends it does; what it cannot be is refused.
#[test]
fn mended_and_refused() -> Outcome {
    let metal = PanelMetal::new(
        Pressure::from_pascals(70e9),
        0.33,
        Pressure::from_pascals(60e6),
    )?;
    let make = |t: f64, mean: f64, rise: f64| {
        RoundPanel::new(
            Length::from_metres(0.3),
            Length::from_metres(t),
            metal,
            Pressure::from_pascals(mean),
            Pressure::from_pascals(rise),
        )
    };
    let weak = make(0.002, 8e3, 6e3)?;
    assert!(weak.strength().reserve < 1.5);
    let needed = weak.mend(1.5)?.si();
    let mended = make(needed, 8e3, 6e3)?.strength().reserve;
    near("mended", mended, 1.5, Tolerance::relative(1e-6))?;
    let of = |result: Result<RoundPanel, _>| -> Figure {
        let error: seamwright_core::units::range::RangeError = result.unwrap_err();
        error.figure
    };
    assert_eq!(of(make(0.002, 5e3, 6e3)), Figure::Pressure);
    assert_eq!(of(make(0.002, 8e3, -1.0)), Figure::Pressure);
    assert_eq!(of(make(f64::NAN, 8e3, 6e3)), Figure::Thickness);
    Ok(())
}
