//! The dip chart: where the rod is put, at the lean asked for.

use seamwright_core::capacity::{Dip, DipError, Lean};
use seamwright_core::tank::Tank;
use seamwright_core::units::range;
use seamwright_core::units::{AngleUnit, Length, Volume};
use serde_json::Value;

use super::Units;
use super::model::{Section, Table, right, said};
use crate::failure::Failure;

/// Steps that a chart from the lowest point may have.
const MOST_STEPS: u16 = 1_000;

/// A multiple this share of the whole below the top is the top.
const HAIR: f64 = 1e-12;

/// What steps the marks are taken in; the job's own where neither is given.
#[derive(Clone, Copy, Debug, Default)]
pub struct Step {
    /// Of the reading.
    pub every: Option<Length>,
    /// Of the volume.
    pub volume: Option<Volume>,
}

/// A dip chart.
#[derive(Clone, Debug)]
pub struct Chart {
    /// The lean that it holds for.
    pub lean: Lean,
    /// Where the rod stands, along x and y; `None` where depth is counted from the lowest point.
    pub at: Option<[Length; 2]>,
    /// Its marks.
    pub marks: Vec<Dip>,
}

/// The chart of a tank.
///
/// # Errors
/// Why the rod says nothing at this lean, or why the step does not do.
pub fn chart(tank: &Tank, lean: Lean, step: Step) -> Result<Chart, Failure> {
    let job = tank.job();
    above_zero("--volume", step.volume.map(range::Value::Volume))?;
    above_zero("--every", step.every.map(range::Value::Length))?;
    let wrong = |error: DipError| {
        Failure::input(
            format!("there is no dip chart: {error}"),
            "change the step, the lean, or where the rod stands (dip_at under [fill])".to_owned(),
        )
    };
    let volume = step.volume.or(if step.every.is_none() {
        job.dip_volume()
    } else {
        None
    });
    let every = step.every.unwrap_or(job.dip_step());
    let marks = match tank.dip_rod(lean) {
        Some(rod) => {
            let rod = rod.map_err(wrong)?;
            match volume {
                Some(volume) => rod.every_volume(volume).map_err(wrong)?.collect(),
                None => rod.every(every).map_err(wrong)?.collect(),
            }
        }
        None => by_depth(tank, lean, every, volume)?,
    };
    Ok(Chart {
        lean,
        at: job.dip_at(),
        marks,
    })
}

/// Refuses a step that leads nowhere.
fn above_zero(option: &str, step: Option<range::Value>) -> Result<(), Failure> {
    let (si, example) = match step {
        Some(range::Value::Volume(volume)) => (volume.si(), "0.5 L"),
        Some(range::Value::Length(length)) => (length.si(), "10 mm"),
        _ => return Ok(()),
    };
    match step {
        Some(step) if si <= 0.0 || si.is_nan() => Err(Failure::input(
            format!("{option} is too small: {step}"),
            format!("the step from mark to mark must be above zero, such as \"{example}\""),
        )),
        _ => Ok(()),
    }
}

/// Straight up from the lowest inside point, where the job puts no rod.
fn by_depth(
    tank: &Tank,
    lean: Lean,
    every: Length,
    volume: Option<Volume>,
) -> Result<Vec<Dip>, Failure> {
    let pool = tank.pool(lean);
    let past = |what: &str, least: range::Value| {
        Failure::input(
            format!("the step of the {what} is too small: more than {MOST_STEPS} steps"),
            format!("take a wider step: {least} or more"),
        )
    };
    let mut marks = Vec::new();
    match volume {
        Some(step) => {
            let brim = pool.brim();
            let steps = brim.si() / step.si();
            if steps > f64::from(MOST_STEPS) {
                // In whole millilitres, as it is shown, and so not a hair too small.
                let least = (1e6 * brim.si() / f64::from(MOST_STEPS)).ceil() * 1e-6;
                let least = Volume::from_cubic_metres(least);
                return Err(past("volume", range::Value::Volume(least)));
            }
            // Multiples below the brim but for rounding; the brim itself is the last mark.
            let below = ((steps * (1.0 - HAIR)).ceil() as u32).max(1);
            for n in 0..below {
                let volume = Volume::from_cubic_metres(f64::from(n) * step.si());
                if let Ok(reading) = pool.depth_for(volume) {
                    marks.push(Dip { reading, volume });
                }
            }
            marks.push(Dip {
                reading: pool.full_depth(),
                volume: brim,
            });
        }
        None => {
            let full = pool.full_depth();
            let steps = full.si() / every.si();
            if steps > f64::from(MOST_STEPS) {
                // In hundredths of a millimetre, as it is shown.
                let least = (1e5 * full.si() / f64::from(MOST_STEPS)).ceil() * 1e-5;
                let least = Length::from_metres(least);
                return Err(past("reading", range::Value::Length(least)));
            }
            for n in 0..=((steps * (1.0 - HAIR)).ceil() as u32) {
                let reading = Length::from_metres((f64::from(n) * every.si()).min(full.si()));
                if let Ok(level) = pool.at(reading) {
                    marks.push(Dip {
                        reading,
                        volume: level.volume,
                    });
                }
            }
        }
    }
    Ok(marks)
}

/// The chart as a table.
#[must_use]
pub fn section(tank: &Tank, chart: &Chart, units: Units) -> Section {
    let (pitch, roll) = (chart.lean.pitch(), chart.lean.roll());
    let place = match chart.at {
        Some([x, y]) => format!(
            "rod at {} from the left and {} from the front",
            units.length(x),
            units.length(y)
        ),
        None => "depth from the lowest inside point".to_owned(),
    };
    let rows = chart.marks.iter().map(|dip| {
        let reading = units.length(dip.reading);
        [reading, units.volume(dip.volume)].map(said)
    });
    let pairs = chart
        .marks
        .iter()
        .map(|dip| Value::from([dip.reading.si(), dip.volume.si()]));
    let mut section = Section::default();
    section.plain(tank.job().name());
    section.plain(format!(
        "{place}; pitch {}, roll {}\n",
        pitch.display(AngleUnit::Degree, 1),
        roll.display(AngleUnit::Degree, 1)
    ));
    section.table(Table::new([right("reading"), right("holds")], rows));
    section.put("pitch_deg", pitch.in_unit(AngleUnit::Degree));
    section.put("roll_deg", roll.in_unit(AngleUnit::Degree));
    section.put("at_m", chart.at.map(|at| at.map(Length::si)));
    section.put("marks", pairs.collect::<Value>());
    section
}
