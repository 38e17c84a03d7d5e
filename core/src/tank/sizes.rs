//! The sizes of a shape, each in its range.

use super::ranged::{mm, ranged};
use super::{JobError, Problem};
use crate::input::limits::{REACH, SIZE, SPACED_WELD, THICKNESS};
use crate::input::{Block, Cut, Draft, Drum, Ends, Field, Profile, Shape, Taper};
use crate::units::Length;
use crate::units::range::Value;

/// Radii of outline corners may be zero: the corner is sharp.
const RADIUS: (Length, Length) = (Length::from_metres(0.0), SIZE.1);

pub(crate) fn shape(shape: &Shape) -> Result<(), JobError> {
    match shape {
        Shape::Block(block) => sizes_of_block(block),
        Shape::Profile(profile) => sizes_of_profile(profile),
        Shape::Taper(taper) => sizes_of_taper(taper),
        Shape::Drum(drum) => sizes_of_drum(drum),
    }
}

fn all(sizes: &[(Field, Length)], range: (Length, Length)) -> Result<(), JobError> {
    sizes
        .iter()
        .try_for_each(|(field, size)| ranged(*field, *size, range, Value::Length).map(|_| ()))
}

fn numbered<const N: usize>(
    field: fn(u8) -> Field,
    sizes: [Length; N],
    range: (Length, Length),
) -> Result<(), JobError> {
    sizes
        .into_iter()
        .zip(1_u8..)
        .try_for_each(|(size, place)| ranged(field(place), size, range, Value::Length).map(|_| ()))
}

fn sizes_of_block(block: &Block) -> Result<(), JobError> {
    all(
        &[
            (Field::Length, block.length),
            (Field::Width, block.width),
            (Field::Height, block.height),
        ],
        SIZE,
    )?;
    // A leg may reach past the far side of its face: the plane is what counts.
    let legs = (mm(0.1), mm(2.0 * 20_000.0));
    for (cut, number) in block.cuts.iter().zip(1_u8..) {
        let check = |values: &[Length], field: fn(u8, u8) -> Field, range| {
            values.iter().zip(1_u8..).try_for_each(|(value, place)| {
                ranged(field(number, place), *value, range, Value::Length).map(|_| ())
            })
        };
        match cut {
            Cut::Edge { legs: values, .. } => check(values, Field::CutLeg, legs)?,
            Cut::Corner { legs: values, .. } => check(values, Field::CutLeg, legs)?,
            Cut::Plane { through, .. } => check(through, Field::CutThrough, reach())?,
        }
    }
    Ok(())
}

const fn reach() -> (Length, Length) {
    (mm(-100_000.0), REACH)
}

fn sizes_of_profile(profile: &Profile) -> Result<(), JobError> {
    all(&[(Field::Width, profile.width)], SIZE)?;
    for (point, number) in profile.outline.iter().zip(1_u8..) {
        let field = Field::Point(number);
        for place in [point.x, point.z] {
            ranged(field, place, reach(), Value::Length)?;
        }
        ranged(field, point.radius, RADIUS, Value::Length)?;
    }
    Ok(())
}

fn sizes_of_taper(taper: &Taper) -> Result<(), JobError> {
    numbered(Field::Base, taper.base, SIZE)?;
    numbered(Field::TopSize, taper.top, SIZE)?;
    all(&[(Field::Height, taper.height)], SIZE)?;
    numbered(Field::Shift, taper.shift, reach())
}

fn sizes_of_drum(drum: &Drum) -> Result<(), JobError> {
    all(
        &[
            (Field::Diameter, drum.diameter),
            (Field::Length, drum.length),
        ],
        SIZE,
    )?;
    if let Ends::Torispherical { crown, knuckle } = drum.ends {
        all(&[(Field::Crown, crown), (Field::Knuckle, knuckle)], SIZE)?;
    }
    Ok(())
}

/// Smallest and largest hole.
const HOLE: (Length, Length) = (mm(1.0), mm(2_000.0));

pub(crate) fn fittings(draft: &Draft) -> Result<(), JobError> {
    let zero = Length::from_metres(0.0);
    for (fitting, number) in draft.fittings.iter().zip(1_u8..) {
        if !draft.shape.has(fitting.face) {
            return Err(JobError {
                field: Field::FittingFace(number),
                problem: Problem::NoSuchFace(fitting.face),
            });
        }
        for at in fitting.at {
            ranged(Field::FittingAt(number), at, (zero, SIZE.1), Value::Length)?;
        }
        ranged(
            Field::FittingBore(number),
            fitting.bore,
            (zero, HOLE.1),
            Value::Length,
        )?;
        if let Some(outer) = fitting.outer {
            let least = Length::from_metres(libm::fmax(fitting.bore.si(), HOLE.0.si()));
            ranged(
                Field::FittingOuter(number),
                outer,
                (least, HOLE.1),
                Value::Length,
            )?;
        }
        ranged(
            Field::FittingStandIn(number),
            fitting.stand_in,
            (zero, SIZE.1),
            Value::Length,
        )?;
    }
    Ok(())
}

pub(crate) fn baffles(draft: &Draft) -> Result<(), JobError> {
    for (baffle, number) in draft.baffles.iter().zip(1_u8..) {
        ranged(Field::BaffleAt(number), baffle.at, reach(), Value::Length)?;
        if let Some(thickness) = baffle.thickness {
            ranged(
                Field::BaffleThickness(number),
                thickness,
                THICKNESS,
                Value::Length,
            )?;
        }
        for (hole, place) in baffle.holes.iter().zip(1_u8..) {
            for at in hole.at {
                let field = Field::BaffleHoleAt(number, place);
                ranged(field, at, reach(), Value::Length)?;
            }
            let field = Field::BaffleHoleDiameter(number, place);
            ranged(field, hole.diameter, HOLE, Value::Length)?;
        }
        if let Some([length, gap]) = baffle.spaced {
            let fields = [
                Field::BaffleWeldLength(number),
                Field::BaffleWeldGap(number),
            ];
            for (value, field) in [length, gap].into_iter().zip(fields) {
                ranged(field, value, SPACED_WELD, Value::Length)?;
            }
        }
    }
    Ok(())
}
