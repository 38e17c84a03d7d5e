//! `plan --search`: the best order of welding that a search finds, beside the plan's own.

use std::collections::BTreeSet;
use std::fs;

use crate::support::{NAME, SHAPE, STOCK, example, number, run, seamwright, told};
use serde_json::Value;

/// Held so cool that the order decides how long the job takes.
const COOL: &str = "\n[weld]\ninterpass_max = \"45 °C\"\n";
const BAFFLE: &str = "\n[[baffle]]\nacross = \"length\"\nat = \"160 mm\"\n[[baffle.hole]]\nat = [\"90 mm\", \"40 mm\"]\ndiameter = \"30 mm\"\n";

fn printed(more: &[&str]) -> String {
    let folder = tempfile::tempdir().unwrap();
    let job = format!("{NAME}{SHAPE}{STOCK}{BAFFLE}{COOL}");
    fs::write(folder.path().join("tank.toml"), job).unwrap();
    let mut arguments = vec!["plan", "tank.toml"];
    arguments.extend(more);
    let output = run(folder.path(), &arguments);
    assert!(output.status.success(), "{}", told(&output));
    String::from_utf8(output.stdout).unwrap()
}

fn planned(tries: &str) -> Value {
    serde_json::from_str(&printed(&["--json", "--search", tries])).unwrap()
}

/// What each stitch is, whichever way it is welded, in whole micrometres.
fn pieces(stitches: &Value) -> BTreeSet<(String, i64, i64)> {
    let micro = |value: &Value| (number(value) * 1e6).round() as i64;
    let all = stitches.as_array().unwrap().iter();
    all.map(|one| {
        let (from, to) = (micro(&one["from_m"]), micro(&one["to_m"]));
        let seam = one["seam"].as_str().unwrap().to_owned();
        (seam, from.min(to), from.max(to))
    })
    .collect()
}

#[test]
fn the_best_found_is_told_with_what_it_takes() {
    let plan = planned("200");
    let (own, best) = (
        &plan["welding"]["this_order"],
        &plan["welding"]["best_found"],
    );
    assert_eq!(best["tried"], 200);
    // It starts from the plan's own order and keeps the best; the plan's is hard to beat by now.
    assert!(number(&best["job_s"]) <= number(&own["job_s"]));
    assert!(number(&best["job_s"]) < number(&plan["welding"]["seam_by_seam"]["job_s"]));
    let limit = 45.0 - number(&plan["settings"]["preheat"]["ambient_c"]);
    assert!(number(&best["hottest_start_over_ambient_k"]) <= limit + 1e-3);
    // Every stitch once, and its times add up.
    assert_eq!(pieces(&best["stitches"]), pieces(&plan["stitches"]));
    let stitches = best["stitches"].as_array().unwrap();
    assert_eq!(stitches.len(), plan["stitches"].as_array().unwrap().len());
    let waits: f64 = stitches.iter().map(|one| number(&one["wait_s"])).sum();
    assert!((waits - number(&best["wait_s"])).abs() < 1e-2);
    let last = stitches.last().unwrap();
    let end = number(&last["start_s"]) + number(&last["arc_s"]);
    assert!(end <= number(&best["job_s"]) + 1e-3 && end >= number(&best["job_s"]) - 4.0);
}

/// A quicker order that shuts the tank first, or its baffle out, would be no order.
#[test]
fn baffles_stay_first_and_the_closing_stitch_last() {
    let plan = planned("200");
    let baffle = plan["panels"]
        .as_array()
        .unwrap()
        .iter()
        .find(|panel| panel["face"] == "baffle 1")
        .unwrap()["mark"]
        .as_str()
        .unwrap();
    let stitches = plan["welding"]["best_found"]["stitches"]
        .as_array()
        .unwrap();
    let within: Vec<bool> = stitches
        .iter()
        .map(|one| one["seam"].as_str().unwrap().contains(baffle))
        .collect();
    let count = within.iter().filter(|one| **one).count();
    assert!(
        count > 0 && within[..count].iter().all(|one| *one),
        "{within:?}"
    );
    let piece = |one: &Value| pieces(&serde_json::json!([one]));
    let own = plan["stitches"].as_array().unwrap();
    assert_eq!(piece(own.last().unwrap()), piece(stitches.last().unwrap()));
}

#[test]
fn it_is_the_same_every_time_and_in_the_report() {
    let (once, again) = (planned("60"), planned("60"));
    assert_eq!(
        once["welding"]["best_found"],
        again["welding"]["best_found"]
    );
    let text = printed(&["--search", "60"]);
    let joined = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let best = &once["welding"]["best_found"];
    let told = format!(
        "the best order of 60 that a search tried: {:.1} min in all",
        number(&best["job_s"]) / 60.0
    );
    assert!(joined.contains(&told), "{told} in {joined}");
    let plain = printed(&[]);
    assert!(!plain.contains("that a search tried"));
}

#[test]
fn how_many_orders_is_bounded() {
    let path = example("rinse-tank");
    for tries in ["0", "100001", "-3", "many"] {
        let output = seamwright(&["plan", path.to_str().unwrap(), "--search", tries])
            .output()
            .unwrap();
        assert_eq!(output.status.code(), Some(2), "{tries}");
    }
}
