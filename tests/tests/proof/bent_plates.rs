//! Bent and stretched plates against published and independent figures; the source stands beside each check.
//!
//! `data/geometry/checks.json` holds figures gathered and evaluated apart from this project, each with
//! its source and tolerance. Figures of Roark, Timoshenko, Levy and the codes are from memory.

use seamwright_core::strength::plate::{
    Bending, Ramp, Sides, clamped, enclosing, held, stiffness, supported,
};
use seamwright_tests::Outcome;
use seamwright_tests::checks::{
    expect, expect_between, expect_near, expected, geometry, number, numbers, tolerance,
};
use seamwright_tests::near::{Tolerance, between, near};
use seamwright_tests::published::{computed, from_memory, seen};

/// Supported plates under an even pressure.
const SUPPORTED: [&str; 7] = [
    "plate-ss-1.2",
    "plate-ss-1.4",
    "plate-ss-1.6",
    "plate-ss-2",
    "plate-ss-3",
    "plate-ss-4",
    "plate-ss-100",
];

/// Clamped plates under an even pressure.
const CLAMPED: [&str; 7] = [
    "plate-cl-1",
    "plate-cl-1.2",
    "plate-cl-1.5",
    "plate-cl-1.6",
    "plate-cl-1.8",
    "plate-cl-3",
    "plate-cl-1e+09",
];

/// Supported and clamped plates under a pressure that rises from one end to the other.
const RISING: [&str; 7] = [
    "plate-ss-hydro-0.500",
    "plate-ss-hydro-1.000",
    "plate-ss-hydro-1.500",
    "plate-ss-hydro-2.000",
    "plate-cl-hydro-0.667",
    "plate-cl-hydro-1.000",
    "plate-cl-hydro-1.500",
];

/// Plates that stretch as they bend.
const STRETCHING: [&str; 8] = [
    "vk-SQ_SS_held,_tangential_free,_nu_.316",
    "vk-SQ_SS_u=v=0,_nu_.316",
    "vk-SQ_clamped_u=v=0,_nu_.316",
    "vk-1.5:1_SS_held,_tang_free,_nu_.316",
    "vk-2:1_SS_held,_tang_free,_nu_.316",
    "vk-2:1_SS_u=v=0_nu_.33",
    "vk-1.5_clamped_u=v=0,_nu_.316",
    "vk-2_clamped_u=v=0,_nu_.316",
];

/// How long a plate is to how wide.
fn to_one(ratio: f64) -> String {
    if ratio < 100.0 {
        format!("{ratio} : 1")
    } else {
        "without end".to_owned()
    }
}

fn sides(one: f64, other: f64) -> Sides {
    Sides::new(one, other).unwrap()
}

/// Zero at one end, `most` at the other, along the long side or the short one.
fn rising(most: f64, along: bool) -> Ramp {
    let (mean, rise) = (0.5 * most, 0.5 * most);
    if along {
        Ramp {
            mean,
            across: 0.0,
            along: rise,
        }
    } else {
        Ramp {
            mean,
            across: rise,
            along: 0.0,
        }
    }
}

#[test]
pub(super) fn supported_plates_under_even_pressure() -> Outcome {
    for check in &SUPPORTED.map(geometry) {
        let plate = sides(1.0, number(&check["inputs"]["a_over_b"]));
        let nu = number(&check["inputs"]["nu"]);
        let got = supported(plate, Ramp::even(1.0), nu);
        expect(check, "wD_qb4", got.deflection)?;
        expect(check, "M_short_qb2", got.moment)?;
        expect(check, "beta_sigma_t2_qb2", got.stress(1.0))?;
        let alpha = got.bulge(stiffness(1.0, nu, 1.0));
        expect(check, "alpha_yEt3_qb4", alpha)?;
    }
    Ok(())
}

/// Roark, table 11.4, case 1a (seen as a page, see the case file): its printed .0770 at 1.4 and .1110 at 2
/// are 0.5 % off the series.
#[test]
pub(super) fn supported_plates_in_roark() -> Outcome {
    let table = [
        (1.0, 0.2874, 0.0444),
        (1.2, 0.3762, 0.0616),
        (1.4, 0.4530, 0.0770),
        (1.6, 0.5172, 0.0906),
        (1.8, 0.5688, 0.1017),
        (2.0, 0.6102, 0.1110),
        (3.0, 0.7134, 0.1335),
        (4.0, 0.7410, 0.1400),
        (5.0, 0.7476, 0.1417),
        (1e4, 0.7500, 0.1421),
    ];
    for (ratio, beta, alpha) in table {
        let got = supported(sides(1.0, ratio), Ramp::even(1.0), 0.3);
        let bulge = got.bulge(stiffness(1.0, 0.3, 1.0));
        let page = seen("Roark, table 11.4, case 1a");
        let what = |figure: &str| {
            format!(
                "Supported plate, {}, even pressure: {figure}",
                to_one(ratio)
            )
        };
        page.near(&what("β"), got.stress(1.0), beta, Tolerance::relative(1e-3))?;
        page.near(&what("α"), bulge, alpha, Tolerance::relative(6e-3))?;
    }
    Ok(())
}

/// Timoshenko and Woinowsky-Krieger, table 8 (from memory), square: w .00406 q a⁴/D, M .0479 q a².
/// With ν of 0.33 instead: β .2939 and .6132 (the reference notes, evaluated there).
#[test]
pub(super) fn poissons_ratio_counts() -> Outcome {
    let square = supported(sides(2.0, 2.0), Ramp::even(3.0), 0.3);
    let table = from_memory("Timoshenko and Woinowsky-Krieger, table 8");
    let digits = Tolerance::relative(1e-3);
    let what = |figure: &str| format!("Supported square, even pressure: {figure}");
    table.near(
        &what("w D/(q a⁴)"),
        square.deflection / 48.0,
        0.00406,
        digits,
    )?;
    table.near(&what("M/(q a²)"), square.moment / 12.0, 0.0479, digits)?;
    for (ratio, beta) in [(1.0, 0.2939), (2.0, 0.6132)] {
        let got = supported(sides(1.0, ratio), Ramp::even(1.0), 0.33);
        computed("Navier series, evaluated apart").near(
            &format!(
                "Supported plate, {}, even pressure, ν 0.33: β",
                to_one(ratio)
            ),
            got.stress(1.0),
            beta,
            Tolerance::relative(2e-4),
        )?;
    }
    Ok(())
}

#[test]
pub(super) fn clamped_plates_under_even_pressure() -> Outcome {
    for check in &CLAMPED.map(geometry) {
        let got = clamped(
            sides(1.0, number(&check["inputs"]["a_over_b"])),
            Ramp::even(1.0),
        );
        expect(check, "wD_qb4", got.deflection)?;
        // The strip's edge is taken as that of five widths, 0.15 % above.
        let allowed = Tolerance::relative(tolerance(check).relative.max(1.6e-3));
        expect_near(check, "beta1_edge_long", got.stress(1.0), allowed)?;
    }
    Ok(())
}

/// Roark, table 11.4, case 8a (from memory); the last at a ratio without end.
#[test]
pub(super) fn clamped_plates_in_roark() -> Outcome {
    let table = [
        (1.0, 0.3078, 0.0138),
        (1.2, 0.3834, 0.0188),
        (1.4, 0.4356, 0.0226),
        (1.6, 0.4680, 0.0251),
        (1.8, 0.4872, 0.0267),
        (2.0, 0.4974, 0.0277),
        (1e6, 0.5000, 0.0284),
    ];
    for (ratio, beta, alpha) in table {
        let got = clamped(sides(ratio, 1.0), Ramp::even(1.0));
        let bulge = got.bulge(stiffness(1.0, 0.3, 1.0));
        let table = from_memory("Roark, table 11.4, case 8a");
        let what =
            |figure: &str| format!("Clamped plate, {}, even pressure: {figure}", to_one(ratio));
        table.near(&what("β"), got.stress(1.0), beta, Tolerance::relative(2e-3))?;
        table.near(&what("α"), bulge, alpha, Tolerance::relative(5e-3))?;
    }
    Ok(())
}

#[test]
pub(super) fn plates_under_a_rising_pressure() -> Outcome {
    for check in &RISING.map(geometry) {
        // Lengths are over a, along which the pressure rises.
        let b = number(&check["inputs"]["b_over_a"]);
        let plate = sides(1.0, b);
        let ramp = rising(1.0, b < 1.0);
        let want = |key: &str| number(&check["expected"][key]).abs();
        let free = check["inputs"]["edges"] == "SS";
        let (got, moments) = if free {
            (supported(plate, ramp, 0.3), ["Mx_max", "My_max"])
        } else {
            (clamped(plate, ramp), ["edge_x_a_Mx", "side_edge_My_min"])
        };
        expect(check, "wmax", got.deflection)?;
        let [one, other] = moments;
        let highest = if want(one) < want(other) { other } else { one };
        // Moments of edges are told below zero.
        let moment = got.moment.copysign(expected(check, highest)?);
        expect_near(check, highest, moment, Tolerance::relative(1.5e-3))?;
    }
    Ok(())
}

/// Timoshenko and Woinowsky-Krieger, tables 11 and 38 (from memory), square: supported, largest moment
/// .0264 at the point x = 0.6 a (the true largest lies beside it, .0270); clamped, edge −.0334.
#[test]
pub(super) fn rising_pressure_in_timoshenko() -> Outcome {
    let square = sides(1.0, 1.0);
    let free = supported(square, rising(1.0, true), 0.3);
    from_memory("Timoshenko and Woinowsky-Krieger, table 11, at x = 0.6 a").between(
        "Supported square, rising pressure: highest M/(q a²)",
        free.moment,
        0.0264,
        [0.0, 0.03],
    )?;
    let fixed = clamped(square, rising(1.0, false));
    from_memory("Timoshenko and Woinowsky-Krieger, table 38").near(
        "Clamped square, rising pressure: M/(q a²) at the edge",
        fixed.moment,
        0.0334,
        Tolerance::relative(2e-3),
    )?;
    // A square does not know which way is long.
    near(
        "turned",
        clamped(square, rising(1.0, true)).moment,
        fixed.moment,
        Tolerance::relative(5e-5),
    )?;
    // A pressure that rises the other way bends it as much.
    let back = Ramp {
        mean: 0.5,
        across: -0.5,
        along: 0.0,
    };
    near(
        "back",
        clamped(square, back).moment,
        fixed.moment,
        Tolerance::relative(5e-5),
    )?;
    near(
        "back",
        supported(square, back, 0.3).moment,
        free.moment,
        Tolerance::relative(5e-5),
    )?;
    Ok(())
}

/// A long plate is its end: nothing jumps where that begins.
#[test]
pub(super) fn long_plates_run_on_smoothly() -> Outcome {
    for (at, allowed) in [(5.0, 2e-3), (10.0, 1e-3)] {
        let ramp = |ratio: f64| rising(ratio, true);
        let both = |ratio: f64| {
            let plate = sides(1.0, ratio);
            let per = 1.0 / ratio;
            let (a, b) = (
                supported(plate, ramp(ratio), 0.3),
                clamped(plate, ramp(ratio)),
            );
            [a.moment, a.deflection, b.moment, b.deflection].map(|value| value * per)
        };
        for (below, above) in both(at * 0.9999).into_iter().zip(both(at * 1.0001)) {
            near("joint", above, below, Tolerance::relative(allowed))?;
        }
    }
    // A strip under its highest pressure is the end of the road: 0.125 and 1/12 of p b².
    let far = sides(1.0, 1e4);
    computed("Strip, p b²/8").near(
        "Supported plate without end, rising pressure: highest M/(q b²)",
        supported(far, rising(1.0, true), 0.3).moment,
        0.125,
        Tolerance::relative(1e-3),
    )?;
    computed("Strip, p b²/12").near(
        "Clamped plate without end, rising pressure: highest M/(q b²)",
        clamped(far, rising(1.0, true)).moment,
        1.0 / 12.0,
        Tolerance::relative(8e-3),
    )?;
    Ok(())
}

/// Von Kármán's equations solved by Ritz and Newton, and through them Levy's cases (NACA 737 and 740).
#[test]
pub(super) fn stretching_plates() -> Outcome {
    for check in STRETCHING.map(geometry) {
        let name = check["inputs"]["case"].as_str().unwrap();
        let ratio = match name {
            _ if name.contains("1.5") => 1.5,
            _ if name.starts_with('2') => 2.0,
            _ => 1.0,
        };
        let nu = if name.contains(".33") { 0.33 } else { 0.316 };
        let held_edges = name.contains("clamped");
        let plate = sides(1.0, ratio);
        let loads = numbers(&check["inputs"]["qstar"]);
        for (at, &load) in loads.iter().enumerate() {
            let bending: Bending = if held_edges {
                clamped(plate, Ramp::even(load))
            } else {
                supported(plate, Ramp::even(load), nu)
            };
            let linear = bending.bulge(stiffness(1.0, nu, 1.0));
            let got = held(plate, linear, 1.0, 1.0, held_edges);
            let hold = |key: &str, got: f64, band: [f64; 2]| {
                expect_between(&check, &format!("{key}/{at}"), got, band)
            };
            hold("w_over_t", got.bulge, [-0.003, 0.075])?;
            hold("sigma_mem_centre_b2_Et2", got.stretch, [-0.01, 0.16])?;
            assert_eq!(got.past, got.bulge > 1.5);
            if !held_edges {
                let stress = bending.stress(1.0) * got.share + got.stretch;
                hold("sigma_total_centre", stress, [-0.006, 0.25])?;
                // Bending alone stays above the true stress, but for the first stretching.
                let total = expected(&check, &format!("sigma_total_centre/{at}"))?;
                let what = format!("{name} at {load}");
                between(&what, bending.stress(1.0), total, -0.04, 9.0)?;
            } else {
                hold("sigma_total_long_edge", bending.stress(1.0), [-0.011, 0.85])?;
            }
        }
    }
    Ok(())
}

/// Roark, section 11.11, square, after Levy, NACA reports 737 and 740 (from memory, in the reference
/// notes): w/t at p b⁴/(E t⁴).
#[test]
pub(super) fn stretching_squares_in_roark() -> Outcome {
    let free = [
        (12.5, 0.430),
        (25.0, 0.650),
        (50.0, 0.930),
        (100.0, 1.26),
        (200.0, 1.63),
        (250.0, 1.77),
    ];
    let fixed = [
        (12.5, 0.165),
        (25.0, 0.32),
        (50.0, 0.59),
        (100.0, 0.95),
        (200.0, 1.38),
        (250.0, 1.54),
    ];
    let square = sides(1.0, 1.0);
    let d = stiffness(1.0, 0.316, 1.0);
    let levy = from_memory("Roark, section 11.11, after Levy, NACA 737 and 740");
    for (load, want) in free {
        let linear = supported(square, Ramp::even(load), 0.316).bulge(d);
        let bulge = held(square, linear, 1.0, 1.0, false).bulge;
        let figure = "Stretching square, supported, q b⁴/(E t⁴) 12.5 to 250: w/t";
        levy.between(figure, bulge, want, [-0.01, 0.065])?;
    }
    for (load, want) in fixed {
        let linear = clamped(square, Ramp::even(load)).bulge(d);
        let bulge = held(square, linear, 1.0, 1.0, true).bulge;
        let figure = "Stretching square, clamped, q b⁴/(E t⁴) 12.5 to 250: w/t";
        levy.between(figure, bulge, want, [-0.03, 0.03])?;
    }
    Ok(())
}

/// An equilateral triangle, edges free to turn: Timoshenko and Woinowsky-Krieger, article 72 (from
/// memory). The rectangle round it bends more.
#[test]
pub(super) fn a_triangle_bends_less_than_its_rectangle() -> Outcome {
    let check = geometry("tri-ss");
    let half = 1.0 / 3f64.sqrt();
    let shape = enclosing(&[[-half, 0.0], [half, 0.0], [0.0, 1.0]])?;
    near(
        "short",
        shape.sides.short(),
        1.0,
        Tolerance::relative(1e-12),
    )?;
    near(
        "long",
        shape.sides.long(),
        2.0 * half,
        Tolerance::relative(1e-12),
    )?;
    near("filled", shape.filled, 0.5, Tolerance::relative(1e-12))?;
    let got = supported(shape.sides, Ramp::even(1.0), 0.3);
    // Above the triangle is what counts; the bands themselves are what comes out, so that a change of it is noticed.
    expect_between(&check, "w_centroid_D_qh4", got.deflection, [4.1, 4.2])?;
    expect_between(&check, "M_centroid_qh2", got.moment, [1.4, 1.5])?;
    Ok(())
}
