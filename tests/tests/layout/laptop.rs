//! The laptop computes nothing: what makes rows and words of a tank neither adds up, nor compares, nor picks.

use std::path::{Path, PathBuf};

use super::lexer::words;

/// What adds up, picks the least or the most, or goes on from a figure to another.
const COMPUTES: [&str; 24] = [
    "sum",
    "product",
    "fold",
    "reduce",
    "min",
    "max",
    "fmin",
    "fmax",
    "min_by",
    "max_by",
    "min_by_key",
    "max_by_key",
    "total_cmp",
    "partial_cmp",
    "sqrt",
    "hypot",
    "exp",
    "ln",
    "powf",
    "sin",
    "cos",
    "tan",
    "floor",
    "abs",
];

/// Sources of the laptop's that say what core found, in its folder of sources.
const TELLS: [&str; 4] = ["report", "solve.rs", "cut.rs", "welding/mod.rs"];

/// What lays rows out or turns units into others.
const LAYS_OUT: [&str; 2] = ["report/model.rs", "report/units.rs"];

/// The words of a source that compute, with their lines.
fn computing(source: &str) -> Vec<(String, usize)> {
    let found = words(source).into_iter();
    let found = found.filter(|word| COMPUTES.iter().any(|name| word.is_name(name)));
    found.map(|word| (word.text, word.line)).collect()
}

fn sources(place: &Path, all: &mut Vec<PathBuf>) {
    if !place.is_dir() {
        all.push(place.to_owned());
        return;
    }
    for entry in std::fs::read_dir(place).unwrap() {
        let path = entry.unwrap().path();
        // How rows are written out is counted in signs.
        if path.extension().is_some_and(|end| end == "rs") {
            all.push(path);
        }
    }
}

#[test]
fn what_tells_of_a_tank_computes_nothing() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../host-sim/src");
    let mut all = Vec::new();
    for place in TELLS {
        sources(&root.join(place), &mut all);
    }
    assert!(all.len() > 25, "{} sources", all.len());
    let mut faults = Vec::new();
    for path in all {
        if LAYS_OUT.iter().any(|name| path.ends_with(name)) {
            continue;
        }
        let source = std::fs::read_to_string(&path).unwrap();
        for (word, line) in computing(&source) {
            faults.push(format!("{}:{line}: {word}", path.display()));
        }
    }
    assert!(
        faults.is_empty(),
        "core's to compute:\n{}",
        faults.join("\n")
    );
}

#[test]
fn a_source_that_computes_is_told() {
    let source = "// the least: min\nlet least = all.iter().copied().fold(f64::INFINITY, f64::min);\n\"sum\"";
    let told = computing(source);
    assert_eq!(told, [("fold".to_owned(), 2), ("min".to_owned(), 2)]);
}
