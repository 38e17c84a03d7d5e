//! The single figures of `data/welding/checks.json` and `data/geometry/checks.json`: each with its inputs, its
//! source and its tolerance, gathered and evaluated apart from this project.
//!
//! A row is asked for by its whole name, written out where it is used: only so can `layout` tell that every row is.

// A helper that cannot go on stops its test at once.
#![allow(clippy::panic)]

use std::sync::LazyLock;

use serde_json::Value;

use crate::cases::data;
use crate::near::Tolerance;
use crate::published::{Basis, Source, names};

/// The rows of a file, read once.
type Rows = LazyLock<Vec<Value>>;

static GEOMETRY: Rows = LazyLock::new(|| rows("geometry/checks.json"));
static WELDING: Rows = LazyLock::new(|| rows("welding/checks.json"));

/// Every row of a file under `data`.
///
/// # Panics
/// Where the file cannot be read as a list.
#[must_use]
pub fn rows(file: &str) -> Vec<Value> {
    let text = std::fs::read_to_string(data(file)).unwrap_or_else(|no| panic!("{file}: {no}"));
    serde_json::from_str(&text).unwrap_or_else(|no| panic!("{file}: {no}"))
}

fn find(rows: &[Value], id: &str) -> Value {
    let found = rows.iter().find(|check| check["id"] == id);
    found.unwrap_or_else(|| panic!("no check {id}")).clone()
}

/// A check of geometry, strength or tightness.
///
/// # Panics
/// Where the data file has no such check.
#[must_use]
pub fn geometry(id: &'static str) -> Value {
    find(&GEOMETRY, id)
}

/// A check of heat, metals, settings or supplies.
///
/// # Panics
/// Where the data file has no such check.
#[must_use]
pub fn welding(id: &'static str) -> Value {
    find(&WELDING, id)
}

/// A number.
///
/// # Panics
/// Where it is none.
#[must_use]
pub fn number(value: &Value) -> f64 {
    let number = value.as_f64();
    number.unwrap_or_else(|| panic!("{value} is no number"))
}

/// A list of numbers.
///
/// # Panics
/// Where it is none.
#[must_use]
pub fn numbers(value: &Value) -> Vec<f64> {
    let list = value.as_array();
    let list = list.unwrap_or_else(|| panic!("{value} is no list"));
    list.iter().map(number).collect()
}

/// A number of a check's inputs.
///
/// # Errors
/// That it has no such number.
pub fn input(check: &Value, key: &str) -> Result<f64, String> {
    let found = check["inputs"][key].as_f64();
    found.ok_or_else(|| format!("{} has no input {key}", check["id"]))
}

/// How near a figure must come by the check's own tolerance.
#[must_use]
pub fn tolerance(check: &Value) -> Tolerance {
    let told = &check["tolerance"];
    // The two files say it each in its own way.
    match (told["type"].as_str(), told["value"].as_f64()) {
        (Some("relative"), Some(share)) => Tolerance::relative(share),
        (Some("absolute"), Some(amount)) => Tolerance::absolute(amount),
        _ => Tolerance {
            relative: told["rel"].as_f64().unwrap_or(0.0),
            absolute: told["abs"].as_f64().unwrap_or(0.0),
        },
    }
}

/// A figure of what a check expects: by its key, empty where it is the only one, and with its place where it stands in a
/// list, as in `rho/2`.
///
/// # Errors
/// That the check has no such figure.
pub fn expected(check: &Value, key: &str) -> Result<f64, String> {
    let place = if key.is_empty() {
        "/expected".to_owned()
    } else {
        format!("/expected/{key}")
    };
    let found = check.pointer(&place).and_then(Value::as_f64);
    found.ok_or_else(|| format!("{} {key}: no such figure", check["id"]))
}

/// The source of a check.
///
/// # Errors
/// That the check names none.
pub fn source(check: &Value) -> Result<Source<'_>, String> {
    let text = check["source"].as_str();
    let text = text.ok_or_else(|| format!("{} names no source", check["id"]))?;
    let basis = Basis::of_row(check["basis"].as_str().unwrap_or_default());
    Ok(Source {
        text,
        basis,
        row: check["id"].as_str(),
    })
}

/// What a figure of a check is called on the page.
///
/// # Errors
/// That the check, or its figure, has no name.
pub fn figure(check: &Value, key: &str) -> Result<String, String> {
    let own = check["figure"].as_str();
    let own = own.ok_or_else(|| format!("{} does not say what it is", check["id"]))?;
    let name = names::of(key).ok_or_else(|| format!("{}: {key} has no name", check["id"]))?;
    Ok(match name {
        "" => own.to_owned(),
        name => format!("{own}: {name}"),
    })
}

/// Says what is wrong unless `got` is what the check expects under `key`.
///
/// # Errors
/// A sentence with both figures, or that the check has no such figure.
pub fn expect(check: &Value, key: &str, got: f64) -> Result<(), String> {
    expect_near(check, key, got, tolerance(check))
}

/// The same by another tolerance than the check's own.
///
/// # Errors
/// A sentence with both figures, or that the check has no such figure.
pub fn expect_near(check: &Value, key: &str, got: f64, tolerance: Tolerance) -> Result<(), String> {
    let expected = expected(check, key)?;
    source(check)?.near(&figure(check, key)?, got, expected, tolerance)
}

/// Says what is wrong unless `got` lies above what the check expects by a share between two.
///
/// # Errors
/// A sentence with both figures, or that the check has no such figure.
pub fn expect_between(check: &Value, key: &str, got: f64, band: [f64; 2]) -> Result<(), String> {
    let expected = expected(check, key)?;
    source(check)?.between(&figure(check, key)?, got, expected, band)
}

/// Says what is wrong unless `got` lies within the range that the check has under `key`.
///
/// # Errors
/// A sentence with range and figure, or that the check has no such range.
pub fn expect_within(check: &Value, key: &str, got: f64) -> Result<(), String> {
    let ends = [0, 1].map(|end| expected(check, &format!("{key}/{end}")));
    let [low, high] = ends;
    source(check)?.within(&figure(check, key)?, got, [low?, high?])
}

/// Says what is wrong unless a range of ours has what the check expects.
///
/// # Errors
/// A sentence with range and figure, or that the check has no such figure.
pub fn expect_spanned(check: &Value, key: &str, range: [f64; 2]) -> Result<(), String> {
    let expected = expected(check, key)?;
    source(check)?.spanned(&figure(check, key)?, range, expected)
}
