//! Ten tanks whose orders of welding are held against the best that long searches found.

// A helper that cannot go on stops its test at once.
#![allow(clippy::expect_used, clippy::panic)]

use std::fs;
use std::path::PathBuf;

use seamwright::job_file::JobFile;
use seamwright_core::tank::Tank;
use seamwright_core::units::{Temperature, Time};
use seamwright_core::weld::WeldStep;
use serde::{Deserialize, Serialize};

use crate::Outcome;

/// The folder of the job files and of what was found.
#[must_use]
pub fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("data/welding/orders")
}

/// The names of the job files: boxes, boxes with cuts and baffles, drums, profiles and a taper, of aluminium and of
/// stainless steel.
pub const TANKS: [&str; 10] = [
    "coolant-box",
    "quench-box",
    "wheelhouse-cut",
    "drain-slope",
    "still-drum",
    "lying-drum",
    "rounded-saddle",
    "hopper-taper",
    "launch-baffles",
    "shell-wrapper",
];

/// A tank by its name.
///
/// # Panics
/// Where its job file does not read.
#[must_use]
pub fn tank(name: &str) -> Tank {
    let path = folder().join(format!("{name}.toml"));
    let job = JobFile::open(&path.display().to_string());
    job.and_then(|job| job.tank(|_| ()))
        .unwrap_or_else(|failure| panic!("{failure}"))
}

/// What long searches found.
#[derive(Debug, Deserialize, Serialize)]
pub struct Found {
    /// The command that made this.
    pub command: String,
    /// When.
    pub date: String,
    /// What it did.
    pub searches: String,
    /// The best order of each tank.
    pub orders: Vec<FoundOrder>,
}

/// The best order of a tank.
#[derive(Debug, Deserialize, Serialize)]
pub struct FoundOrder {
    /// The tank.
    pub tank: String,
    /// What the best way took, in s, as the heat was computed then, and how much it pulled.
    pub ways: [f64; 2],
    /// What the plan took, with its order made better, and how much it pulled.
    pub plan: [f64; 2],
    /// What the best order took, and how much it pulled.
    pub best: [f64; 2],
    /// What the best order takes that may pull as it likes.
    pub any_pull: [f64; 2],
    /// The best order: numbers of stitches from 1, seam by seam; below zero where one is welded backwards.
    pub order: Vec<i32>,
}

impl FoundOrder {
    /// The order as it is asked for.
    ///
    /// # Panics
    /// Where a number is none of a stitch.
    pub fn steps(&self) -> impl Iterator<Item = WeldStep> + '_ {
        self.order.iter().map(|number| {
            let stitch = u8::try_from(number.unsigned_abs() - 1).expect("a stitch");
            let waits = (Time::default(), None);
            WeldStep::of(
                (stitch, *number < 0),
                waits,
                Temperature::from_kelvins(293.15),
            )
        })
    }
}

/// The numbers of an order.
#[must_use]
pub fn numbers(steps: &[WeldStep]) -> Vec<i32> {
    let number =
        |step: &WeldStep| (i32::from(step.stitch) + 1) * if step.reversed { -1 } else { 1 };
    steps.iter().map(number).collect()
}

/// What was found.
///
/// # Errors
/// Where the file does not read.
pub fn found() -> Outcome<Found> {
    let text = fs::read_to_string(folder().join("found.json"))?;
    Ok(serde_json::from_str(&text)?)
}
