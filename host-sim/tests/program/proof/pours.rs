//! Dip charts set right by pours.

use super::{near, number, object, steel};

/// A box that holds 3 % more than drawn and 0.1 L under its rod: two exact pours find both, and every mark
/// of the chart follows.
#[test]
fn pours_find_scale_and_offset() {
    // 0.4 by 0.25 m inside: a litre is 10 mm.
    let job = steel(408.0, 258.0, 208.0, 4.0, "");
    let true_litres = |mm: f64| 0.1 + 1.03 * mm / 10.0;
    let pour = |mm: f64| format!("{} L at {mm} mm", true_litres(mm));
    let (one, two, three) = (pour(30.0), pour(90.0), pour(180.0));
    let chart = object(
        &job,
        &[
            "dip", "-", "--json", "--every", "10 mm", "--pour", &one, "--pour", &two, "--pour",
            &three,
        ],
    );
    let found = &chart["calibration"];
    near("scale", number(&found["scale"]), 1.03, 1e-9);
    near("offset", number(&found["offset_m3"]), 1e-4, 1e-6);
    for pour in found["pours"].as_array().unwrap() {
        assert!(number(&pour["residual_m3"]).abs() < 1e-12);
    }
    for mark in chart["marks"].as_array().unwrap() {
        let (at, volume) = (number(&mark[0]) * 1e3, number(&mark[1]) * 1e3);
        near("mark", volume, true_litres(at), 1e-9);
    }
    // By round volumes the marks move instead.
    let chart = object(
        &job,
        &[
            "dip", "-", "--json", "--volume", "1 L", "--pour", &one, "--pour", &three,
        ],
    );
    let marks = chart["marks"].as_array().unwrap();
    assert_eq!(marks.len(), 20);
    for mark in marks {
        let (at, volume) = (number(&mark[0]) * 1e3, number(&mark[1]) * 1e3);
        near("volume", volume, volume.round(), 1e-9);
        near("mark", true_litres(at), volume, 1e-6);
    }
}

/// A pour that was misread stands out: least squares by hand of 2, 4, 6, 9 L at 20, 40, 60, 80 mm: slope
/// 1.15, offset −0.5, residuals 0.2, −0.1, −0.4, 0.3.
#[test]
fn what_is_left_over() {
    let job = steel(408.0, 258.0, 208.0, 4.0, "");
    let mut arguments = vec!["dip", "-", "--json"];
    for pour in [
        "2 L at 20 mm",
        "4 L at 40 mm",
        "6 L at 60 mm",
        "9 L at 80 mm",
    ] {
        arguments.extend(["--pour", pour]);
    }
    let chart = object(&job, &arguments);
    let found = &chart["calibration"];
    near("scale", number(&found["scale"]), 1.15, 1e-9);
    let left: Vec<f64> = found["pours"]
        .as_array()
        .unwrap()
        .iter()
        .map(|pour| number(&pour["residual_m3"]) * 1e3)
        .collect();
    for (got, want) in left.iter().zip([0.2, -0.1, -0.4, 0.3]) {
        assert!((got - want).abs() < 1e-9, "{left:?}");
    }
    assert_eq!(found["worst_pour"], 3);
    // √(0.3 / 2)
    near(
        "deviation",
        number(&found["deviation_m3"]),
        0.15_f64.sqrt() * 1e-3,
        1e-9,
    );
}
