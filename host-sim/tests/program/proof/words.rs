//! What a user reads: reports, refusals, and where the cautions stand.

use super::{answer, object, steel};
use crate::support::{example, example_text, seamwright, told, trimmed};

/// A day tank with all that these reports speak of.
fn day_tank() -> String {
    "name = \"Day tank of a workboat\"\n[shape]\nkind = \"block\"\nlength = \"620 mm\"\nwidth = \"340 mm\"\nheight = \"420 mm\"\n\
     [stock]\nalloy = \"5083\"\ntemper = \"H111\"\nthickness = \"3 mm\"\n[[baffle]]\nacross = \"length\"\nat = \"310 mm\"\n[[baffle.hole]]\nat = [\"170 mm\", \"40 mm\"]\ndiameter = \"40 mm\"\n\
     [fill]\nliquid = \"diesel\"\npitch = \"20°\"\nroll = \"25°\"\n[use]\nacceleration = [1, 1, 1]\npressure = \"2 kPa\"\n\
     [[use.mount]]\nat = [\"40 mm\", \"40 mm\", \"0 mm\"]\n[[use.mount]]\nat = [\"580 mm\", \"40 mm\", \"0 mm\"]\n\
     [[use.mount]]\nat = [\"310 mm\", \"300 mm\", \"0 mm\"]\n"
        .to_owned()
}

#[test]
fn plan_of_a_day_tank() {
    for units in ["metric", "us"] {
        let text = answer(&day_tank(), &["plan", "-", "--units", units]);
        let from = text.find("\nMass and mounts").unwrap();
        let to = text.find("\nTaken as given").unwrap();
        insta::assert_snapshot!(format!("plan-day-tank-{units}"), &text[from..to]);
    }
}

#[test]
fn leak_tests() {
    let day = day_tank();
    let read = |gauge: &str, allow: &str| {
        let last = format!("30 min, {gauge} kPa, 20.4 °C, 1013 hPa");
        answer(
            &day,
            &[
                "leak",
                "-",
                "--rule",
                "light-aircraft",
                "--gauge-steps",
                "0.01 kPa",
                "--thermometer-near",
                "0.1 K",
                "--allow",
                allow,
                "--reading",
                "0 min, 3.40 kPa, 20.4 °C, 1013 hPa",
                "--reading",
                &last,
            ],
        )
    };
    insta::assert_snapshot!("leak-own-head", answer(&day, &["leak", "-"]));
    insta::assert_snapshot!(
        "leak-aircraft-us",
        answer(
            &day,
            &[
                "leak",
                "-",
                "--rule",
                "light-aircraft",
                "--overflow",
                "30 in",
                "--units",
                "us"
            ]
        )
    );
    let all: String = [
        ("3.39", "500 sccm"),
        ("2.20", "5 sccm"),
        ("3.30", "3 sccm"),
        ("4.80", "3 sccm"),
    ]
    .into_iter()
    .map(|(gauge, allow)| {
        let text = read(gauge, allow);
        let from = text.find("\nReadings").unwrap();
        format!("{gauge} kPa after 30 min, {allow}:{}", &text[from..])
    })
    .collect();
    for verdict in [
        "tight\n",
        "leaks\n",
        "cannot tell: test for longer\n",
        "cannot tell: it seems to gain air\n",
    ] {
        assert!(
            all.contains(&format!("verdict             {verdict}")),
            "{verdict}: {all}"
        );
    }
    insta::assert_snapshot!("leak-readings", all);
}

/// Every caution stands before the first pressure that is named, in the plan and on the page; each with its
/// whole text and its source.
#[test]
fn cautions_come_first() {
    let plan = answer(&day_tank(), &["plan", "-"]);
    let leak = answer(&day_tank(), &["leak", "-"]);
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("out");
    answer(&day_tank(), &["sheet", "-", "--out", out.to_str().unwrap()]);
    let page = std::fs::read_to_string(out.join("job.html")).unwrap();
    let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let listed = object(&day_tank(), &["plan", "-", "--json"])["cautions"].clone();
    let listed = listed.as_array().unwrap();
    for code in [
        "used-tank",
        "argon",
        "hot-aluminium",
        "fuel-us",
        "fuel-eu",
        "fuel-uk",
        "water-test",
        "local-code",
    ] {
        assert!(listed.iter().any(|one| one["code"] == code), "{code}");
    }
    let (plan, page) = (flat(&plan), flat(&page));
    for text in [&plan, &page] {
        let pressure = text.find(" kPa").unwrap();
        for caution in listed {
            let whole = text.find(caution["text"].as_str().unwrap()).unwrap();
            let source = text.find(caution["source"].as_str().unwrap()).unwrap();
            assert!(whole < pressure && source < pressure, "{caution}");
        }
    }
    let leak = flat(&leak);
    let pressure = leak.find(" kPa").unwrap();
    assert!(leak.find("A litre of water weighs a kilogram").unwrap() < pressure);
}

/// A tank too weak for a rule is refused with the way out; the plan and its JSON say the same and go on.
#[test]
fn refused() {
    let weak = steel(900.0, 700.0, 600.0, 0.8, "");
    let header = example("header-tank");
    let header = header.to_str().unwrap();
    let long = |pours: usize| -> Vec<String> {
        (1..=pours)
            .flat_map(|n| ["--pour".to_owned(), format!("{n} L at {n} mm")])
            .collect()
    };
    let too_many = long(17);
    let too_many: Vec<&str> = ["dip", header]
        .into_iter()
        .chain(too_many.iter().map(String::as_str))
        .collect();
    let reading = "0 min, 20.0 kPa, 21.3 °C, 1013 hPa";
    let with = |second: &'static str| {
        vec![
            "leak",
            header,
            "--gauge-steps",
            "0.1 kPa",
            "--allow",
            "2 sccm",
            "--reading",
            reading,
            "--reading",
            second,
        ]
    };
    let mut all = String::new();
    let cases: Vec<(Vec<&str>, &str)> = vec![
        (vec!["leak", "-"], &weak),
        (vec!["leak", "-", "--rule", "diesel-us"], &weak),
        (vec!["leak", header, "--rule", "boats"], ""),
        (vec!["leak", header, "--overflow", "3"], ""),
        (vec!["leak", header, "--barometer", "10 kPa"], ""),
        (vec!["leak", header, "--reading", reading], ""),
        (vec!["leak", header, "--gauge-steps", "0.1 kPa"], ""),
        (
            vec![
                "leak",
                header,
                "--gauge-steps",
                "0.1 kPa",
                "--allow",
                "2 sccm",
                "--reading",
                reading,
            ],
            "",
        ),
        (with("5 min, 20.0 kPa, 21.3 °C"), ""),
        (with("5 min, 20.0, 21.3 °C, 1013 hPa"), ""),
        (with("0 min, 20.0 kPa, 21.3 °C, 1013 hPa"), ""),
        (with("5 min, -1 kPa, 21.3 °C, 1013 hPa"), ""),
        (with("5 min, 19.9 kPa, 400 °C, 1013 hPa"), ""),
        (with("5 min, 19.9 kPa, 21.3 °C, 1013 kPa"), ""),
        (
            vec![
                "leak",
                header,
                "--gauge-steps",
                "0 kPa",
                "--allow",
                "2 sccm",
                "--reading",
                reading,
                "--reading",
                "5 min, 19.9 kPa, 21.3 °C, 1013 hPa",
            ],
            "",
        ),
        (
            vec![
                "leak",
                header,
                "--gauge-steps",
                "0.1 kPa",
                "--allow",
                "2 L",
                "--reading",
                reading,
                "--reading",
                "5 min, 19.9 kPa, 21.3 °C, 1013 hPa",
            ],
            "",
        ),
        (vec!["dip", header, "--pour", "2 L at 31 mm"], ""),
        (
            vec!["dip", header, "--pour", "2 L", "--pour", "4 L at 70 mm"],
            "",
        ),
        (
            vec![
                "dip",
                header,
                "--pour",
                "2 kg at 31 mm",
                "--pour",
                "4 L at 70 mm",
            ],
            "",
        ),
        (
            vec![
                "dip",
                header,
                "--pour",
                "2 L at 31",
                "--pour",
                "4 L at 70 mm",
            ],
            "",
        ),
        (
            vec![
                "dip",
                header,
                "--pour",
                "2 L at 31 mm",
                "--pour",
                "4 L at 700 mm",
            ],
            "",
        ),
        (
            vec![
                "dip",
                header,
                "--pour",
                "4 L at 70 mm",
                "--pour",
                "2 L at 31 mm",
            ],
            "",
        ),
        (
            vec![
                "dip",
                header,
                "--pour",
                "2 L at 31 mm",
                "--pour",
                "7 L at 70 mm",
            ],
            "",
        ),
        (too_many, ""),
        (
            vec![
                "sheet",
                header,
                "--out",
                "/dev/null/none",
                "--pour",
                "2 L at 31 mm",
            ],
            "",
        ),
    ];
    for (arguments, job) in cases {
        let output = seamwright(&arguments).write_stdin(job).output().unwrap();
        assert_eq!(
            output.status.code(),
            Some(2),
            "{arguments:?}: {}",
            told(&output)
        );
        assert!(output.stdout.is_empty(), "{arguments:?}");
        let shown = arguments.join(" ").replace(header, "header-tank.toml");
        all.push_str(&format!("{shown}\n{}", trimmed(&told(&output))));
    }
    insta::assert_snapshot!("proof-refused", all);
    let plan = answer(&weak, &["plan", "-"]);
    assert!(
        plan.contains("no test is proposed: the weakest wall or seam does not take this test"),
        "{plan}"
    );
    let plan = object(&weak, &["plan", "-", "--json"]);
    assert!(plan["proof"]["leak_test"]["refused"].is_string());
    // A test that was made is read even where none would be proposed.
    let read = object(
        &weak,
        &[
            "leak",
            "-",
            "--json",
            "--gauge-steps",
            "10 Pa",
            "--allow",
            "2 sccm",
            "--reading",
            "0 min, 1 kPa, 20 °C, 1 atm",
            "--reading",
            "9 min, 0.99 kPa, 20 °C, 1 atm",
        ],
    );
    assert!(read["test"]["refused"].is_string() && read["readings"]["verdict"].is_string());
    assert!(
        read["cautions"]
            .as_array()
            .unwrap()
            .iter()
            .any(|one| one["code"] == "pressure-test")
    );
}

#[test]
fn dips_set_right() {
    let job = example_text("header-tank");
    let text = answer(
        &job,
        &[
            "dip",
            "-",
            "--every",
            "20 mm",
            "--pour",
            "2.2 L at 38 mm",
            "--pour",
            "4.5 L at 79 mm",
            "--pour",
            "7.2 L at 130 mm",
        ],
    );
    insta::assert_snapshot!("dip-set-right", text);
    let us = answer(
        &job,
        &[
            "dip",
            "-",
            "--volume",
            "1 US qt",
            "--units",
            "us",
            "--pour",
            "2.2 L at 38 mm",
            "--pour",
            "7.2 L at 130 mm",
        ],
    );
    insta::assert_snapshot!("dip-set-right-us", us);
}
