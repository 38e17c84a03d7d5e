//! The single figures of `data/welding/checks.json` and `data/geometry/checks.json`: each with its inputs, its
//! source and its tolerance, gathered and evaluated apart from this project.
//!
//! A row is asked for by its whole name, written out where it is used: only so can `layout` tell that every row is.

// A helper that cannot go on stops its test at once.
#![allow(clippy::panic)]

use std::sync::LazyLock;

use serde_json::Value;

use crate::cases::data;
use crate::near::{Tolerance, near};

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

/// Says what is wrong unless `got` is what the check expects under `key`, or as its only figure where
/// `key` is empty.
///
/// # Errors
/// A sentence with both figures, or that the check has no such figure.
pub fn expect(check: &Value, key: &str, got: f64) -> Result<(), String> {
    let expected = &check["expected"];
    let expected = if key.is_empty() {
        expected.as_f64()
    } else {
        expected[key].as_f64()
    };
    let what = format!("{} {key}", check["id"]);
    let expected = expected.ok_or_else(|| format!("{what}: no such figure"))?;
    near(&what, got, expected, tolerance(check))
}
