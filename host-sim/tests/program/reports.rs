//! What `plan`, `fill`, `dip`, `solve` and `sheet` give, and how the program ends.

use std::fs;
use std::io::Read as _;
use std::process::Stdio;

use crate::support::{
    EXAMPLES, NAME, SHAPE, STOCK, example, example_text, good, run, seamwright, told, trimmed,
};
use serde_json::Value;

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

/// Plan of the space inside the header tank below its cut: 320 mm and 180 mm less two sheets of 2 mm.
const INSIDE_PLAN_M2: f64 = 0.316 * 0.176;
/// The same space to the brim, by plane geometry: the cut's plane `0.8 y + 0.6 z = 204 mm` moves in by
/// its 2 mm sheet, which leaves a triangle with legs of 44 mm and 176/3 mm out of 176 mm by 156 mm.
const INSIDE_M3: f64 = 0.316 * (0.176 * 0.156 - 0.5 * 0.044 * 0.176 / 3.0);

/// Readings and volumes of a chart as `dip --json` gives them.
fn marks(chart: &Value) -> Vec<(f64, f64)> {
    let one = |mark: &Value| (mark[0].as_f64().unwrap(), mark[1].as_f64().unwrap());
    chart["marks"].as_array().unwrap().iter().map(one).collect()
}

#[test]
fn dip_by_volume_at_a_place() {
    let folder = tempfile::tempdir().unwrap();
    let place = "[fill]\ndip_at = [\"160 mm\", \"90 mm\"]\n";
    let job = example_text("header-tank").replacen("[fill]\n", place, 1);
    fs::write(folder.path().join("tank.toml"), job).unwrap();
    let dip = |more: &[&str]| {
        let arguments = [&["dip", "tank.toml", "--volume", "0.5 L"], more].concat();
        let output = run(folder.path(), &arguments);
        assert!(output.status.success(), "{}", told(&output));
        String::from_utf8(output.stdout).unwrap()
    };
    let chart: Value = serde_json::from_str(&dip(&["--json"])).unwrap();
    assert_eq!(chart["at_m"], serde_json::json!([0.16, 0.09]));
    let level = marks(&chart);
    assert!(level.len() >= 17, "{level:?}");
    for (number, (reading, volume)) in (0..).zip(&level).take(17) {
        assert!((volume - 5e-4 * f64::from(number)).abs() < 1e-9);
        // Below 97.3 mm, where the cut begins inside, it is a box: depth is volume by area.
        if *volume > 0.0 && *volume / INSIDE_PLAN_M2 < 0.097 {
            assert!(
                (reading - volume / INSIDE_PLAN_M2).abs() < 1e-6,
                "{reading} m for {volume} m3"
            );
        }
    }
    // Over the middle of the floor a level surface cuts the rod at the mean depth of the liquid,
    // whatever the lean, as long as it covers the floor and stays below the top.
    let leaning: Value = serde_json::from_str(&dip(&["--pitch", "5°", "--json"])).unwrap();
    let mut checked = 0;
    for (reading, volume) in marks(&leaning) {
        let mean = volume / INSIDE_PLAN_M2;
        if (0.02..0.08).contains(&mean) {
            assert!((reading - mean).abs() < 1e-6, "{reading} m for {volume} m3");
            checked += 1;
        }
    }
    assert!(checked >= 5, "{leaning}");
    insta::assert_snapshot!("dip-by-volume-at-a-place", dip(&["--units", "metric"]));
    insta::assert_snapshot!(
        "dip-by-volume-at-a-place-leaning-us",
        dip(&["--pitch", "5°", "--units", "us"])
    );
}

#[test]
fn dips_refused() {
    let header = path("header-tank");
    let mut all = String::new();
    for arguments in [
        &["--volume", "0.5"][..],
        &["--volume", "0.5 gal"],
        &["--volume", "0 L"],
        &["--volume", "1 mL"],
        &["--every", "0.01 mm"],
        &["--every=-5 mm"],
        &["--every", "0 mm"],
        &["--volume=-1 L"],
        &["--pitch", "95°"],
    ] {
        let output = seamwright(&[&["dip", &header], arguments].concat())
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
    insta::assert_snapshot!("dips-refused", all);
}

#[test]
fn a_dip_chart_by_volume_from_the_lowest_point_ends_at_the_brim() {
    // Without a rod: 220 mm by 120 mm by 100 mm inside holds 2.64 L, which is no whole multiple of 0.5 L and
    // eleven of 0.24 L, by the product of its sides.
    let folder = tempfile::tempdir().unwrap();
    let job = format!(
        "{NAME}[shape]\nkind = \"block\"\nsized = \"inside\"\nlength = \"220 mm\"\nwidth = \"120 mm\"\nheight = \"100 mm\"\n{STOCK}"
    );
    fs::write(folder.path().join("tank.toml"), job).unwrap();
    for (step, litres, count) in [("0.5 L", 0.5, 7), ("0.24 L", 0.24, 12), ("9 L", 9.0, 2)] {
        let output = run(
            folder.path(),
            &["dip", "tank.toml", "--volume", step, "--json"],
        );
        let chart: Value = serde_json::from_slice(&output.stdout).unwrap();
        let marks = chart["marks"].as_array().unwrap();
        assert_eq!(marks.len(), count, "{step}: {marks:?}");
        for (mark, number) in marks.iter().zip(0_u8..) {
            let [reading, volume] = [0, 1].map(|at| mark[at].as_f64().unwrap());
            let wanted = (f64::from(number) * litres * 1e-3).min(2.64e-3);
            assert!((volume - wanted).abs() < 1e-12, "{step}: {mark}");
            assert!((reading - volume / 0.0264).abs() < 1e-9, "{step}: {mark}");
        }
    }
}

#[test]
fn solve_for_a_height() {
    let header = path("header-tank");
    let answer = object(&[
        "solve", &header, "--for", "height", "--usable", "5.5 L", "--json",
    ]);
    // The cut keeps its place under the top, so every added millimetre adds the same slice. Of the
    // brim, 20 % is headspace, and 12 mm stay under the pick-up.
    let under = INSIDE_PLAN_M2 * 0.012;
    let height = 0.160 + ((5.5e-3 + under) / 0.8 - INSIDE_M3) / INSIDE_PLAN_M2;
    let value = answer["value_m"].as_f64().unwrap();
    assert!((value - height).abs() < 1e-6, "{value} m, not {height} m");
    assert!((answer["holds_m3"].as_f64().unwrap() - 5.5e-3).abs() < 1e-9);
    assert_eq!(answer["of"], "usable");
    assert_eq!(answer["was_m"], 0.16);
    let mut all = String::new();
    for arguments in [
        &["--for", "height", "--usable", "5.5 L"][..],
        &["--for", "cut 1 leg 2", "--brim", "8 L"],
        &["--for", "length", "--fill", "2 US gal", "--units", "us"],
    ] {
        let told = good(&[&["solve", &header], arguments].concat());
        all.push_str(&format!("{}\n  {told}", arguments.join(" ")));
    }
    insta::assert_snapshot!("solves", all);
}

#[test]
fn solves_refused() {
    let header = path("header-tank");
    let mut all = String::new();
    for arguments in [
        &["--for", "height", "--usable", "2000 L"][..],
        &["--for", "height", "--brim", "0.1 L"],
        &["--for", "diameter", "--usable", "5 L"],
        &["--for", "cut 2 leg 1", "--usable", "5 L"],
        &["--for", "heigth", "--usable", "5 L"],
        &["--for", "height", "--usable", "5"],
        &["--for", "height", "--usable", "0 L"],
        &["--for", "length", "--brim=-2 L"],
        &["--for", "height"],
    ] {
        let output = seamwright(&[&["solve", &header], arguments].concat())
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
    // A target past all reach tells what can be reached, and at which heights.
    assert!(all.contains("it can hold from "), "{all}");
    insta::assert_snapshot!("solves-refused", all);
}

#[test]
fn sheet_writes_its_files() {
    let folder = tempfile::tempdir().unwrap();
    let job = path("header-tank");
    let output = run(folder.path(), &["sheet", &job, "--out", "new/patterns"]);
    assert!(output.status.success(), "{}", told(&output));
    let out = folder.path().join("new/patterns");
    let mut names: Vec<String> = fs::read_dir(&out)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    // What it says it wrote is what is there.
    let mut told: Vec<String> = String::from_utf8(output.stdout)
        .unwrap()
        .lines()
        .map(|line| {
            assert!(folder.path().join(line).is_file(), "{line}");
            line.rsplit('/').next().unwrap().to_owned()
        })
        .collect();
    told.sort();
    assert_eq!(told, names);
    let plan = object(&["plan", &job, "--json"]);
    let panels = plan["panels"].as_array().unwrap();
    assert_eq!(panels.len(), 7);
    for panel in panels {
        let mark = panel["mark"].as_str().unwrap();
        let text = |ending| fs::read_to_string(out.join(format!("panel-{mark}.{ending}"))).unwrap();
        // Each by a reader of its own, made by others.
        let picture = text("svg");
        let svg = roxmltree::Document::parse(&picture).unwrap();
        let root = svg.root_element();
        assert_eq!(root.tag_name().name(), "svg", "{mark}");
        // A true size has a unit.
        assert!(root.attribute("width").unwrap().ends_with("mm"), "{mark}");
        let dxf = dxf::Drawing::load(&mut text("dxf").as_bytes()).unwrap();
        assert!(dxf.entities().count() > 0, "{mark}");
        assert_eq!(
            dxf.header.default_drawing_units,
            dxf::enums::Units::Millimeters,
            "{mark}"
        );
    }
    // Patterns on paper, whole (every PDF begins and ends so: ISO 32000-1, 7.5), and the job page.
    let paper = fs::read(out.join("patterns.pdf")).unwrap();
    assert!(paper.starts_with(b"%PDF-") && paper.trim_ascii_end().ends_with(b"%%EOF"));
    let page = fs::read_to_string(out.join("job.html")).unwrap();
    assert!(page.contains("Header tank, heating loop of a canal boat"));
    let stick = lopdf::Document::load(out.join("dipstick.pdf")).unwrap();
    assert_eq!(stick.get_pages().len(), 1);
    // A folder that cannot be made is no fault of the job.
    fs::write(folder.path().join("taken"), "").unwrap();
    let output = run(folder.path(), &["sheet", &job, "--out", "taken"]);
    assert_eq!(output.status.code(), Some(1));
    let complaint = String::from_utf8(output.stderr).unwrap();
    assert!(complaint.contains("taken cannot be written"), "{complaint}");
    assert!(complaint.contains("--out"), "{complaint}");
    // A job that cannot be read leaves nothing behind.
    let output = run(folder.path(), &["sheet", "gone.toml", "--out", "none"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(!folder.path().join("none").exists());
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
        (&["dip", &header], 0),
        (&["dip", &header, "--every", "5 mm", "--volume", "1 L"], 2),
        (&["solve", &header, "--usable", "5 L"], 2),
        (&["sheet", &header], 2),
        (&["leak", &header], 0),
        (&["leak", &header, "--rule", "boats"], 2),
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
