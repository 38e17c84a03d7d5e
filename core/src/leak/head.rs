//! A head of liquid and its pressure.

use crate::units::{Length, Pressure};

/// Standard gravity in m/s²: ISO 80000-3, NIST SP 811 appendix B (from memory).
pub const GRAVITY: f64 = 9.806_65;
/// Density of test water in kg/m³, round and slightly high: on the careful side.
pub const WATER: f64 = 1_000.0;

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
