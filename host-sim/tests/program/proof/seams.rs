//! Seams round fittings, and baffles across drums with their seams.

use proptest::prelude::*;
use seamwright_core::input::Face;
use seamwright_core::strength::Trial;
use serde_json::Value;

use super::{G, answer, face, near, number, plan, steel, tank};

fn weld<'a>(plan: &'a Value, name: &str) -> &'a Value {
    let welds = plan["proof"]["welds"].as_array().unwrap();
    welds.iter().find(|weld| weld["fitting"] == name).unwrap()
}

/// The seam that holds a baffle is the only one with its panel's mark.
fn seam<'a>(plan: &'a Value, between: [&str; 2]) -> &'a Value {
    let seams = plan["seams"].as_array().unwrap();
    let found = seams.iter().find(|seam| {
        let of = seam["between"].as_array().unwrap();
        between.iter().all(|name| of.iter().any(|of| of == name))
    });
    let mark = &found.unwrap()["mark"];
    let welds = plan["proof"]["welds"].as_array().unwrap();
    welds.iter().find(|weld| weld["seam"] == *mark).unwrap()
}

const DRAIN: &str = "[[fitting]]\nname = \"drain\"\nface = \"bottom\"\nat = [\"200 mm\", \"200 mm\"]\nbore = \"40 mm\"\n\
                     outer = \"50 mm\"\n";

/// Statics: a shut fitting with radius r is pushed by p π r² on a seam 2 π r long, p r/2 for each metre. The throat
/// of a fillet as long as the sheet is t/√2, `√3 F/a` on it and `6 M/a²` where the wall bends it (EN 1993-1-8,
/// 4.5.3.2, from memory). M by Roark, table 11.4 (from memory): 0.3078 q b²/6 at the edge of a square plate that is
/// held, more than in its middle; 0.6102 q b²/6 in the middle of one of 2:1 that is free to turn.
#[test]
fn a_drain_in_the_bottom() {
    let (t, h, b, r) = (8e-3, 0.2 - 16e-3, 0.4, 25e-3);
    let q = 1_000.0 * G * h;
    let a = t / f64::sqrt(2.0);
    for (length, beta) in [(400.0, 0.307_8), (800.0, 0.610_2)] {
        let told = plan(&steel(length, 400.0, 200.0, 8.0, DRAIN));
        let got = weld(&told, "drain");
        let shear = f64::sqrt(3.0) * 0.5 * q * r / a;
        near("forces", number(&got["stress_forces_pa"]), shear, 1e-5);
        let bent = 6.0 * (beta * q * b * b / 6.0) / (a * a);
        near("all", number(&got["stress_pa"]), bent.hypot(shear), 2e-3);
        // The test presses with its own pressure alone, and on the fitting too.
        let test = number(&told["proof"]["leak_test"]["pressure_pa"]);
        let ratio = number(&got["reserve"]) / number(&got["reserve_in_test"]);
        near("test", ratio, test / q, 2e-3);
    }
    // In the longer bottom the middle bends more than the edges, and the drain's seam is the weakest.
    let job = steel(800.0, 400.0, 200.0, 8.0, DRAIN);
    let told = plan(&job);
    assert_eq!(
        told["proof"]["weakest_seam"]["seam"],
        weld(&told, "drain")["seam"]
    );
    let least = number(&told["proof"]["weakest_seam"]["reserve"]);
    for weld in told["proof"]["welds"].as_array().unwrap() {
        assert!(number(&weld["reserve"]) >= least);
    }
    let text = answer(&job, &["plan", "-"]);
    assert!(text.contains(" round drain, reserve "), "{text}");
    assert!(!text.contains("not judged"), "{text}");
    let bare = answer(&steel(800.0, 400.0, 200.0, 8.0, ""), &["plan", "-"]);
    assert!(!bare.contains("pressed over its whole hole"), "{bare}");
}

/// What a cap holds presses on a fitting in the top as well, where there is no head.
#[test]
fn a_cap_presses_on_its_neck() {
    let neck = "[[fitting]]\nname = \"neck\"\nface = \"top\"\nat = [\"200 mm\", \"200 mm\"]\nbore = \"60 mm\"\n\
                outer = \"70 mm\"\n[use]\npressure = \"30 kPa\"\n";
    let told = plan(&steel(400.0, 400.0, 200.0, 8.0, neck));
    let shear = f64::sqrt(3.0) * 0.5 * 30e3 * 35e-3 / (8e-3 / f64::sqrt(2.0));
    // The outside of the top lies a sheet's thickness over the brim.
    let got = number(&weld(&told, "neck")["stress_forces_pa"]);
    near("forces", got, shear, 3e-3);
}

/// Where the walls take the test and a seam does not, no such test is proposed, and what can be done instead is named:
/// half-open corners have half a sheet's leg.
#[test]
fn a_seam_too_weak_for_the_test() {
    let lapped = "[joints]\ndefault = \"half-open corner\"\n";
    for (more, weak) in [(lapped, true), ("", false)] {
        let job = steel(600.0, 600.0, 500.0, 3.5, more);
        let told = plan(&job);
        let test = &told["proof"]["leak_test"];
        assert_eq!(test.get("refused").is_some(), weak, "{test}");
        if weak {
            let instead = &test["instead"];
            assert_eq!(instead["rule"], "light-aircraft");
            assert_eq!(instead["pressure_set_by"], "weakest-seam");
            let wall = number(&face(&told, "bottom")["takes_pa"]);
            assert!(number(&instead["pressure_pa"]) < wall);
        }
        let text = answer(&job, &["plan", "-"]);
        let words: Vec<&str> = text.split_whitespace().collect();
        assert_eq!(words.join(" ").contains("what can be done"), weak, "{text}");
    }
}

fn drum(axis: &str, ends: &str, more: &str) -> String {
    format!(
        "name = \"T\"\n[shape]\nkind = \"drum\"\nsized = \"inside\"\ndiameter = \"600 mm\"\nlength = \"900 mm\"\n\
         axis = \"{axis}\"\nends = \"{ends}\"\n[stock]\nalloy = \"low-carbon steel\"\nthickness = \"5 mm\"\n{more}"
    )
}

/// A fitting on the wall of a drum is pulled by what runs round it, p (R/t + 0.6) t (ASME VIII-1, UG-27(c)(1), from
/// memory), and pushed by p r/2.
#[test]
fn a_fitting_on_a_shell() {
    let bung = "[[fitting]]\nname = \"bung\"\nface = \"shell\"\nat = [\"300 mm\", \"300 mm\"]\nbore = \"30 mm\"\n\
                outer = \"40 mm\"\n[use]\npressure = \"50 kPa\"\n";
    let told = plan(&drum("lying", "flat", bung));
    let p = number(&face(&told, "shell")["pressure_pa"]);
    near("p", p, 50e3 + 1_000.0 * G * 0.6, 1e-6);
    let (t, r) = (5e-3, 20e-3);
    let force = f64::hypot(p * (0.3 / t + 0.6) * t, 0.5 * p * r);
    let want = f64::sqrt(3.0) * force / (t / f64::sqrt(2.0));
    let got = weld(&told, "bung");
    near("forces", number(&got["stress_forces_pa"]), want, 1e-9);
    // A cylinder does not bend.
    near("all", number(&got["stress_pa"]), want, 1e-9);
}

/// A baffle across an upright drum is a disc under the head above it, the same everywhere: Roark, table 11.2, cases 10a
/// and 10b (from memory): held 6 q a²/(8 t²) and w = q a⁴/(64 D), free to turn 6 (3 + ν) q a²/(16 t²).
#[test]
fn a_baffle_across_an_upright_drum() {
    let baffle = "[[baffle]]\nacross = \"height\"\nat = \"705 mm\"\n[[baffle.hole]]\nat = [\"305 mm\", \"305 mm\"]\ndiameter = \"60 mm\"\n";
    let told = plan(&drum("upright", "flat", baffle));
    let own = face(&told, "baffle 1");
    assert_eq!(own["taken_as"], "baffle");
    // The inside begins a sheet's thickness up: 200 mm of head.
    let q = 1_000.0 * G * 0.2;
    near("q", number(&own["pressure_pa"]), q, 1e-6);
    let slim = q * (0.3_f64 / 5e-3).powi(2);
    near(
        "held",
        number(&own["stress_edges_held_pa"]),
        0.75 * slim,
        1e-6,
    );
    let d = 210e9 * 5e-3_f64.powi(3) / (12.0 * 0.91);
    let bulge = q * 0.3_f64.powi(4) / (64.0 * d);
    near("w", number(&own["bulge_edges_held_m"]), bulge, 1e-6);
    let free = 6.0 * 3.3 / 16.0 * slim;
    // Where the edge cannot pull inward the sheet stretches a little as well.
    let got = number(&own["stress_edges_free_pa"]);
    assert!(
        got >= free * (1.0 - 1e-6) && got < 1.05 * free,
        "{got} {free}"
    );
    // A cap's gas presses on both sides of it.
    let capped = plan(&drum(
        "upright",
        "flat",
        &format!("{baffle}[use]\npressure = \"40 kPa\"\n"),
    ));
    near(
        "q",
        number(&face(&capped, "baffle 1")["pressure_pa"]),
        q,
        1e-6,
    );
}

/// Across a lying drum the head runs from nothing to 2 ρ g a: held, `(p₀/8 + p₁/24) a²` with both ρ g a (Timoshenko and
/// Woinowsky-Krieger, articles 16 and 63), which is σ = ρ g a³/t². Its seam bears `p₀ a/2 + 7 p₁ a/24`, that moment, and
/// what keeps the shell from growing, `2 p/β` (article 115).
#[test]
fn a_baffle_across_a_lying_drum() {
    let baffle = "[[baffle]]\nacross = \"length\"\nat = \"400 mm\"\nthickness = \"4 mm\"\n[[baffle.hole]]\nat = [\"305 mm\", \"305 mm\"]\ndiameter = \"60 mm\"\n[use]\npressure = \"20 kPa\"\n";
    for ends in ["flat", "hemispherical"] {
        let told = plan(&drum("lying", ends, baffle));
        let own = face(&told, "baffle 1");
        let (a, t) = (0.3_f64, 4e-3);
        let head = 1_000.0 * G * a;
        near("q", number(&own["pressure_pa"]), 2.0 * head, 1e-6);
        let stress = head * a * a / (t * t);
        near("held", number(&own["stress_edges_held_pa"]), stress, 1e-6);
        let p = 20e3 + 2.0 * head;
        let beta = f64::powf(3.0 * 0.91, 0.25) / f64::sqrt(a * 5e-3);
        let (pull, across) = (2.0 * p / beta, head * a * (0.5 + 7.0 / 24.0));
        let throat = t / f64::sqrt(2.0);
        let shear = f64::sqrt(3.0) * f64::hypot(pull, across) / throat;
        let got = seam(&told, ["shell", "baffle 1"]);
        near("forces", number(&got["stress_forces_pa"]), shear, 1e-5);
        let bent = 6.0 * head * a * a / 6.0 / (throat * throat);
        near("all", number(&got["stress_pa"]), bent.hypot(shear), 1e-5);
        // In a test both its sides are pressed alike.
        assert!(got.get("reserve_in_test").is_none());
    }
}

/// Liquid thrown lengthwise at 1 g stands up against the baffle of a lying drum: ρ g (2 a + l), l to the far end.
#[test]
fn braked_against_a_baffle() {
    let baffle = "[[baffle]]\nacross = \"length\"\nat = \"405 mm\"\n[[baffle.hole]]\nat = [\"305 mm\", \"305 mm\"]\ndiameter = \"60 mm\"\n[use]\nacceleration = [1, 0, 0]\n";
    let told = plan(&drum("lying", "flat", baffle));
    let want = 1_000.0 * G * (0.6 + 0.5);
    near(
        "q",
        number(&face(&told, "baffle 1")["pressure_pa"]),
        want,
        1e-5,
    );
    // The sheet that is said to mend a thin one does.
    let thin = |t: f64| {
        let more = format!(
            "{baffle}[[baffle]]\nacross = \"length\"\nat = \"700 mm\"\n[[baffle.hole]]\nat = [\"305 mm\", \"305 mm\"]\ndiameter = \"60 mm\"\n"
        );
        let more = more.replacen(
            "\"405 mm\"",
            &format!("\"405 mm\"\nthickness = \"{t} mm\""),
            1,
        );
        let (front, back) = more.split_once("[use]").unwrap();
        let (with, second) = back.split_once("[[baffle]]").unwrap();
        plan(&drum(
            "lying",
            "flat",
            &format!("{front}[[baffle]]{second}[use]{with}"),
        ))
    };
    let weak = thin(1.5);
    let own = face(&weak, "baffle 1");
    assert!(number(&own["reserve"]) < 1.5);
    assert!(own["mend"].get("baffles_apart_m").is_none());
    let mended = thin(number(&own["mend"]["thickness_m"]) * 1e3 * 1.000_01);
    near(
        "mended",
        number(&face(&mended, "baffle 1")["reserve"]),
        1.5,
        1e-3,
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// A drum that leans or is shaken leaves a baffle no more in reserve, and its highest pressure is never more than
    /// that of the whole space full.
    #[test]
    fn leaning_and_shaking_try_a_baffle_harder(
        at in 200.0..1_000.0_f64,
        pitch in 1.0..40.0_f64,
        roll in 1.0..40.0_f64,
        shaken in 0.1..2.0_f64,
    ) {
        let make = |pitch: f64, roll: f64, shaken: f64| {
            tank(&drum("lying", "ellipsoidal 2:1", &format!(
                "[[baffle]]\nacross = \"length\"\nat = \"{at} mm\"\n[[baffle.hole]]\nat = [\"305 mm\", \"305 mm\"]\ndiameter = \"60 mm\"\n[fill]\npitch = \"{pitch}°\"\nroll = \"{roll}°\"\n\
                 [use]\nacceleration = [{shaken}, {shaken}, 0]\n"
            )))
        };
        let bearing = |pitch, roll, shaken| {
            let made = make(pitch, roll, shaken);
            made.bearing(Face::Baffle(1), Trial::Use).unwrap().unwrap()
        };
        let still = bearing(0.0, 0.0, 0.0);
        for other in [bearing(pitch, 0.0, 0.0), bearing(0.0, roll, 0.0), bearing(0.0, 0.0, shaken)] {
            prop_assert!(other.reserve <= still.reserve * (1.0 + 1e-9));
        }
        let all = make(pitch, roll, shaken);
        let own = all.bearing(Face::Baffle(1), Trial::Use).unwrap().unwrap();
        let shell = all.bearing(Face::Shell, Trial::Use).unwrap().unwrap();
        prop_assert!(own.pressure.si() <= shell.pressure.si() * (1.0 + 1e-9));
    }
}
