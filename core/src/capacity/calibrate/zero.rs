//! The depth zero of a rod, from pours.

use heapless::Vec;

use super::{
    CalibrateError, Calibrated, LEAST_POURS, MOST_POURS, Pair, Pour, check, count, finish, line,
};
use crate::units::range::{Limit, OutOfRange, Value};
use crate::units::{Length, Volume};

/// Moving the rod must bend the chart by this share of its reach, or no pour can show how it stands.
const BENDS: f64 = 1e-3;
/// Cuts of the golden section: 0.618^40 of the way is some nanometres.
const CUTS: u32 = 40;
const GOLDEN: f64 = 0.618_033_988_749_894_9;
/// Halvings on the way out of the tank.
const HALVINGS: u32 = 20;
/// The z is at an end when it is this share of the way from it.
const END: f64 = 1e-6;

type Pairs = Vec<Pair, MOST_POURS>;

/// Like [`calibrate`](super::calibrate) from depths, and the depth zero with it: the z of at most `most`
/// either way that leaves the smallest squares, by golden section. `model` gives the volume at a depth,
/// `None` outside the tank; no z is tried that takes a pour out of the tank.
///
/// Asks the model for up to a hundred volumes a pour.
///
/// # Errors
/// [`CalibrateError`] names the pour, its value and the limit; fewer than three pours, or walls too straight
/// between them, do not give a zero.
pub fn calibrate_with_zero(
    model: &dyn Fn(Length) -> Option<Volume>,
    pours: &[Pour],
    brim: Volume,
    most: Length,
) -> Result<Calibrated, CalibrateError> {
    if !(most.si() > 0.0 && most.si().is_finite()) {
        return Err(CalibrateError::Most(OutOfRange {
            value: Value::Length(most),
            limit: Limit::Above(Value::Length(Length::from_metres(0.0))),
        }));
    }
    let here = pairs(model, pours, 0.0)?;
    rising(pours)?;
    check(&here, brim, LEAST_POURS + 1)?;
    let squares = |zero: f64| match pairs(model, pours, zero) {
        Ok(pairs) => line(&pairs).squares,
        Err(_) => f64::INFINITY,
    };
    let end = |end: f64| inside(end, &|zero| pairs(model, pours, zero).is_ok());
    let [lowest, highest] = [end(-most.si()), end(most.si())];
    let shift = if highest > -lowest { highest } else { lowest };
    if !bends(&here, &pairs(model, pours, 0.5 * shift)?) {
        return Err(CalibrateError::Straight);
    }
    let zero = golden(lowest, highest, &squares);
    let slack = END * (highest - lowest);
    let limit = |end: f64| Value::Length(Length::from_metres(end));
    let limit = if !(zero > lowest + slack) {
        Some(Limit::Above(limit(lowest)))
    } else if !(zero < highest - slack) {
        Some(Limit::Below(limit(highest)))
    } else {
        None
    };
    let zero = Length::from_metres(zero);
    if let Some(limit) = limit {
        return Err(CalibrateError::ZeroFar(OutOfRange {
            value: Value::Length(zero),
            limit,
        }));
    }
    finish(&pairs(model, pours, zero.si())?, zero, LEAST_POURS + 1)
}

fn rising(pours: &[Pour]) -> Result<(), CalibrateError> {
    let mut before: Option<Length> = None;
    for (pour, number) in pours.iter().zip(1_u8..) {
        if let Some(before) = before
            && !(pour.depth > before)
        {
            return Err(CalibrateError::Depth {
                pour: number,
                error: OutOfRange {
                    value: Value::Length(pour.depth),
                    limit: Limit::Above(Value::Length(before)),
                },
            });
        }
        before = Some(pour.depth);
    }
    Ok(())
}

/// The end, or the farthest on the way to it from zero where `good` still holds.
fn inside(end: f64, good: &dyn Fn(f64) -> bool) -> f64 {
    if good(end) {
        return end;
    }
    let (mut near, mut far) = (0.0, end);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (near + far);
        if good(middle) {
            near = middle;
        } else {
            far = middle;
        }
    }
    near
}

/// Whether a chart that is moved differs from what it was by more than an offset and a scale take up.
fn bends(here: &Pairs, there: &Pairs) -> bool {
    let mut moved = here.clone();
    for (pair, other) in moved.iter_mut().zip(there) {
        pair.measured = other.model;
    }
    let reach = match (here.first(), here.last()) {
        (Some(first), Some(last)) => last.model.si() - first.model.si(),
        _ => 0.0,
    };
    libm::sqrt(line(&moved).squares) > BENDS * reach
}

/// Where a function with one low is lowest.
fn golden(mut low: f64, mut high: f64, of: &dyn Fn(f64) -> f64) -> f64 {
    let (mut left, mut right) = (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
    let (mut at_left, mut at_right) = (of(left), of(right));
    for _ in 0..CUTS {
        if at_left < at_right {
            high = right;
            (right, at_right) = (left, at_left);
            left = high - GOLDEN * (high - low);
            at_left = of(left);
        } else {
            low = left;
            (left, at_left) = (right, at_right);
            right = low + GOLDEN * (high - low);
            at_right = of(right);
        }
    }
    0.5 * (low + high)
}

/// What the model says of every pour, with the rod standing off by `zero` metres.
fn pairs(
    model: &dyn Fn(Length) -> Option<Volume>,
    pours: &[Pour],
    zero: f64,
) -> Result<Pairs, CalibrateError> {
    count(pours.len(), LEAST_POURS + 1)?;
    let mut pairs = Vec::new();
    for (pour, number) in pours.iter().zip(1_u8..) {
        let outside = CalibrateError::Outside {
            pour: number,
            depth: pour.depth,
        };
        let model = model(Length::from_metres(pour.depth.si() + zero)).ok_or(outside)?;
        let measured = pour.measured;
        // They were counted.
        pairs.push(Pair { model, measured }).map_err(|_| outside)?;
    }
    Ok(pairs)
}
