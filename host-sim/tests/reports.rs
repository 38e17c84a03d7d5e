//! What `plan` and `fill` print, and how the program ends.

// A helper that cannot go on stops its test at once.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

mod support;

use std::fs;
use std::io::Read as _;
use std::process::Stdio;

use serde_json::Value;
use support::{EXAMPLES, NAME, SHAPE, STOCK, example, run, seamwright, told, trimmed};

fn good(arguments: &[&str]) -> String {
    let output = seamwright(arguments).output().unwrap();
    assert!(output.status.success(), "{}", told(&output));
    assert!(output.stderr.is_empty(), "{}", told(&output));
    String::from_utf8(output.stdout).unwrap()
}

fn path(name: &str) -> String {
    example(name).to_str().unwrap().to_owned()
}

fn object(arguments: &[&str]) -> Value {
    // `from_str` refuses anything before or after the one object.
    serde_json::from_str(&good(arguments)).unwrap()
}

#[test]
fn plans_of_the_examples() {
    for name in EXAMPLES {
        for units in ["metric", "us", "imperial"] {
            let text = good(&["plan", &path(name), "--units", units]);
            let lines_end_clean = text.lines().all(|line| line == line.trim_end());
            assert!(lines_end_clean, "spaces at the end of a line of {name}");
            insta::assert_snapshot!(format!("plan-{name}-{units}"), text);
        }
    }
}

#[test]
fn a_report_in_inches_has_no_metric_figure_but_the_litres_beside_the_gallons() {
    let text = good(&["plan", &path("log-splitter-reservoir"), "--units", "us"]);
    let tables = text.split("Taken as given").next().unwrap();
    for unit in [" mm", " m²", " kg", " m\n", " mL"] {
        assert!(!tables.contains(unit), "{unit:?} in {tables}");
    }
}

/// Keys of a JSON value with the kind of what they hold; of a list, its first member.
fn structure(value: &Value, indent: usize, out: &mut String) {
    let pad = "  ".repeat(indent);
    match value {
        Value::Object(map) => {
            for (key, value) in map {
                let kind = match value {
                    Value::Object(_) => "object",
                    Value::Array(_) => "list",
                    Value::String(_) => "text",
                    Value::Number(_) => "number",
                    Value::Bool(_) => "true or false",
                    Value::Null => "null",
                };
                out.push_str(&format!("{pad}{key}: {kind}\n"));
                structure(value, indent + 1, out);
            }
        }
        Value::Array(list) => {
            if let Some(first) = list.first() {
                if !first.is_object() {
                    let kind = if first.is_array() {
                        "list"
                    } else if first.is_number() {
                        "number"
                    } else {
                        "text"
                    };
                    out.push_str(&format!("{pad}each: {kind}\n"));
                }
                structure(first, indent + 1, out);
            }
        }
        _ => {}
    }
}

#[test]
fn keys_of_the_json_plan() {
    let plan = object(&["plan", &path("log-splitter-reservoir"), "--json"]);
    assert_eq!(plan["schema"], "seamwright-plan/1");
    let mut text = String::new();
    structure(&plan, 0, &mut text);
    insta::assert_snapshot!("plan-json-keys", text);
    let mut of_fill = String::new();
    structure(
        &object(&["fill", &path("header-tank"), "--depth", "80 mm", "--json"]),
        0,
        &mut of_fill,
    );
    insta::assert_snapshot!("fill-json-keys", of_fill);
}

#[test]
fn every_figure_of_every_json_plan_is_a_number() {
    fn no_null(value: &Value, at: &str) {
        match value {
            Value::Null => panic!("{at} is null"),
            Value::Array(list) => list.iter().for_each(|one| no_null(one, at)),
            Value::Object(map) => map
                .iter()
                .for_each(|(key, one)| no_null(one, &format!("{at}.{key}"))),
            _ => {}
        }
    }
    for name in EXAMPLES {
        no_null(&object(&["plan", &path(name), "--json"]), name);
    }
}

#[test]
fn report_and_json_agree() {
    for name in EXAMPLES {
        let text = good(&["plan", &path(name)]);
        let plan = object(&["plan", &path(name), "--json"]);
        let litres = |key: &str| format!("{:.3} L", plan["capacity"][key].as_f64().unwrap() * 1e3);
        for (line, key) in [
            ("brim", "brim_m3"),
            ("fill mark", "fill_m3"),
            ("usable", "usable_m3"),
        ] {
            let line = text
                .lines()
                .find(|l| l.trim_start().starts_with(line))
                .unwrap();
            assert!(
                line.contains(&litres(key)),
                "{name}: {line} has not {}",
                litres(key)
            );
        }
        let count = |key: &str| plan[key].as_array().unwrap().len();
        assert_eq!(plan["totals"]["stitch_count"], count("stitches"));
        assert_eq!(plan["totals"]["tack_count"], count("tacks"));
        for seam in plan["seams"].as_array().unwrap() {
            let mark = seam["mark"].as_str().unwrap();
            assert!(
                text.lines()
                    .any(|line| line.starts_with(&format!("  {mark} "))),
                "{name}: no seam {mark}"
            );
        }
    }
}

#[test]
fn fills() {
    let header = path("header-tank");
    let mut all = String::new();
    for arguments in [
        &["--depth", "80 mm"][..],
        &["--depth", "0 mm"],
        &["--depth", "156 mm"],
        &["--depth", "80 mm", "--pitch", "5°"],
        &[
            "--depth", "80 mm", "--pitch", "-5 deg", "--roll", "-2.5 deg",
        ],
        &["--depth", "3 1/8 in", "--units", "us"],
        &["--depth", "3 1/8 in", "--units", "imperial"],
    ] {
        let told = good(&[&["fill", &header], arguments].concat());
        all.push_str(&format!("{}\n  {told}", arguments.join(" ")));
    }
    insta::assert_snapshot!("fills", all);
}

#[test]
fn fills_refused() {
    let header = path("header-tank");
    let mut all = String::new();
    for arguments in [
        &["--depth", "80"][..],
        &["--depth", "80 A"],
        &["--depth", "80,5 mm"],
        &["--depth", ""],
        &["--depth", "157 mm"],
        &["--depth", "8 in"],
        &["--depth=-1 mm"],
        &["--depth", "80 mm", "--pitch", "5"],
        &["--depth", "80 mm", "--pitch", "91°"],
        &["--depth", "80 mm", "--roll", "-120 deg"],
        &["--depth", "80 mm", "--roll", "steep"],
    ] {
        let output = seamwright(&[&["fill", &header], arguments].concat())
            .output()
            .unwrap();
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        assert!(output.stdout.is_empty());
        all.push_str(&format!(
            "{}\n{}",
            arguments.join(" "),
            trimmed(&told(&output))
        ));
    }
    insta::assert_snapshot!("fills-refused", all);
}

#[test]
fn files_that_cannot_be_read() {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("jobs")).unwrap();
    fs::write(folder.path().join("long.toml"), " ".repeat((1 << 20) + 1)).unwrap();
    let mut all = String::new();
    for job in [
        "gone.toml",
        "jobs",
        "long.toml",
        "gone\u{1b}[31m.toml",
        "long.toml/x",
    ] {
        for command in [
            &["plan", job][..],
            &["plan", job, "--json"],
            &["fill", job, "--depth", "1 mm"],
        ] {
            let output = run(folder.path(), command);
            assert_eq!(output.status.code(), Some(2), "{command:?}");
            assert!(output.stdout.is_empty());
            if command.len() == 2 {
                all.push_str(&format!(
                    "{}\n{}",
                    command.join(" ").escape_default(),
                    told(&output)
                ));
            }
        }
    }
    assert!(!all.contains('\u{1b}'));
    insta::assert_snapshot!("files-that-cannot-be-read", all);
}

#[test]
fn a_job_comes_from_standard_input_too() {
    let job = format!("{NAME}{SHAPE}{STOCK}");
    let output = seamwright(&["plan", "-", "--json"])
        .write_stdin(job.clone())
        .output()
        .unwrap();
    let plan: Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(plan["name"], "Test tank");
    let wrong = seamwright(&["plan", "-"])
        .write_stdin(job.replacen("mm", "mn", 1))
        .output()
        .unwrap();
    assert_eq!(wrong.status.code(), Some(2));
    assert!(
        String::from_utf8(wrong.stderr)
            .unwrap()
            .contains("standard input:5:")
    );
}

#[test]
fn ways_to_end() {
    let header = path("header-tank");
    for (arguments, code) in [
        (&["plan", &header][..], 0),
        (&["--help"], 0),
        (&["plan", "--help"], 0),
        (&["--version"], 0),
        (&[], 2),
        (&["plan"], 2),
        (&["plam", &header], 2),
        (&["plan", &header, "--unit", "us"], 2),
        (&["plan", &header, "--units", "cubits"], 2),
        (&["fill", &header], 2),
        (&["plan", "gone.toml"], 2),
    ] {
        let output = seamwright(arguments).output().unwrap();
        assert_eq!(
            output.status.code(),
            Some(code),
            "{arguments:?}: {}",
            told(&output)
        );
        // Answers go to standard output, complaints to standard error, never both.
        assert_eq!(output.stdout.is_empty(), code != 0, "{arguments:?}");
        assert_eq!(output.stderr.is_empty(), code == 0, "{arguments:?}");
    }
}

#[test]
fn a_full_disk_is_no_fault_of_the_job() {
    let full = fs::OpenOptions::new()
        .write(true)
        .open("/dev/full")
        .unwrap();
    let status = std::process::Command::new(assert_cmd::cargo::cargo_bin!("seamwright"))
        .args(["plan", &path("header-tank")])
        .stdout(full)
        .output()
        .unwrap();
    assert_eq!(status.status.code(), Some(1));
    assert!(
        String::from_utf8(status.stderr)
            .unwrap()
            .contains("is the disk full?")
    );
}

#[test]
fn no_colour_in_a_pipe() {
    let header = path("header-tank");
    for arguments in [
        &["plan", &header][..],
        &["plan", &header, "--json"],
        &["fill", &header, "--depth", "9 m"],
    ] {
        let output = seamwright(arguments)
            .env("TERM", "xterm-256color")
            .env("COLORTERM", "truecolor")
            .output()
            .unwrap();
        let both = [output.stdout, output.stderr].concat();
        assert!(!both.contains(&0x1b), "{arguments:?}");
    }
}

#[test]
fn a_reader_that_leaves_early_is_no_error() {
    for format in [&[][..], &["--json"]] {
        let mut child = std::process::Command::new(assert_cmd::cargo::cargo_bin!("seamwright"))
            .arg("plan")
            .arg(example("log-splitter-reservoir"))
            .args(format)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        // The reading end closes before anything is written, or after a part.
        drop(child.stdout.take());
        let mut complaint = String::new();
        child
            .stderr
            .take()
            .unwrap()
            .read_to_string(&mut complaint)
            .unwrap();
        assert!(child.wait().unwrap().success(), "{complaint}");
        assert_eq!(complaint, "");
    }
    let program = assert_cmd::cargo::cargo_bin!("seamwright");
    let script = format!(
        "set -o pipefail; '{}' plan '{}' | head -1",
        program.display(),
        example("header-tank").display()
    );
    let output = std::process::Command::new("bash")
        .args(["-c", &script])
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", told(&output));
    assert_eq!(
        String::from_utf8(output.stdout).unwrap(),
        "Header tank, heating loop of a canal boat\n"
    );
    assert!(output.stderr.is_empty());
}
