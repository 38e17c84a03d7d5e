//! Every row of `data` is used by its name and stands on the page of checks, or stands here with the reason why not.
//!
//! A lookup takes a name that is written out (`checks::geometry("…")` wants a `&'static str`), so a row that no
//! string of the checks names is a row that nothing is held to.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use seamwright_tests::checks::rows;

use super::lexer::{Kind, words};

/// Files whose rows are asked for one by one.
const BY_NAME: [&str; 2] = ["geometry/checks.json", "welding/checks.json"];

/// Files of which a check goes through every row, with that check's file and a name that stands in it.
const WHOLE: [(&str, &str, &str); 3] = [
    (
        "quantity/checks.json",
        "geometry/quantity/checks.rs",
        "every_gathered_figure_agrees",
    ),
    (
        "geometry/geometry.json",
        "geometry/bodies.rs",
        "every_reference_tank_comes_out",
    ),
    (
        "geometry/geometry.json",
        "geometry/program.rs",
        "every_reference_tank_comes_out_of_the_program",
    ),
];

/// Rows that nothing of ours can be held to, and why.
const UNUSED: [(&str, &str); 45] = [
    (
        "T3.t85.Q1.T20.d10",
        "no figure is the cooling time of steel from 800 to 500 °C: in sheet it never hardens a seam",
    ),
    (
        "T3.t85.Q1.T20.d20",
        "no figure is the cooling time of steel from 800 to 500 °C: in sheet it never hardens a seam",
    ),
    (
        "T3.t85.Q1.5.T100.d12",
        "no figure is the cooling time of steel from 800 to 500 °C: in sheet it never hardens a seam",
    ),
    (
        "T3.t85.Q2.T150.d30",
        "no figure is the cooling time of steel from 800 to 500 °C: in sheet it never hardens a seam",
    ),
    (
        "T3.AWS.Tp3",
        "no figure is how fast a seam cools or how hot a place beside it gets: the sheet in passing is told by its reach",
    ),
    (
        "T3.AWS.HAZ730",
        "no figure is how fast a seam cools or how hot a place beside it gets: the sheet in passing is told by its reach",
    ),
    (
        "T3.AWS.HAZ430",
        "no figure is how fast a seam cools or how hot a place beside it gets: the sheet in passing is told by its reach",
    ),
    (
        "T3.cool.thick",
        "no figure is how fast a seam cools or how hot a place beside it gets: the sheet in passing is told by its reach",
    ),
    ("T3.AWS.St", "no figure is the time in which a melt freezes"),
    (
        "T3.NPTEL.St",
        "no figure is the time in which a melt freezes",
    ),
    (
        "cone-frustum",
        "no tank is a cone: the closest, a taper, has four plane walls",
    ),
    (
        "dodeca",
        "twelve faces, none square to another, need twelve cuts, and a block takes eight",
    ),
    ("jones-horiz_conical", "no end of a drum is a cone"),
    ("jones-horiz_guppy", "no end of a drum slants"),
    ("jones-vertical_conical", "no end of a drum is a cone"),
    (
        "slosh-f1",
        "the liquid is taken to move with the tank: no figure is a frequency",
    ),
    (
        "capillary",
        "no figure is the rise of a liquid in a narrow tube",
    ),
    ("T1.k.MIG_MMA", "TIG is the only process that is planned"),
    ("T1.k.SAW", "TIG is the only process that is planned"),
    (
        "T9.argon.rho",
        "gas is counted in litres at 15 °C and one atmosphere: no figure is its density",
    ),
    ("T2.bhaz.MIG", "TIG is the only process that is planned"),
    (
        "T2.Al.cp298",
        "no figure is the heat capacity of hot metal: a plan takes that of the cold",
    ),
    (
        "T2.Al.dH",
        "no figure is the heat capacity of hot metal: a plan takes that of the cold",
    ),
    (
        "T2.alpha2",
        "no figure is the width of the softened strip: what a wall keeps beside its seam is",
    ),
    (
        "T2.bhaz.TIG",
        "no figure is the width of the softened strip: what a wall keeps beside its seam is",
    ),
    (
        "T2.ss.EN1993-1-2.20",
        "no figure is a property of hot metal: a plan takes those of the cold",
    ),
    (
        "T2.ss.EN1993-1-2.400",
        "no figure is a property of hot metal: a plan takes those of the cold",
    ),
    (
        "T2.steel.EN1993-1-2.20",
        "no figure is a property of hot metal: a plan takes those of the cold",
    ),
    (
        "T2.steel.EN1993-1-2.200",
        "no figure is a property of hot metal: a plan takes those of the cold",
    ),
    (
        "T2.steel.EN1993-1-2.400",
        "no figure is a property of hot metal: a plan takes those of the cold",
    ),
    ("T4.CE", "the mill's composition is no input of a job"),
    (
        "plate-open-top-0.5-CFCC",
        "no job has an open top: no wall is a plate with a free edge",
    ),
    (
        "plate-open-top-0.5-SFSS",
        "no job has an open top: no wall is a plate with a free edge",
    ),
    (
        "plate-open-top-1-CFCC",
        "no job has an open top: no wall is a plate with a free edge",
    ),
    (
        "plate-open-top-1.5-CFCC",
        "no job has an open top: no wall is a plate with a free edge",
    ),
    (
        "plate-open-top-1.5-SFSS",
        "no job has an open top: no wall is a plate with a free edge",
    ),
    (
        "plate-open-top-2-CFCC",
        "no job has an open top: no wall is a plate with a free edge",
    ),
    (
        "T1.pulsedDC",
        "no arc of a plan is pulsed: the wave of a job is a square one of alternating current",
    ),
    (
        "T1.sine_square_pf",
        "no arc of a plan is a sine: the wave of a job is a square one",
    ),
    (
        "T6.blodgett.ang",
        "no figure is the lift of a flange beside a fillet",
    ),
    (
        "T6.TWI",
        "no figure is a rule of thumb for steel without a section or a leg",
    ),
    (
        "T8.AWS.155",
        "no figure is the current for a duty cycle: a plan asks for the share at the job's own current",
    ),
    (
        "T8.tau",
        "no figure is the duty cycle of a machine that warms fast: no job tells its time constant",
    ),
    ("bubble-1", "no figure is the time between bubbles of soap"),
    ("bubble-3", "no figure is the time between bubbles of soap"),
];

fn tests() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests")
}

/// Every source below a folder.
fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|end| end == "rs") {
            found.push(path);
        }
    }
}

/// What the strings of the checks say, but for this program's own.
fn named() -> BTreeSet<String> {
    let mut files = Vec::new();
    sources(&tests(), &mut files);
    files.retain(|file| !file.starts_with(tests().join("layout")));
    let mut all = BTreeSet::new();
    for file in files {
        let found = words(&std::fs::read_to_string(file).unwrap());
        let texts = found.into_iter().filter(|word| word.kind == Kind::Text);
        all.extend(texts.map(|word| word.text));
    }
    all
}

/// What is wrong with how these rows are used.
fn faults(rows: &[String], named: &BTreeSet<String>, unused: &BTreeMap<&str, &str>) -> Vec<String> {
    let mut faults = Vec::new();
    for (n, row) in rows.iter().enumerate() {
        if rows[..n].contains(row) {
            faults.push(format!("{row}: there are two of that name"));
        }
        match (named.contains(row), unused.get(row.as_str())) {
            (false, None) => faults.push(format!("{row}: no check names it")),
            (true, Some(reason)) => faults.push(format!("{row} is used, and listed: {reason}")),
            (false, Some(reason)) if reason.len() < 10 => {
                faults.push(format!("{row}: that is no reason: {reason}"));
            }
            _ => {}
        }
    }
    for row in unused.keys() {
        if !rows.iter().any(|own| own == row) {
            faults.push(format!("{row}: listed, and there is no such row"));
        }
    }
    faults
}

#[test]
fn every_reference_row_is_used_or_listed() {
    let mut all = Vec::new();
    for file in BY_NAME {
        for row in rows(file) {
            all.push(row["id"].as_str().unwrap().to_owned());
        }
    }
    let faults = faults(&all, &named(), &UNUSED.into_iter().collect());
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// What is wrong with how these rows stand on the page of checks.
fn off_page(rows: &[String], page: &str, unused: &BTreeMap<&str, &str>) -> Vec<String> {
    let mut faults = Vec::new();
    for row in rows {
        match (
            page.contains(&format!("`{row}`")),
            unused.contains_key(row.as_str()),
        ) {
            (false, false) => faults.push(format!("{row}: not on the page of checks")),
            (true, true) => faults.push(format!("{row} is on the page, and listed as unused")),
            _ => {}
        }
    }
    faults
}

/// The page is what the checks tell (`seamwright_tests::published::page`): a row that is not on it is one whose check no
/// `page.rs` lists, or that its check holds to nothing.
#[test]
fn every_reference_row_is_on_the_page_or_listed() {
    let page = std::fs::read_to_string(seamwright_tests::published::page::path()).unwrap();
    let mut all = Vec::new();
    for file in BY_NAME.into_iter().chain(["quantity/checks.json"]) {
        for row in rows(file) {
            all.push(row["id"].as_str().unwrap().to_owned());
        }
    }
    let faults = off_page(&all, &page, &UNUSED.into_iter().collect());
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn rows_that_are_off_the_page_are_told() {
    let rows = ["told", "untold", "idle", "both"].map(str::to_owned);
    let page = "| A figure `told` |\n| Another `both` |\n| untold |";
    let unused = [("idle", "nothing"), ("both", "nothing")];
    let faults = off_page(&rows, page, &unused.into_iter().collect());
    let wanted = [
        "untold: not on the page of checks",
        "both is on the page, and listed as unused",
    ];
    assert_eq!(faults, wanted);
}

#[test]
fn every_file_of_rows_is_known() {
    let data = Path::new(env!("CARGO_MANIFEST_DIR")).join("data");
    for folder in std::fs::read_dir(&data).unwrap() {
        for file in std::fs::read_dir(folder.unwrap().path()).unwrap() {
            let path = file.unwrap().path();
            if path.extension().is_some_and(|end| end == "json") {
                let name = path
                    .strip_prefix(&data)
                    .unwrap()
                    .to_str()
                    .unwrap()
                    .to_owned();
                let known = BY_NAME.contains(&name.as_str())
                    || WHOLE.iter().any(|(file, ..)| *file == name);
                assert!(known, "{name}: nothing says how its rows are used");
            }
        }
    }
    for (file, by, test) in WHOLE {
        let found = words(&std::fs::read_to_string(tests().join(by)).unwrap());
        assert!(
            found.iter().any(|word| word.is_name(test)),
            "{file}: {by} has no {test}"
        );
    }
}

#[test]
fn rows_that_nobody_uses_are_told() {
    let rows = ["used", "idle", "forgotten", "both", "twice", "twice"].map(str::to_owned);
    let named = ["used", "both", "twice"].map(str::to_owned).into();
    let unused = [
        ("idle", "nothing of ours is like it"),
        ("both", "nothing of ours is like it"),
        ("gone", "nothing of ours is like it"),
    ];
    let told = faults(&rows, &named, &unused.into_iter().collect());
    let of = |row: &str| told.iter().filter(|fault| fault.starts_with(row)).count();
    assert_eq!(told.len(), 4, "{told:?}");
    assert_eq!(
        (of("forgotten"), of("both"), of("twice"), of("gone")),
        (1, 1, 1, 1)
    );
}
