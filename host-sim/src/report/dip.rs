//! The dip chart: where the rod is put, at the lean asked for.

use seamwright_core::capacity::{Dip, DipError, DipScale, DipStep, Lean, MAX_DEPTH_STEPS};
use seamwright_core::tank::Tank;
use seamwright_core::units::range::{Limit, OutOfRange, Value as Shown};
use seamwright_core::units::{AngleUnit, Length, Volume};
use serde_json::Value;

use super::Units;
use super::model::{Section, Table, right, said};
use crate::failure::Failure;

/// What steps the marks are asked for in; the job's own where neither is given.
#[derive(Clone, Copy, Debug, Default)]
pub struct Step {
    /// Of the reading.
    pub every: Option<Length>,
    /// Of the volume.
    pub volume: Option<Volume>,
}

impl Step {
    /// The step of a tank's chart.
    pub(super) fn of(self, tank: &Tank) -> DipStep {
        match (self.volume, self.every) {
            (Some(volume), _) => DipStep::Volume(volume),
            (None, Some(every)) => DipStep::Reading(every),
            (None, None) => tank.dip_step(),
        }
    }
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
    above_zero("--volume", step.volume.map(Shown::Volume))?;
    above_zero("--every", step.every.map(Shown::Length))?;
    let wrong = |error: DipError| {
        Failure::input(
            format!("there is no dip chart: {error}"),
            "change the step, the lean, or where the rod stands (dip_at under [fill])".to_owned(),
        )
    };
    let scale = tank.dip_scale(lean).map_err(wrong)?;
    let marks = scale.marks(step.of(tank)).map_err(|error| match error {
        DipError::TooMany(error) if matches!(scale, DipScale::Depth(_)) => too_many(&error),
        error => wrong(error),
    })?;
    Ok(Chart {
        lean,
        at: tank.job().dip_at(),
        marks: marks.collect(),
    })
}

/// Too fine a step of a chart by depth.
fn too_many(error: &OutOfRange) -> Failure {
    let what = match error.value {
        Shown::Volume(_) => "volume",
        _ => "reading",
    };
    let help = match error.limit {
        Limit::AtLeast(least) => format!("take a wider step: {least} or more"),
        other => format!("take a wider step: {other}"),
    };
    Failure::input(
        format!("the step of the {what} is too small: more than {MAX_DEPTH_STEPS} steps"),
        help,
    )
}

/// Refuses a step that leads nowhere.
fn above_zero(option: &str, step: Option<Shown>) -> Result<(), Failure> {
    let (si, example) = match step {
        Some(Shown::Volume(volume)) => (volume.si(), "0.5 L"),
        Some(Shown::Length(length)) => (length.si(), "10 mm"),
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
