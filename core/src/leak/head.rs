//! A head of liquid and its pressure.

use crate::units::constant::GRAVITY;
use crate::units::{Length, Pressure};

/// The gauge pressure under a head of liquid of `density` kg/m³: p = ρ g h.
///
/// 46 CFR 119.435 takes a standpipe of 3.5 m of water for 35 kPa; exactly it is 34.32 kPa.
#[must_use]
pub const fn pressure_under(head: Length, density: f64) -> Pressure {
    Pressure::from_pascals(density * GRAVITY * head.si())
}

/// The head of liquid of `density` kg/m³, above zero, that makes a gauge pressure: h = p / (ρ g).
#[must_use]
pub const fn head_for(pressure: Pressure, density: f64) -> Length {
    Length::from_metres(pressure.si() / (density * GRAVITY))
}
