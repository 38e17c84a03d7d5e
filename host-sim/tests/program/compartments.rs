//! Compartments in the plan and its JSON: what is held back, where it drains, what is refused.

use std::fs;

use serde_json::Value;

use crate::support::{NAME, SHAPE, STOCK, number, run, told};

/// A saddle tank over a shaft tunnel with two baffles that have limber holes in both legs and one high in the middle.
const SADDLE: &str = r#"
name = "Saddle over a shaft tunnel"
[shape]
kind = "profile"
sized = "inside"
width = "900 mm"
outline = [["0 mm","0 mm"],["220 mm","0 mm"],["220 mm","140 mm"],["380 mm","140 mm"],["380 mm","0 mm"],["600 mm","0 mm"],["600 mm","300 mm"],["0 mm","300 mm"]]
[stock]
alloy = "mild steel"
thickness = "3 mm"
[weld]
stitch_max = "300 mm"
[[baffle]]
across = "width"
at = "303 mm"
[[baffle.hole]]
at = ["113 mm","33 mm"]
diameter = "40 mm"
[[baffle.hole]]
at = ["493 mm","33 mm"]
diameter = "40 mm"
[[baffle.hole]]
at = ["303 mm","223 mm"]
diameter = "90 mm"
[[baffle]]
across = "width"
at = "603 mm"
[[baffle.hole]]
at = ["113 mm","33 mm"]
diameter = "40 mm"
[[baffle.hole]]
at = ["493 mm","33 mm"]
diameter = "40 mm"
[[baffle.hole]]
at = ["303 mm","223 mm"]
diameter = "90 mm"
[[fitting]]
name = "filler"
face = "side 7"
at = ["60 mm","450 mm"]
bore = "38 mm"
[[fitting]]
name = "left draw"
face = "side 8"
at = ["450 mm","40 mm"]
bore = "15 mm"
outer = "25 mm"
[[fitting]]
name = "right draw"
face = "side 6"
at = ["450 mm","40 mm"]
bore = "15 mm"
outer = "25 mm"
"#;

const FILL: &str = "[fill]\nheadspace = \"5 %\"\npick_up = \"25 mm\"\npick_up_at = [\"113 mm\",\"450 mm\"]\npitch = \"7 deg\"\nroll = \"15 deg\"\nliquid = \"diesel\"\nhottest = \"45 °C\"\n";

fn answer(job: &str, arguments: &[&str]) -> (bool, String) {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("tank.toml"), job).unwrap();
    let output = run(folder.path(), arguments);
    (output.status.success(), told(&output))
}

/// The object that a command prints.
fn object(job: &str, arguments: &[&str]) -> Value {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("tank.toml"), job).unwrap();
    let output = run(folder.path(), arguments);
    assert!(output.status.success(), "{}", told(&output));
    serde_json::from_slice(&output.stdout).unwrap()
}

fn plan(job: &str) -> Value {
    object(job, &["plan", "tank.toml", "--json"])
}

fn litres(value: &Value) -> f64 {
    number(value) * 1e3
}

/// The legs are 220 by 140 mm, in three stretches of 298.5, 297 and 298.5 mm between the baffles. Limber holes reach down
/// to 10 mm over the floor, so that all left legs drain to the pick-up at 25 mm, and the right ones keep all that they
/// hold.
#[test]
fn a_saddle_with_one_pick_up() {
    let plan = plan(&format!("{SADDLE}{FILL}"));
    let all = plan["compartments"].as_array().unwrap();
    assert_eq!(all.len(), 6);
    let lengths = [298.5, 297.0, 298.5];
    let mut kept = 0.0;
    for (pair, length) in all.chunks(2).zip(lengths) {
        let (left, right) = (&pair[0]["held_back_m3"], &pair[1]["held_back_m3"]);
        assert!((litres(&left["level"]) - 0.22 * length * 0.025).abs() < 1e-9);
        assert!((litres(&right["level"]) - 0.22 * length * 0.14).abs() < 1e-9);
        kept += litres(&left["level"]) + litres(&right["level"]);
        assert!(number(&right["worst_lean"]) > 0.0);
        assert_eq!(pair[0]["low_m"][0], 0.003);
    }
    let drains: Vec<&Value> = all.iter().map(|one| &one["drains_to"]).collect();
    // Left legs to the middle one, which has the pick-up; right legs over the sill or through the right limber holes.
    assert_eq!(drains[2], "pick-up");
    assert_eq!((drains[0], drains[4]), (&Value::from(3), &Value::from(3)));
    assert!(drains[3].is_number());
    let capacity = &plan["capacity"];
    let above = litres(&capacity["fill_m3"]) - litres(&capacity["usable_m3"]);
    // What stands in the holes of the plates, four of 40 mm through 3 mm, is in no compartment.
    let in_holes = 4.0 * std::f64::consts::PI * 20.0_f64.powi(2) * 3.0 * 1e-6;
    let off = above - kept;
    assert!((0.0..in_holes).contains(&off), "{above} {kept}");
    let worst = &capacity["worst_lean"];
    assert!(number(&worst["usable_m3"]) < number(&capacity["usable_m3"]));
    let codes: Vec<&Value> = plan["notices"]
        .as_array()
        .unwrap()
        .iter()
        .map(|one| &one["code"])
        .collect();
    assert!(codes.iter().any(|code| *code == "liquid-held-back"));
    assert!(number(&capacity["growth"]["hot_m3"]) > number(&capacity["fill_m3"]));
    let (_, text) = answer(&format!("{SADDLE}{FILL}"), &["plan", "tank.toml"]);
    for words in [
        "usable at the worst lean",
        "stay in compartment 2",
        "when it warms",
        "it would have to rise to get to the pick-up",
    ] {
        assert!(text.contains(words), "{words}: {text}");
    }
}

/// Drawn from both legs, and from one with a pipe to the other, all of it reaches.
#[test]
fn two_draws_or_a_balance_pipe() {
    let one = plan(&format!("{SADDLE}[fill]\ndraws = [\"left draw\"]\n"));
    for more in [
        "draws = [\"left draw\", \"right draw\"]",
        "draws = [\"left draw\"]\nbalance = [[\"left draw\", \"right draw\"]]",
    ] {
        let other = plan(&format!("{SADDLE}[fill]\n{more}\n"));
        let more = litres(&other["capacity"]["usable_m3"]) - litres(&one["capacity"]["usable_m3"]);
        // The rim of the draw, 15 mm across and 40 mm over the outside, stands 44.5 mm over the inside's floor.
        let leg = 0.22 * (298.5 + 297.0 + 298.5) * (0.140 - 0.0445);
        assert!((more - leg).abs() < 1e-6, "{more} {leg}");
    }
}

/// What is wanted is what reaches: solved for, the width leaves the right leg out.
#[test]
fn solved_for_what_reaches() {
    let job = format!("{SADDLE}{FILL}");
    let arguments = [
        "solve",
        "tank.toml",
        "--for",
        "width",
        "--usable",
        "90 L",
        "--json",
    ];
    let found = object(&job, &arguments);
    let width = number(&found["value_m"]) * 1e3;
    let wider = job.replace("width = \"900 mm\"", &format!("width = \"{width} mm\""));
    let usable = litres(&plan(&wider)["capacity"]["usable_m3"]);
    assert!((usable - 90.0).abs() < 1e-6, "{usable}");
}

#[test]
fn what_is_refused() {
    let baffle = "[[baffle]]\nacross = \"length\"\nat = \"160 mm\"\n";
    let bung = "[[fitting]]\nname = \"bung\"\nface = \"top\"\nat = [\"80 mm\", \"60 mm\"]\nbore = \"20 mm\"\n";
    let boss = "[[fitting]]\nname = \"boss\"\nface = \"top\"\nat = [\"120 mm\", \"60 mm\"]\nbore = \"0 mm\"\nouter = \"20 mm\"\n";
    for (more, wanted) in [
        (
            format!("{bung}{baffle}"),
            ["baffle 1 is shut all round", "can burst the seam"],
        ),
        (
            "[fill]\npick_up_at = [\"400 mm\", \"60 mm\"]\n".to_owned(),
            ["the pick-up draws nothing there", "82 mm outside"],
        ),
        (
            format!("{bung}[fill]\ndraws = [\"bong\"]\n"),
            ["`bong`", "bung"],
        ),
        (
            format!("{boss}[fill]\ndraws = [\"boss\"]\n"),
            ["the fitting `boss` has no bore", "nothing runs through it"],
        ),
        (
            format!("{bung}[fill]\ndraws = [\"bung\"]\npick_up = \"10 mm\"\n"),
            ["both say where liquid is drawn", "take one of them out"],
        ),
        (
            format!("{bung}[fill]\nbalance = [\"bung\"]\n"),
            ["a balance pipe joins two fittings", "no list of two names"],
        ),
        (
            "[fill]\ndraws = []\n".to_owned(),
            ["must be a list of 1 to 4", "0 found"],
        ),
    ] {
        let job = format!("{NAME}{SHAPE}{STOCK}\n{more}");
        let (good, text) = answer(&job, &["plan", "tank.toml"]);
        assert!(!good, "{more} is let pass");
        for words in wanted {
            assert!(text.contains(words), "{words}: {text}");
        }
    }
}
