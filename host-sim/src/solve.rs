//! The one dimension that makes a tank hold what is wanted.

use seamwright_core::capacity::{SolveError, solve_from};
use seamwright_core::input::limits::SIZE;
use seamwright_core::input::{Cut, Draft, Measure, Shape};
use seamwright_core::tank::JobError;
use seamwright_core::units::{Length, LengthUnit, Volume, VolumeUnit};

use crate::failure::Failure;
use crate::job_file::JobFile;
use crate::report::Units;
use crate::report::model::Section;

/// A dimension that may change.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Dimension {
    Length,
    Width,
    Height,
    Diameter,
    /// Both counted from 0.
    Leg {
        cut: usize,
        leg: usize,
    },
}

/// What was found.
#[derive(Clone, Debug)]
pub struct Answer {
    dimension: String,
    value: Length,
    was: Length,
    measure: Measure,
    holds: Volume,
}

impl Dimension {
    fn read(text: &str) -> Option<Self> {
        let words: Vec<&str> = text.split_whitespace().collect();
        let place = |word: &str| word.parse::<usize>().ok()?.checked_sub(1);
        Some(match words.as_slice() {
            ["length"] => Self::Length,
            ["width"] => Self::Width,
            ["height"] => Self::Height,
            ["diameter"] => Self::Diameter,
            ["cut", cut, "leg", leg] => Self::Leg {
                cut: place(cut)?,
                leg: place(leg)?,
            },
            _ => return None,
        })
    }

    /// Where it stands in a draft; `None` where the shape has none.
    fn of(self, shape: &mut Shape) -> Option<&mut Length> {
        match (self, shape) {
            (Self::Length, Shape::Block(block)) => Some(&mut block.length),
            (Self::Width, Shape::Block(block)) => Some(&mut block.width),
            (Self::Height, Shape::Block(block)) => Some(&mut block.height),
            (Self::Width, Shape::Profile(profile)) => Some(&mut profile.width),
            (Self::Height, Shape::Taper(taper)) => Some(&mut taper.height),
            (Self::Length, Shape::Drum(drum)) => Some(&mut drum.length),
            (Self::Diameter, Shape::Drum(drum)) => Some(&mut drum.diameter),
            (Self::Leg { cut, leg }, Shape::Block(block)) => match block.cuts.get_mut(cut)? {
                Cut::Edge { legs, .. } => legs.get_mut(leg),
                Cut::Corner { legs, .. } => legs.get_mut(leg),
                Cut::Plane { .. } => None,
            },
            _ => None,
        }
    }
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
    let dimension = Dimension::read(name);
    let slot = dimension.and_then(|dimension| dimension.of(&mut draft.shape).copied());
    let (Some(dimension), Some(was)) = (dimension, slot) else {
        return Err(Failure::input(
            format!(
                "--for \"{name}\" names no dimension of this {}",
                draft.shape.kind()
            ),
            format!("it may be {}", known(&draft.shape)),
        ));
    };
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
    let start = file.tank(|_| ())?;
    let mut tank = start.clone();
    let mut capacity = |metres: f64| -> Result<f64, JobError> {
        if let Some(slot) = dimension.of(&mut draft.shape) {
            *slot = Length::from_metres(metres);
        }
        tank.rebuild(&draft)?;
        Ok(tank.capacity().of(measure).si())
    };
    let (least, most) = SIZE;
    let range = (least.si().min(was.si()), most.si());
    let found = solve_from(was.si(), range, target.si(), &mut capacity)
        .map_err(|error| refused(name, measure, target, &error))?;
    let holds = capacity(found)
        .map_err(|error| refused(name, measure, target, &SolveError::Gap { at: found, error }))?;
    Ok(Answer {
        dimension: name.to_owned(),
        value: Length::from_metres(found),
        was,
        measure,
        holds: Volume::from_cubic_metres(holds),
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
    let mut section = Section::default();
    section.plain(format!(
        "{} {} instead of {}: the {} capacity is {}",
        answer.dimension,
        units.length(answer.value),
        units.length(answer.was),
        answer.measure.name(),
        units.volume(answer.holds)
    ));
    section.put("dimension", answer.dimension.as_str());
    section.put("value_m", answer.value.si());
    section.put("was_m", answer.was.si());
    section.put("of", answer.measure.name());
    section.put("holds_m3", answer.holds.si());
    section
}
