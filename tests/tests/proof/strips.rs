//! Baffles with a free edge, taken as strips: what a strip bears against Levy's solution, and whole tanks by hand.

use std::f64::consts::PI;

use seamwright_core::input::Face;
use seamwright_core::strength::weld::EDGE_SHARE;
use seamwright_core::strength::{STRIP_BULGE, STRIP_MOMENT, StrengthError, Trial, WallForm};
use seamwright_core::tank::Tank;
use seamwright_tests::Outcome;
use seamwright_tests::jobs;
use seamwright_tests::near::Tolerance;
use seamwright_tests::published::{computed, from_memory};

/// How the edge at y = 0 of a plate is held; that at the other end is free.
#[derive(Clone, Copy, Debug)]
enum Near {
    Free,
    Supported,
    Clamped,
}

/// Solves four equations by elimination.
fn solved(mut rows: [[f64; 5]; 4]) -> [f64; 4] {
    for at in 0..4 {
        let best = (at..4)
            .max_by(|a, b| rows[*a][at].abs().total_cmp(&rows[*b][at].abs()))
            .unwrap();
        rows.swap(at, best);
        for below in 0..4 {
            if below != at {
                let share = rows[below][at] / rows[at][at];
                let pivot = rows[at];
                for (entry, other) in rows[below].iter_mut().zip(pivot) {
                    *entry -= share * other;
                }
            }
        }
    }
    [0, 1, 2, 3].map(|at| rows[at][4] / rows[at][at])
}

/// Highest moment across the span and highest bulge, of a plate of span 1 and stiffness 1 under pressure 1: simply
/// supported at x = 0 and 1, free at y = `long`. Levy's solution, a sine at a time: the even load bends a strip by
/// 4/a⁵ for the wave number a, and four functions of y, two from either end, meet the edges at its ends.
fn levy(long: f64, nu: f64, near: Near) -> (f64, f64) {
    const PLACES: usize = 48;
    let (mut across, mut along, mut bulge) =
        ([0.0; PLACES + 1], [0.0; PLACES + 1], [0.0; PLACES + 1]);
    for wave in (1..160_u16).step_by(2) {
        let a = f64::from(wave) * PI;
        let c = 4.0 / a.powi(5);
        // The four functions and their first three derivatives by a y.
        let basis = |y: f64| {
            let (t, up, down) = (a * y, (a * (y - long)).exp(), (-a * y).exp());
            [
                [up, t * up, down, t * down],
                [up, (t + 1.0) * up, -down, (1.0 - t) * down],
                [up, (t + 2.0) * up, down, (t - 2.0) * down],
                [up, (t + 3.0) * up, -down, (3.0 - t) * down],
            ]
        };
        let row = |of: [f64; 4], right: f64| [of[0], of[1], of[2], of[3], right];
        let mix = |one: [f64; 4], share: f64, other: [f64; 4]| {
            [0, 1, 2, 3].map(|n| one[n] + share * other[n])
        };
        let free = |y: f64| {
            let [f, first, second, third] = basis(y);
            [
                row(mix(second, -nu, f), nu * c),
                row(mix(third, nu - 2.0, first), 0.0),
            ]
        };
        let [f, first, second, _] = basis(0.0);
        let held = match near {
            Near::Free => free(0.0),
            Near::Supported => [row(f, -c), row(second, 0.0)],
            Near::Clamped => [row(f, -c), row(first, 0.0)],
        };
        let [one, other] = free(long);
        let shares = solved([held[0], held[1], one, other]);
        let sine = (0.5 * a).sin();
        for place in 0..=PLACES {
            let y = long * place as f64 / PLACES as f64;
            let [f, _, second, _] = basis(y);
            let sum = |of: [f64; 4]| {
                of.iter()
                    .zip(shares)
                    .map(|(f, share)| f * share)
                    .sum::<f64>()
            };
            let (w, bent) = (c + sum(f), sum(second));
            bulge[place] += w * sine;
            across[place] += a * a * (w - nu * bent) * sine;
            along[place] += a * a * (nu * w - bent) * sine;
        }
    }
    let most = |of: &[f64]| of.iter().fold(0.0_f64, |most, at| most.max(at.abs()));
    (most(&across).max(most(&along)), most(&bulge))
}

#[test]
pub(super) fn a_strip_bears_no_more_than_the_plate() -> Outcome {
    // Timoshenko and Woinowsky-Krieger, table 47, a wide plate with Poisson's ratio 0.3 (from memory): 0.1330 and 0.01522.
    let (moment, bulge) = levy(8.0, 0.3, Near::Free);
    let table = from_memory("Timoshenko and Woinowsky-Krieger, table 47");
    let what =
        |figure: &str| format!("Wide plate on two sides, free at the others, ν 0.3: {figure}");
    table.near(&what("M/(q a²)"), moment, 0.1330, Tolerance::absolute(1e-4))?;
    table.near(
        &what("w D/(q a⁴)"),
        bulge,
        0.01522,
        Tolerance::absolute(1e-5),
    )?;
    // Far from a clamped edge the free one bends as if that were not there.
    let (moment, _) = levy(8.0, 0.3, Near::Clamped);
    assert!((moment - 0.133).abs() < 1e-3, "{moment}");
    let mut most = [0.0_f64; 2];
    for near in [Near::Free, Near::Supported, Near::Clamped] {
        for nu in [0.25, 0.28, 0.3, 0.33, 0.35] {
            for long in [0.1, 0.2, 0.35, 0.5, 0.75, 1.0, 1.5, 2.0, 4.0, 8.0] {
                let (moment, bulge) = levy(long, nu, near);
                assert!(moment < STRIP_MOMENT, "{near:?} {nu} {long}: {moment}");
                assert!(bulge < STRIP_BULGE, "{near:?} {nu} {long}: {bulge}");
                most = [most[0].max(moment), most[1].max(bulge)];
            }
        }
    }
    // Nor much less.
    assert!(
        most[0] > 0.98 * STRIP_MOMENT && most[1] > 0.98 * STRIP_BULGE,
        "{most:?}"
    );
    let series = computed("Levy's series, worst of three near edges, ten widths and five ν");
    let strip = |figure: &str| format!("Strip of a baffle with a free edge: {figure}");
    series.between(&strip("M/(q b²)"), STRIP_MOMENT, most[0], [0.0, 0.0205])?;
    series.between(&strip("w D/(q b⁴)"), STRIP_BULGE, most[1], [0.0, 0.0205])?;
    Ok(())
}

/// A tank of 400 x 250 x 200 mm inside in 3 mm of 5754, a baffle across its middle.
fn tank(keys: &str) -> Tank {
    jobs::tank(&format!(
        "name = \"Settling tank\"\n[shape]\nkind = \"block\"\nsized = \"inside\"\nlength = \"400 mm\"\nwidth = \"250 mm\"\n\
         height = \"200 mm\"\n[stock]\nalloy = \"5754\"\nthickness = \"3 mm\"\n[fill]\nliquid = \"water\"\n\
         [[baffle]]\nacross = \"length\"\nat = \"200 mm\"\n{keys}"
    ))
}

/// `σ = 6 · 0.135 p b²/t²` with the head of the whole height; `D = E t³/12 (1 − ν²)`.
#[test]
fn baffles_with_free_edges_by_hand() {
    let head = 200e-3;
    for keys in [
        "gap_above = \"40 mm\"\n",
        "gap_below = \"30 mm\"\n",
        "gap_below = \"30 mm\"\ngap_above = \"40 mm\"\n",
        "gap_above = \"40 mm\"\nflange = \"15 mm\"\nflanged = [\"gap_above\"]\n",
        "free = [\"top\"]\ngap_below = \"30 mm\"\n",
    ] {
        let tank = tank(keys);
        let density = tank.liquid_density().unwrap().si();
        let pressure = density * 9.80665 * head;
        let bearing = tank.bearing(Face::Baffle(1), Trial::Use).unwrap().unwrap();
        assert_eq!(bearing.form, WallForm::Strips);
        let close = |got: f64, want: f64| {
            assert!(
                (got / want - 1.0).abs() < 1e-5,
                "{keys}: {got} is not {want}"
            );
        };
        close(bearing.pressure.si(), pressure);
        let stress = 6.0 * 0.135 * pressure * 0.25 * 0.25 / (3e-3 * 3e-3);
        close(bearing.stress[1].si(), stress);
        let strength = tank.as_welded().unwrap().yield_strength.si();
        close(bearing.reserve, strength / stress);
        let metal = tank.job().alloy().metal();
        let (modulus, nu) = (metal.modulus().value, metal.poisson().value);
        let stiff = modulus * 27e-9 / (12.0 * (1.0 - nu * nu));
        close(
            bearing.bulge.unwrap()[1].si(),
            0.016 * pressure * 0.25_f64.powi(4) / stiff,
        );
        // Each of its seams bears the strips' force across: at least that of the plate's reaction.
        let seams = tank
            .seams()
            .filter(|seam| seam.welded && seam.faces[1] == Face::Baffle(1));
        let mut judged = 0;
        for seam in seams {
            let Ok(strength) = tank.seam_bearing(&seam, Trial::Use).unwrap() else {
                continue;
            };
            judged += 1;
            let across = EDGE_SHARE * pressure * 0.25 / (3e-3 * 0.5_f64.sqrt());
            assert!(strength.forces.si() > across, "{keys}: {strength:?}");
        }
        assert!(judged >= 2, "{keys}: {judged}");
    }
}

/// Held on two sides that meet, or on one, there is no strip; nor is a figure given where strips would not bear it.
#[test]
fn what_strips_cannot_tell_is_not_judged() {
    let error = |tank: &Tank| tank.bearing(Face::Baffle(1), Trial::Use).unwrap();
    let corner = tank("free = [\"top\", \"back\"]\n");
    assert!(matches!(error(&corner), Err(StrengthError::FreeEdge)));
    // A sixth of the sheet's thickness takes a thirty-sixth.
    let thin = tank("gap_above = \"40 mm\"\nthickness = \"0.5 mm\"\n");
    assert!(matches!(error(&thin), Err(StrengthError::FreeEdge)));
    // Half of each side cut away: twice the load on what is left.
    let whole = error(&tank("gap_above = \"100 mm\"\n")).unwrap();
    let notched = error(&tank(
        "gap_above = \"100 mm\"\n[[baffle.notch]]\nat = [\"3 mm\", \"53 mm\"]\nwidth = \"40 mm\"\ndepth = \"20 mm\"\n",
    ))
    .unwrap();
    let share = notched.stress[1].si() / whole.stress[1].si();
    assert!((share - 100.0 / 60.0).abs() < 1e-9, "{share}");
}
