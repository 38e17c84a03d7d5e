//! A job of more stitches than a gauge's order may have: planned whole on the laptop, which says what a gauge leaves out.

use std::collections::BTreeSet;
use std::fs;

use serde_json::Value;

use crate::support::{NAME, SHAPE, STOCK, number, run, told};

/// The program's answer to a job with stitches of at most so many millimetres.
fn answer(stitch: f64, arguments: &[&str]) -> std::process::Output {
    let folder = tempfile::tempdir().unwrap();
    let job = format!("{NAME}{SHAPE}{STOCK}\n[weld]\nstitch_max = \"{stitch} mm\"\n");
    fs::write(folder.path().join("tank.toml"), job).unwrap();
    run(folder.path(), arguments)
}

fn plan(stitch: f64) -> Value {
    let output = answer(stitch, &["plan", "tank.toml", "--json"]);
    assert!(output.status.success(), "{}", told(&output));
    serde_json::from_slice(&output.stdout).unwrap()
}

/// What is said of a gauge, if it is.
fn notice(plan: &Value) -> Option<&str> {
    let all = plan["notices"].as_array().unwrap();
    let one = all.iter().find(|one| one["code"] == "order-not-on-gauge");
    one.map(|one| one["text"].as_str().unwrap())
}

/// By hand: edges of 320, 180 and 160 mm, four of each, in stitches of at most 5 mm are `4 (64 + 36 + 32)` = 528.
#[test]
fn every_stitch_is_in_the_plan_once_and_its_times_add_up() {
    let plan = plan(5.0);
    let stitches = plan["stitches"].as_array().unwrap();
    assert_eq!(
        (stitches.len(), &plan["totals"]["stitch_count"]),
        (528, &528.into())
    );
    let micro = |value: &Value| (number(value) * 1e6).round() as i64;
    let mut pieces = BTreeSet::new();
    let (mut arcs, mut waits) = (0.0, 0.0);
    for (one, order) in stitches.iter().zip(1..) {
        assert_eq!(one["order"], order);
        let (from, to) = (micro(&one["from_m"]), micro(&one["to_m"]));
        assert!(pieces.insert((one["seam"].to_string(), from.min(to))));
        arcs += number(&one["arc_s"]);
        waits += number(&one["wait_s"]);
    }
    let order = &plan["welding"]["this_order"];
    assert!((waits - number(&order["wait_s"])).abs() < 1e-2);
    // Ten seconds to each stitch but the first.
    let sum = arcs + waits + 5_270.0;
    assert!((sum / number(&order["job_s"]) - 1.0).abs() < 1e-6, "{sum}");
}

/// By hand: in stitches of at most 11 mm there are `4 (30 + 17 + 15)` = 248, of 10 mm `4 (32 + 18 + 16)` = 264.
#[test]
fn what_a_gauge_leaves_out_is_told_with_the_way_out() {
    assert_eq!(notice(&plan(11.0)), None);
    let plan = plan(10.0);
    let text = notice(&plan).unwrap();
    assert!(text.contains("this job has 264"), "{text}");
    assert!(text.contains("a stitch_max of 11 mm"), "{text}");
}

#[test]
fn the_sheet_has_every_stitch() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out").display().to_string();
    let output = answer(5.0, &["sheet", "tank.toml", "--out", &out]);
    assert!(output.status.success(), "{}", told(&output));
    let sheet = fs::read_to_string(folder.path().join("out/job.html")).unwrap();
    let order = sheet.split("Order of the stitches").last().unwrap();
    assert!(order.matches("<tr").count() > 528, "too few rows");
}

/// By hand: of 2 mm there would be `4 (160 + 90 + 80)` = 1320; of 3 mm `4 (107 + 60 + 54)` = 884 are taken.
#[test]
fn more_than_a_job_may_have_is_refused_with_the_way_out() {
    let output = answer(2.0, &["plan", "tank.toml"]);
    let text = told(&output);
    assert_eq!(output.status.code(), Some(2), "{text}");
    for words in [
        "it may have 1024",
        "1320 at this figure",
        "a stitch_max of 3 mm",
    ] {
        assert!(text.contains(words), "{words}: {text}");
    }
    assert_eq!(plan(3.0)["stitches"].as_array().unwrap().len(), 884);
}
