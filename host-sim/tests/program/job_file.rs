//! `docs/job-file.md` against the program: its keys are the schema's, its ranges and sources are what
//! the program keeps and tells, and its examples do what it says of them.

use std::collections::{BTreeMap, BTreeSet};

use crate::support::{NAME, SHAPE, STOCK};
use seamwright::diagnostics::Source;
use seamwright::failure::Failure;
use seamwright::job_file::JobFile;
use seamwright::job_file::schema::{Key, Kind, TABLES};
use seamwright_core::tables::{Alloy, Temper};
use seamwright_core::tank::{Assumed, Tank};

const DOCUMENT: &str = include_str!("../../docs/job-file.md");

/// The document without line breaks inside its sentences.
fn flowing() -> String {
    DOCUMENT.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn read(text: &str) -> Result<JobFile, Failure> {
    JobFile::read(Source {
        name: "tank.toml".into(),
        text: text.into(),
    })
}

fn planned_tank(text: &str) -> (Tank, Vec<Assumed>) {
    let mut assumed = Vec::new();
    let file = read(text).unwrap_or_else(|failure| panic!("{failure}\n{text}"));
    let tank = file
        .tank(|one| assumed.push(one))
        .unwrap_or_else(|failure| panic!("{failure}\n{text}"));
    (tank, assumed)
}

/// A row of the tables of keys.
#[derive(Debug)]
struct Row {
    table: String,
    key: String,
    value: String,
    given: String,
    range: String,
    default: String,
}

impl Row {
    fn path(&self) -> String {
        if self.table.is_empty() {
            self.key.clone()
        } else {
            format!("{}.{}", self.table, self.key)
        }
    }
}

fn rows() -> Vec<Row> {
    let (mut table, mut rows) = (None, Vec::new());
    for line in DOCUMENT.lines() {
        if let Some(heading) = line.strip_prefix("### ") {
            let name = heading.trim_matches('`').trim_matches(['[', ']']);
            table = Some(if heading == "Top of the file" {
                String::new()
            } else {
                name.to_owned()
            });
        } else if line.starts_with("## ") {
            table = None;
        } else if let (Some(table), Some(cells)) = (&table, line.strip_prefix("| `")) {
            let cells: Vec<&str> = cells
                .trim_end_matches('|')
                .split('|')
                .map(str::trim)
                .collect();
            let [key, value, given, range, default] = cells[..] else {
                panic!("five columns: {line}")
            };
            rows.push(Row {
                table: table.clone(),
                key: key.trim_matches('`').to_owned(),
                value: value.to_owned(),
                given: given.to_owned(),
                range: range.to_owned(),
                default: default.to_owned(),
            });
        }
    }
    rows
}

fn given(key: &Key) -> &'static str {
    if key.required { "required" } else { "optional" }
}

#[test]
fn the_documented_keys_are_the_schema_s() {
    let documented: Vec<_> = rows()
        .into_iter()
        .map(|row| (row.path(), row.given))
        .collect();
    let unique: BTreeSet<_> = documented.iter().cloned().collect();
    assert_eq!(unique.len(), documented.len(), "a key is documented twice");
    let schema: BTreeSet<_> = TABLES
        .iter()
        .flat_map(|table| {
            table
                .keys
                .iter()
                .map(|key| (table.path_of(key.name), given(key).to_owned()))
        })
        .collect();
    assert_eq!(unique, schema);
    assert_eq!(unique.len(), 154);
}

#[test]
fn the_documented_kinds_are_the_schema_s() {
    let rows = rows();
    for table in TABLES {
        for key in table.keys {
            let path = table.path_of(key.name);
            let row = rows.iter().find(|row| row.path() == path).unwrap();
            let starts: &[&str] = match key.kind {
                Kind::Text => &["text"],
                Kind::Word => &["word"],
                Kind::Quantity(_) => &[
                    "length",
                    "volume",
                    "current",
                    "voltage",
                    "speed",
                    "share",
                    "angle",
                    "temperature",
                    "time",
                    "pressure",
                ],
                Kind::Quantities(..)
                | Kind::Numbers(..)
                | Kind::Points
                | Kind::Names(_)
                | Kind::Edges(_)
                | Kind::FaceList(_) => &["list"],
                Kind::Number(_) => &["number"],
                Kind::Faces(_) => &["two faces", "three faces"],
                Kind::Table => &["table"],
                Kind::Tables => &["tables"],
                Kind::Measure(_) => &["frequency", "flow", "feed", "mass", "share"],
            };
            assert!(
                starts.iter().any(|start| row.value.starts_with(start)),
                "{path}: {}",
                row.value
            );
            if matches!(key.kind, Kind::Quantity(_) | Kind::Measure(_)) {
                assert!(row.range.contains(" to "), "{path} has no range");
            }
        }
    }
}

fn lines(keys: &BTreeMap<&str, String>) -> String {
    keys.iter()
        .map(|(key, value)| format!("{key} = {value}\n"))
        .collect()
}

/// The job with a quantity put in its place.
fn job_with(row: &Row, quantity: &str) -> String {
    let value = format!("\"{quantity}\"");
    let line = format!("{} = {value}\n", row.key);
    match (row.table.as_str(), row.key.as_str()) {
        ("shape", key @ ("base" | "top" | "shift")) => {
            let mut keys = BTreeMap::from([
                ("base", "[\"400 mm\", \"300 mm\"]".to_owned()),
                ("top", "[\"400 mm\", \"300 mm\"]".to_owned()),
                ("height", "\"200 mm\"".to_owned()),
            ]);
            keys.insert(key, format!("[{value}, \"300 mm\"]"));
            format!("{NAME}[shape]\nkind = \"taper\"\n{}{STOCK}", lines(&keys))
        }
        ("shape", key @ ("diameter" | "crown" | "knuckle")) => {
            let mut keys = BTreeMap::from([
                ("diameter", "\"200 mm\"".to_owned()),
                ("length", "\"300 mm\"".to_owned()),
                ("axis", "\"lying\"".to_owned()),
                ("ends", "\"torispherical\"".to_owned()),
                ("crown", "\"200 mm\"".to_owned()),
                ("knuckle", "\"20 mm\"".to_owned()),
            ]);
            keys.insert(key, value);
            format!("{NAME}[shape]\nkind = \"drum\"\n{}{STOCK}", lines(&keys))
        }
        ("fitting", key) => {
            let mut keys = BTreeMap::from([
                ("name", "\"bung\"".to_owned()),
                ("face", "\"top\"".to_owned()),
                ("at", "[\"90 mm\", \"60 mm\"]".to_owned()),
                ("bore", "\"12 mm\"".to_owned()),
            ]);
            let value = if key == "at" {
                format!("[{value}, \"60 mm\"]")
            } else {
                value
            };
            keys.insert(key, value);
            format!("{NAME}{SHAPE}{STOCK}[[fitting]]\n{}", lines(&keys))
        }
        ("baffle", key) => {
            let mut keys = BTreeMap::from([
                ("across", "\"length\"".to_owned()),
                ("at", "\"100 mm\"".to_owned()),
            ]);
            // These two come together.
            if key.starts_with("weld_") {
                keys.insert("weld_length", "\"40 mm\"".to_owned());
                keys.insert("weld_gap", "\"60 mm\"".to_owned());
            }
            if key == "flange" {
                keys.insert("flanged", "[\"bottom\"]".to_owned());
            } else if key.starts_with("flange") {
                keys.insert("flange", "\"20 mm\"".to_owned());
            }
            keys.insert(key, value);
            format!("{NAME}{SHAPE}{STOCK}[[baffle]]\n{}", lines(&keys))
        }
        ("baffle.hole", key) => {
            let mut keys = BTreeMap::from([
                ("at", "[\"60 mm\", \"60 mm\"]".to_owned()),
                ("diameter", "\"10 mm\"".to_owned()),
            ]);
            let value = if key == "at" {
                format!("[{value}, \"60 mm\"]")
            } else {
                value
            };
            keys.insert(key, value);
            let baffle = "[[baffle]]\nacross = \"length\"\nat = \"100 mm\"\n[[baffle.hole]]\n";
            format!("{NAME}{SHAPE}{STOCK}{baffle}{}", lines(&keys))
        }
        ("fill", key @ ("pick_up_at" | "dip_at")) => {
            format!("{NAME}{SHAPE}{STOCK}[fill]\n{key} = [{value}, \"60 mm\"]\n")
        }
        ("stock", "coating_removed") => {
            format!("{NAME}{SHAPE}{STOCK}coating = \"painted\"\n{line}")
        }
        ("arc", "wire" | "wire_feed" | "stick_out") => {
            format!("{NAME}{SHAPE}{STOCK}\n[arc]\nprocess = \"mag\"\n{line}")
        }
        ("supply", "spool") => {
            format!("{NAME}{SHAPE}{STOCK}\n[arc]\nprocess = \"mag\"\n[supply]\n{line}")
        }
        ("shape" | "stock", key) => {
            let job = format!("{NAME}{SHAPE}{STOCK}");
            let old = job
                .lines()
                .find(|l| l.starts_with(&format!("{key} = ")))
                .unwrap();
            job.replace(&format!("{old}\n"), &line)
        }
        ("shape.cut", "legs") => format!(
            "{NAME}{SHAPE}\n[[shape.cut]]\nedge = \"top back\"\nlegs = [{value}, \"20 mm\"]\n{STOCK}"
        ),
        ("shape.cut", "through") => format!(
            "{NAME}{SHAPE}\n[[shape.cut]]\nnormal = [0, 1, 1]\nthrough = [\"0 mm\", {value}, \"160 mm\"]\n{STOCK}"
        ),
        ("arc.power_source" | "arc.torch", key) => {
            let mut keys = BTreeMap::from([
                ("current", "\"150 A\"".to_owned()),
                ("duty", "\"35 %\"".to_owned()),
            ]);
            keys.insert(key, value);
            format!("{NAME}{SHAPE}{STOCK}\n[[{}]]\n{}", row.table, lines(&keys))
        }
        ("arc.negative" | "arc.positive", key) => {
            let usual = BTreeMap::from([
                ("current", "\"90 A\"".to_owned()),
                ("voltage", "\"13 V\"".to_owned()),
            ]);
            let mut own = usual.clone();
            own.insert(key, value);
            let half = |name: &str| {
                let keys = if row.table == name { &own } else { &usual };
                format!("[{name}]\n{}", lines(keys))
            };
            let halves = half("arc.negative") + &half("arc.positive");
            format!("{NAME}{SHAPE}{STOCK}\n[arc]\nbalance = \"70 %\"\n{halves}")
        }
        ("arc", "frequency") => {
            format!("{NAME}{SHAPE}{STOCK}\n[arc]\nbalance = \"70 %\"\n{line}")
        }
        ("supply", "cylinder_pressure") => {
            format!("{NAME}{SHAPE}{STOCK}\n[supply]\ncylinder = \"20 L\"\n{line}")
        }
        ("fill", "target") => format!("{NAME}{SHAPE}{STOCK}\n[fill]\n{line}"),
        (table, _) => format!("{NAME}{SHAPE}{STOCK}\n[{table}]\n{line}"),
    }
}

/// Whether the program finds this very quantity out of its range.
fn out_of_range(row: &Row, quantity: &str) -> bool {
    let job = job_with(row, quantity);
    // What is not of the tank is checked as it is read.
    match read(&job).and_then(|file| file.tank(|_| ())) {
        Ok(_) => false,
        Err(failure) => {
            let Failure::Problems(report) = &failure else {
                panic!("{failure}")
            };
            let problem = &report.problems()[0];
            // At the value, or at the list or the hole that it stands in.
            let told = job.get(problem.span.clone()).unwrap_or_default();
            let at_it = told.contains(&format!("\"{quantity}\""));
            at_it && (problem.title.ends_with("too large") || problem.title.ends_with("too small"))
        }
    }
}

#[test]
fn the_documented_ranges_are_kept() {
    let mut checked = 0;
    for row in rows() {
        let Some((least, most)) = row.range.split_once(" to ") else {
            continue;
        };
        let number = |text: &str| {
            let (number, unit) = text.split_once(' ')?;
            Some((number.parse::<f64>().ok()?, unit.to_owned()))
        };
        let (Some((low, low_unit)), Some((high, high_unit))) = (number(least), number(most)) else {
            continue;
        };
        for end in [least, most] {
            assert!(!out_of_range(&row, end), "{} refuses {end}", row.path());
        }
        let below = if low == 0.0 {
            -0.001
        } else {
            low - low.abs() * 0.001
        };
        for past in [
            format!("{below} {low_unit}"),
            format!("{} {high_unit}", high * 1.001),
        ] {
            assert!(out_of_range(&row, &past), "{} takes {past}", row.path());
        }
        checked += 1;
    }
    assert_eq!(checked, 76);
}

#[test]
fn every_default_is_documented_with_its_source() {
    let rows = rows();
    let document = flowing();
    let mut seen = BTreeSet::new();
    for (alloy, thickness) in [
        ("5754", "2 mm"),
        ("5754", "8 mm"),
        ("304L", "2 mm"),
        ("304L", "8 mm"),
        ("low-carbon steel", "2 mm"),
        ("low-carbon steel", "8 mm"),
        ("low-carbon steel", "1 mm"),
    ] {
        let stock = format!("[stock]\nalloy = \"{alloy}\"\nthickness = \"{thickness}\"\n");
        let (_, assumed) = planned_tank(&format!("{NAME}{SHAPE}{stock}"));
        for one in assumed {
            let field = one.field().to_string();
            assert!(
                document.contains(one.source()),
                "{field}: {} is not in the document",
                one.source()
            );
            let row = rows.iter().find(|row| row.path() == field).unwrap();
            assert!(
                !row.default.is_empty(),
                "{field} has no default in the document"
            );
            seen.insert(field);
        }
    }
    assert_eq!(seen.len(), 13);
    // The value of a default stands there too, where it is one value.
    let (_, assumed) = planned_tank(&format!("{NAME}{SHAPE}{STOCK}"));
    for one in assumed {
        let field = one.field().to_string();
        if [
            "joints.default",
            "fill.headspace",
            "arc.efficiency",
            "weld.stitch_max",
        ]
        .contains(&field.as_str())
        {
            let row = rows.iter().find(|row| row.path() == field).unwrap();
            assert!(
                row.default.contains(&one.to_string()),
                "{field}: {} is not {one}",
                row.default
            );
        }
    }
}

#[test]
fn the_lists_of_words_are_complete() {
    let list = |start: &str| -> BTreeSet<String> {
        let from = DOCUMENT.find(start).unwrap();
        let paragraph = DOCUMENT[from..].split("\n\n").next().unwrap();
        paragraph
            .split('`')
            .skip(1)
            .step_by(2)
            .map(str::to_owned)
            .collect()
    };
    let alloys = list("Alloys: ");
    for alloy in Alloy::ALL {
        assert!(alloys.contains(alloy.name()), "{alloy}");
    }
    for name in alloys.iter().filter(|name| *name != "EN AW-") {
        name.parse::<Alloy>()
            .unwrap_or_else(|_| panic!("{name} is no alloy"));
    }
    let tempers: BTreeSet<String> = Temper::ALL.iter().map(ToString::to_string).collect();
    assert_eq!(list("Tempers: "), tempers);
}

/// A fenced block: what follows the language on its first line, and its text.
fn blocks(language: &str) -> Vec<(String, String)> {
    let mut blocks = Vec::new();
    let mut lines = DOCUMENT.lines();
    while let Some(line) = lines.next() {
        let Some(info) = line.strip_prefix("```") else {
            continue;
        };
        let text: String = lines
            .by_ref()
            .take_while(|line| *line != "```")
            .map(|line| format!("{line}\n"))
            .collect();
        if let Some(about) = info.strip_prefix(language) {
            blocks.push((about.trim().to_owned(), text));
        }
    }
    blocks
}

/// The document's complete example, its tables replaced by those of a part.
fn with_part(part: &str) -> String {
    let whole = &blocks("toml")[0].1;
    let mut job: toml::Table = toml::from_str(whole).unwrap();
    for (name, mut value) in toml::from_str::<toml::Table>(part).unwrap() {
        let cut = value
            .as_table_mut()
            .and_then(|table| (table.len() == 1).then(|| table.remove("cut")).flatten());
        match cut {
            // `[[shape.cut]]` alone leaves the rest of the shape as it is.
            Some(cut) => {
                job["shape"]
                    .as_table_mut()
                    .unwrap()
                    .insert("cut".into(), cut);
            }
            None => {
                job.insert(name, value);
            }
        }
    }
    toml::to_string(&job).unwrap()
}

#[test]
fn the_examples_do_what_the_document_says() {
    let (mut jobs, mut parts, mut wrong) = (0, 0, 0);
    for (about, text) in blocks("toml") {
        match about.split_once(' ').unwrap_or((&about, "")) {
            ("job", "") => {
                jobs += 1;
                let (tank, _) = planned_tank(&text);
                let capacity = tank.capacity();
                let document = flowing();
                for volume in [
                    tank.body().outside.volume(),
                    capacity.brim,
                    capacity.fill,
                    capacity.usable,
                ] {
                    let litres = format!("{:.3} L", volume.si() * 1e3);
                    assert!(
                        document.contains(&litres),
                        "{litres} is not in the document"
                    );
                }
            }
            ("part", says) => {
                parts += 1;
                let (tank, _) = planned_tank(&with_part(&text));
                if !says.is_empty() {
                    let brim = tank.capacity().brim.si() * 1e3;
                    assert_eq!(says, format!("brim {brim:.6} L"), "{text}");
                }
            }
            ("wrong", message) => {
                wrong += 1;
                let failure = read(&with_part(&text)).unwrap_err();
                assert!(
                    failure
                        .to_string()
                        .starts_with(&format!("error: {message}\n")),
                    "{failure}"
                );
                assert_eq!(failure.exit_code(), 2);
            }
            _ => panic!("a block of TOML that nothing is said about: {about}"),
        }
    }
    assert_eq!((jobs, parts, wrong), (1, 19, 4));
}

#[test]
fn the_message_shown_is_the_program_s() {
    let shown = &blocks("text")[0].1;
    let whole = &blocks("toml")[0].1;
    let failure = read(&whole.replacen("\"300 mm\"", "300", 1))
        .unwrap_err()
        .to_string();
    assert!(failure.starts_with(shown.as_str()), "{failure}");
}
