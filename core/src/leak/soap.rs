//! Soap on a seam: how often a leak blows a bubble.

use core::f64::consts::PI;

use super::LeakRate;
use super::decay::air as within_tank;
use crate::units::range::RangeError;
use crate::units::{Figure, Length, Temperature, Time};

/// Pressure of the air in a bubble, in pascals: one atmosphere, its own skin left out.
const ATMOSPHERE: f64 = 101_325.0;

/// The time between two bubbles of a diameter at a leak of air at a temperature: π d³/6 · p / Q.
///
/// So a leak that a gauge would take hours to show is seen as soon as the seam is wetted.
///
/// # Errors
/// [`RangeError`] unless the diameter is above zero and at most 100 mm, the leak above zero and the air from −50 to 150 °C.
pub fn bubble_time(diameter: Length, leak: LeakRate, air: Temperature) -> Result<Time, RangeError> {
    let d = Figure::Bubble.above(diameter.si(), 0.0, 0.1)?;
    within_tank(air)?;
    leak.checked()?;
    let bubble = PI * d * d * d / 6.0;
    Ok(Time::from_seconds(
        bubble * ATMOSPHERE / leak.throughput(air),
    ))
}
