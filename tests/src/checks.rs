//! The single figures of `data/welding/checks.json` and `data/geometry/checks.json`: each with its inputs, its
//! source and its tolerance, gathered and evaluated apart from this project.

use serde_json::Value;

use crate::cases::data;
use crate::near::{Tolerance, near};

type All = Result<Vec<Value>, Box<dyn std::error::Error>>;

fn all(file: &str) -> All {
    let text = std::fs::read_to_string(data(file))?;
    Ok(serde_json::from_str(&text)?)
}

fn named(file: &str, prefix: &str, least: usize) -> All {
    let named = |check: &Value| {
        let id = check["id"].as_str();
        id.is_some_and(|id| id.starts_with(prefix))
    };
    let found: Vec<Value> = all(file)?.into_iter().filter(named).collect();
    if found.len() < least {
        return Err(format!("only {} of {prefix}", found.len()).into());
    }
    Ok(found)
}

/// Every check of geometry and strength whose name begins so; at least one.
///
/// # Errors
/// What is wrong with the data file, or that it has no such check.
pub fn geometry(prefix: &str) -> All {
    named("geometry/checks.json", prefix, 1)
}

/// Every check whose name begins so; at least `least`, so that a data file cut short is noticed.
///
/// # Errors
/// What is wrong with the data file, or that it has fewer such checks.
pub fn beginning(prefix: &str, least: usize) -> All {
    named("welding/checks.json", prefix, least)
}

/// A check by its name.
///
/// # Errors
/// What is wrong with the data file, or that it has no such check.
pub fn welding(id: &str) -> Result<Value, Box<dyn std::error::Error>> {
    let all = all("welding/checks.json")?;
    let found = all.into_iter().find(|check| check["id"] == id);
    Ok(found.ok_or_else(|| format!("the data file has no check {id}"))?)
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
    Tolerance {
        relative: check["tolerance"]["rel"].as_f64().unwrap_or(0.0),
        absolute: check["tolerance"]["abs"].as_f64().unwrap_or(0.0),
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
