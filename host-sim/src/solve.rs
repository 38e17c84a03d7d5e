//! The one dimension that makes a tank hold what is wanted.

use seamwright_core::capacity::SolveError;
use seamwright_core::input::{Cut, Draft, Measure, Shape};
use seamwright_core::tank::{Dimension, JobError, SolvedDimension};
use seamwright_core::units::{Length, LengthUnit, Volume, VolumeUnit};

use crate::failure::Failure;
use crate::job_file::JobFile;
use crate::report::Units;
use crate::report::model::Section;

/// What was found.
#[derive(Clone, Debug)]
pub struct Answer {
    dimension: String,
    measure: Measure,
    found: SolvedDimension,
}

/// A dimension by its name.
fn dimension(text: &str) -> Option<Dimension> {
    let words: Vec<&str> = text.split_whitespace().collect();
    let place = |word: &str| word.parse::<usize>().ok()?.checked_sub(1);
    Some(match words.as_slice() {
        ["length"] => Dimension::Length,
        ["width"] => Dimension::Width,
        ["height"] => Dimension::Height,
        ["diameter"] => Dimension::Diameter,
        ["cut", cut, "leg", leg] => Dimension::Leg {
            cut: place(cut)?,
            leg: place(leg)?,
        },
        _ => return None,
    })
}

/// The dimensions that a shape has, for a message.
fn known(shape: &Shape) -> String {
    match shape {
        Shape::Block(block) => {
            let mut all = "length, width or height".to_owned();
            if block
                .cuts
                .iter()
                .any(|cut| !matches!(cut, Cut::Plane { .. }))
            {
                all.push_str(", or a leg of a cut that has legs, as \"cut 1 leg 2\"");
            }
            all
        }
        Shape::Profile(_) => "width".to_owned(),
        Shape::Taper(_) => "height".to_owned(),
        Shape::Drum(_) => "length or diameter".to_owned(),
    }
}

/// Finds the dimension.
///
/// # Errors
/// Which input is wrong; or, where no value meets the target, what can be reached.
pub fn solve(
    file: &JobFile,
    name: &str,
    measure: Measure,
    target: Volume,
) -> Result<Answer, Failure> {
    let mut draft: Draft = file.draft.clone();
    let unknown = |shape: &Shape| {
        Failure::input(
            format!(
                "--for \"{name}\" names no dimension of this {}",
                shape.kind()
            ),
            format!("it may be {}", known(shape)),
        )
    };
    let dimension = dimension(name).filter(|one| one.of(&mut draft.shape).is_some());
    let dimension = dimension.ok_or_else(|| unknown(&draft.shape))?;
    if target.si() <= 0.0 || target.si().is_nan() {
        return Err(Failure::input(
            format!(
                "--{} is too small: {}",
                measure.name(),
                target.display(VolumeUnit::Litre, 3)
            ),
            format!(
                "the {} capacity to meet must be above 0 L, such as \"6.5 L\"",
                measure.name()
            ),
        ));
    }
    // The tank as it stands must be one, so that its own faults are told first.
    let mut tank = file.tank(|_| ())?;
    let cuts = &file.extras.baffles;
    let found = tank.solve_cut(
        (&mut draft, cuts, &file.extras.plumbing),
        dimension,
        measure,
        target,
    );
    let found = found.ok_or_else(|| unknown(&file.draft.shape))?;
    let found = found.map_err(|error| refused(name, measure, target, &error))?;
    Ok(Answer {
        dimension: name.to_owned(),
        measure,
        found,
    })
}

fn refused(name: &str, measure: Measure, target: Volume, error: &SolveError<JobError>) -> Failure {
    let litres = |cubic: f64| {
        Volume::from_cubic_metres(cubic)
            .display(VolumeUnit::Litre, 3)
            .to_string()
    };
    let mm = |metres: f64| {
        Length::from_metres(metres)
            .display(LengthUnit::Millimetre, 2)
            .to_string()
    };
    let title = format!(
        "no {name} gives {} {}",
        target.display(VolumeUnit::Litre, 3),
        measure.name()
    );
    let help = match error {
        SolveError::Unreachable {
            least,
            most,
            below,
            above,
            ..
        } => {
            let ends = [("below", below), ("above", above)]
                .into_iter()
                .filter_map(|(side, error)| Some(format!("; {side} that, {}", error.as_ref()?)))
                .collect::<String>();
            format!(
                "it can hold from {} at {} to {} at {}{ends}",
                litres(least.gives),
                mm(least.at),
                litres(most.gives),
                mm(most.at)
            )
        }
        SolveError::NothingWorks { error, .. } | SolveError::Gap { error, .. } => error.to_string(),
        SolveError::Leaps { low, high } => format!(
            "the capacity leaps over it between {} and {}",
            mm(low.at),
            mm(high.at)
        ),
        SolveError::Range { .. } | SolveError::Target(_) | SolveError::Start(_) => {
            "the volume must be a number above zero".to_owned()
        }
    };
    Failure::input(title, help)
}

/// One sentence.
#[must_use]
pub fn section(answer: &Answer, units: Units) -> Section {
    let found = &answer.found;
    let mut section = Section::default();
    section.plain(format!(
        "{} {} instead of {}: the {} capacity is {}",
        answer.dimension,
        units.length(found.value),
        units.length(found.was),
        answer.measure.name(),
        units.volume(found.holds)
    ));
    section.put("dimension", answer.dimension.as_str());
    section.put("value_m", found.value.si());
    section.put("was_m", found.was.si());
    section.put("of", answer.measure.name());
    section.put("holds_m3", found.holds.si());
    section
}
