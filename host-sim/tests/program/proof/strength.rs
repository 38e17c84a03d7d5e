//! Walls, baffles and seams.

use proptest::prelude::*;
use seamwright_core::input::Face;
use seamwright_core::strength::{TEST_RESERVE, Trial};
use seamwright_core::units::Pressure;

use super::{G, face, near, number, plan, steel, tank};

/// Roark, 7th edition, table 11.4, ν = 0.3 (from memory): side ratio; case 1a, edges free to turn, β and α;
/// case 8a, edges held, β₁ at the middle of the long edge and α. σ = β q b²/t², w = α q b⁴/(E t³).
const ROARK: [(f64, [f64; 2], [f64; 2]); 3] = [
    (1.0, [0.287_4, 0.044_4], [0.307_8, 0.013_8]),
    (1.4, [0.453_0, 0.077_0], [0.435_6, 0.022_6]),
    (2.0, [0.610_2, 0.111_0], [0.497_4, 0.027_7]),
];

/// The bottom of a box is a plate under the same pressure everywhere, ρ g h of the liquid.
#[test]
fn a_bottom_against_roark() {
    let (b, t, h) = (0.4, 8.0, 0.2);
    for (ratio, [free, sags], [held, holds]) in ROARK {
        let plan = plan(&steel(400.0 * ratio, 400.0, h * 1e3, t, ""));
        let bottom = face(&plan, "bottom");
        let t = t * 1e-3;
        let q = 1_000.0 * G * (h - 2.0 * t);
        near("q", number(&bottom["pressure_pa"]), q, 1e-6);
        let stress = |beta: f64| beta * q * b * b / (t * t);
        let bulge = |alpha: f64| alpha * q * f64::powi(b, 4) / (210e9 * t * t * t);
        let got = |key: &str| number(&bottom[key]);
        // What stretching adds to the first is below 1 % at this bulge.
        near("free", got("stress_edges_free_pa"), stress(free), 0.01);
        near("held", got("stress_edges_held_pa"), stress(held), 0.01);
        near("free", got("bulge_edges_free_m"), bulge(sags), 0.01);
        near("held", got("bulge_edges_held_m"), bulge(holds), 0.01);
        // Of the wall as one of the tank's: its sides are stiffer than it, and pressed less.
        assert!(got("stress_pa") < got("stress_edges_held_pa"));
        let reserve = number(&plan["proof"]["yield_as_welded_pa"]) / got("stress_pa");
        near("reserve", got("reserve"), reserve, 1e-9);
    }
}

/// The side of a box under a head that falls to nothing at the brim: Timoshenko and Woinowsky-Krieger, table
/// 38 (from memory), square with held edges: −0.0334 q₀ a² at the lower edge, so σ = 6 · 0.0334 q₀ a²/t².
#[test]
fn a_square_side_under_a_head() {
    let (side, t) = (0.4, 0.004);
    let plan = plan(&steel(400.0, 300.0, 400.0, 4.0, ""));
    let front = face(&plan, "front");
    // The plate reaches to the outside edges, the head only to the inside.
    let q = 1_000.0 * G * (side - t);
    near("q", number(&front["pressure_pa"]), q, 1e-6);
    let stress = 6.0 * 0.033_4 * q * side * side / (t * t);
    // It begins a sheet's thickness above the brim: 2 % of its load.
    near("s", number(&front["stress_edges_held_pa"]), stress, 0.03);
}

/// Braked at 2 g lengthwise the liquid stands up against the end: ρ g (h + 2 l); leaning as well, the lowest
/// corner has all of it at once.
#[test]
fn what_shakes_and_leans_adds_pressure() {
    let t = 0.004;
    let (l, h) = (0.5 - 2.0 * t, 0.3 - 2.0 * t);
    let shaken = plan(&steel(
        500.0,
        300.0,
        300.0,
        4.0,
        "[use]\nacceleration = [2, 0, 0]\npressure = \"1 kPa\"\n",
    ));
    let right = face(&shaken, "right");
    let want = 1e3 + 1_000.0 * G * (h + 2.0 * l + t);
    // One sheet's thickness more of width and depth at the outside corner.
    near("q", number(&right["pressure_pa"]), want, 0.01);
    let leaning = plan(&steel(
        500.0,
        300.0,
        300.0,
        4.0,
        "[fill]\npitch = \"20°\"\n",
    ));
    let want = 1_000.0 * G * (h * f64::to_radians(20.0).cos() + l * f64::to_radians(20.0).sin());
    near(
        "lean",
        number(&face(&leaning, "right")["pressure_pa"]),
        want,
        0.01,
    );
    let diesel = plan(&steel(
        500.0,
        300.0,
        300.0,
        4.0,
        "[fill]\nliquid = \"diesel\"\n",
    ));
    // 840 kg/m³ at 15 °C, within EN 590.
    near(
        "diesel",
        number(&face(&diesel, "bottom")["pressure_pa"]),
        840.0 * G * h,
        1e-3,
    );
}

/// ASME VIII-1, UG-27(c)(1) (from memory): σ = p (R/t + 0.6) round the wall of a drum, R inside.
#[test]
fn the_wall_of_a_drum() {
    let job = "name = \"T\"\n[shape]\nkind = \"drum\"\nsized = \"inside\"\ndiameter = \"600 mm\"\nlength = \"900 mm\"\n\
               axis = \"upright\"\nends = \"torispherical\"\ncrown = \"600 mm\"\nknuckle = \"60 mm\"\n[stock]\n\
               alloy = \"304L\"\nthickness = \"2 mm\"\n[use]\npressure = \"1 bar\"\n";
    let plan = plan(job);
    let shell = face(&plan, "shell");
    let p = number(&shell["pressure_pa"]);
    near(
        "shell",
        number(&shell["stress_edges_free_pa"]),
        p * (0.3 / 0.002 + 0.6),
        1e-9,
    );
    // Appendix 1-4(d): p (L M/t + 0.2)/2, M = (3 + √(L/r))/4.
    let bottom = face(&plan, "bottom");
    let p = number(&bottom["pressure_pa"]);
    let m = 0.25 * (3.0 + f64::sqrt(10.0));
    near(
        "dish",
        number(&bottom["stress_edges_free_pa"]),
        0.5 * p * (0.6 * m / 0.002 + 0.2),
        1e-9,
    );
    // The deepest point is in the lower dish: Torispherical, 600/60: depth 600 − √(540² − 240²) = 116.2 mm.
    let depth = 0.6 - f64::sqrt(0.54 * 0.54 - 0.24 * 0.24);
    near("p", p, 1e5 + 1_000.0 * G * (0.9 + 2.0 * depth), 1e-6);
    assert_eq!(shell["taken_as"], "cylinder");
    // Lengthwise and round seams: UG-27's stresses times the sheet, on the whole of it (EN 1993-1-8).
    assert!(!plan["proof"]["welds"].as_array().unwrap().is_empty());
}

/// A baffle halves the bottom; under it the parts are plates of their own, and it bears the liquid of one
/// side.
#[test]
fn a_baffle_parts_the_walls() {
    let whole = plan(&steel(800.0, 400.0, 200.0, 8.0, ""));
    let baffle = "[[baffle]]\nacross = \"length\"\nat = \"400 mm\"\n[[baffle.hole]]\nat = [\"200 mm\", \"100 mm\"]\ndiameter = \"40 mm\"\n";
    let parted = plan(&steel(800.0, 400.0, 200.0, 8.0, baffle));
    let q = 1_000.0 * G * 0.184;
    let (b, t) = (0.4, 0.008);
    let at = |beta: f64| beta * q * b * b / (t * t);
    near(
        "2:1",
        number(&face(&whole, "bottom")["stress_edges_free_pa"]),
        at(0.610_2),
        0.01,
    );
    near(
        "1:1",
        number(&face(&parted, "bottom")["stress_edges_free_pa"]),
        at(0.287_4),
        0.01,
    );
    let own = face(&parted, "baffle 1");
    assert_eq!(own["taken_as"], "baffle");
    near("own", number(&own["pressure_pa"]), q, 1e-6);
    assert!(own.get("takes_pa").is_none());
    // What a cap holds presses on both sides of it.
    let cap = format!("{baffle}[use]\npressure = \"50 kPa\"\n");
    let capped = plan(&steel(800.0, 400.0, 200.0, 8.0, &cap));
    near(
        "own",
        number(&face(&capped, "baffle 1")["pressure_pa"]),
        q,
        1e-6,
    );
}

/// What mends a wall does mend it.
#[test]
fn the_cure_cures() {
    let job = |t: f64, more: &str| {
        steel(
            900.0,
            600.0,
            600.0,
            t,
            &format!("{more}[weld]\nstitch_max = \"400 mm\"\n[use]\npressure = \"20 kPa\"\n"),
        )
    };
    let weak = plan(&job(3.0, ""));
    let bottom = face(&weak, "bottom");
    assert!(number(&bottom["reserve"]) < 1.5);
    let thickness = number(&bottom["mend"]["thickness_m"]) * 1e3;
    let mended = plan(&job(thickness * 1.000_01, ""));
    let reserve = number(&face(&mended, "bottom")["reserve"]);
    // The thicker sheet leaves a little less head; the plate is the outside's.
    assert!((1.5..1.56).contains(&reserve), "{reserve}");
    let apart = number(&bottom["mend"]["baffles_apart_m"]) * 1e3;
    let count = (900.0 / apart).ceil() as u32;
    assert!((2..=5).contains(&count), "{count}");
    let baffles: String = (1..count)
        .map(|n| {
            let at = 900.0 * f64::from(n) / f64::from(count);
            format!("[[baffle]]\nacross = \"length\"\nat = \"{at} mm\"\n[[baffle.hole]]\nat = [\"300 mm\", \"300 mm\"]\ndiameter = \"60 mm\"\n")
        })
        .collect();
    let parted = plan(&job(3.0, &baffles));
    // By itself: at its ends it bears what walls hand it that no baffle parts.
    let bottom = face(&parted, "bottom");
    let alone =
        number(&bottom["stress_edges_free_pa"]).max(number(&bottom["stress_edges_held_pa"]));
    assert!(number(&parted["proof"]["yield_as_welded_pa"]) / alone >= 1.5);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// More pressure never leaves more reserve, in a test or under a cap; and what a wall takes leaves it
    /// the reserve of a test.
    #[test]
    fn reserve_falls_when_pressure_rises(
        length in 100.0..1_500.0_f64,
        width in 100.0..900.0_f64,
        height in 100.0..900.0_f64,
        thickness in 1.0..6.0_f64,
        low in 0.1..40.0_f64,
        more in 0.1..40.0_f64,
    ) {
        let job = |cap: f64| steel(length, width, height, thickness, &format!("[use]\npressure = \"{cap} kPa\"\n"));
        let tank_low = tank(&job(low));
        let kpa = |value: f64| Trial::Test(Pressure::from_pascals(value * 1e3));
        for of in [Face::Front, Face::Left, Face::Bottom, Face::Top] {
            let reserve = |trial| tank_low.bearing(of, trial).unwrap().unwrap().reserve;
            prop_assert!(reserve(kpa(low + more)) < reserve(kpa(low)));
            let takes = tank_low.bearing(of, kpa(1.0)).unwrap().unwrap().takes.unwrap();
            let left = reserve(Trial::Test(takes));
            prop_assert!(left >= 0.9999 * TEST_RESERVE, "{} of {}", left, of);
        }
        let weak = |job: &str| tank(job).weakest(Trial::Use).unwrap().reserve;
        prop_assert!(weak(&job(low + more)) < weak(&job(low)));
        let (_, takes) = tank_low.weakest_wall().unwrap();
        let left = tank_low.weakest(Trial::Test(takes)).unwrap().reserve;
        prop_assert!(left >= 0.9999 * TEST_RESERVE, "{}", left);
    }
}
