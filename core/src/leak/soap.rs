//! Soap on a seam: how often a leak blows a bubble.

use core::f64::consts::PI;

use super::decay::{above, range, within_air};
use super::{LeakError, LeakRate, What};
use crate::units::range::Value;
use crate::units::{Length, Temperature, Time};

/// Pressure of the air in a bubble, in pascals: one atmosphere, its own skin left out.
const ATMOSPHERE: f64 = 101_325.0;

/// The time between two bubbles of a diameter at a leak of air at a temperature: π d³/6 · p / Q.
///
/// So a leak that a gauge would take hours to show is seen as soon as the seam is wetted.
///
/// # Errors
/// [`LeakError`] unless the diameter is above zero and at most 100 mm, the leak above zero and the air from −50 to 150 °C.
pub fn bubble_time(diameter: Length, leak: LeakRate, air: Temperature) -> Result<Time, LeakError> {
    let (none, most) = (Length::from_metres(0.0), Length::from_metres(0.1));
    above(diameter, none, most, Value::Length).map_err(range(What::Bubble))?;
    within_air(air).map_err(range(What::Temperature))?;
    if !(leak.moles() > 0.0 && leak.moles().is_finite()) {
        return Err(LeakError::Leak(leak));
    }
    let d = diameter.si();
    let bubble = PI * d * d * d / 6.0;
    Ok(Time::from_seconds(
        bubble * ATMOSPHERE / leak.throughput(air),
    ))
}
