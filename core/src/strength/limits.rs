//! Between which limits the calculations of strength and balance hold.
//!
//! The limits keep out slips of the unit, and what the formulas do not hold for; common practice, no source,
//! but for Poisson's ratio (below 0.15 the corners of a plate rule, see [`supported`](super::plate::supported()))
//! and the dished end (ASME VIII-1, UG-32, from memory: crown at most the diameter, knuckle at least 6 % of it).

use crate::units::range::RangeError;
use crate::units::{Figure, Length, Pressure};

/// Metres, for a sheet from 0.1 to 100 mm.
pub(crate) fn thickness(of: Length) -> Result<f64, RangeError> {
    Figure::Thickness.within(of.si(), 1e-4, 0.1)
}

/// Metres, for a side or a radius from 1 mm to 100 m.
pub(super) fn size(metres: f64) -> Result<f64, RangeError> {
    Figure::Size.within(metres, 1e-3, 100.0)
}

/// Pascals, for Young's modulus from 1 to 1000 `GPa`.
pub(super) fn modulus(of: Pressure) -> Result<f64, RangeError> {
    Figure::Modulus.within(of.si(), 1e9, 1e12)
}

/// Poisson's ratio, from 0.15 to 0.45.
pub(super) fn poisson(of: f64) -> Result<f64, RangeError> {
    Figure::Poisson.within(of, 0.15, 0.45)
}

/// Pascals, for a strength from 1 to 3000 `MPa`.
pub(super) fn strength(of: Pressure) -> Result<f64, RangeError> {
    Figure::Strength.within(of.si(), 1e6, 3e9)
}

/// A pressure from within, from 0 to 10 `MPa`, in pascals.
pub(super) fn pressure(pascals: f64) -> Result<f64, RangeError> {
    Figure::Pressure.within(pascals, 0.0, 1e7)
}

/// A density, from 0 to 30 000 kg/m³.
pub(crate) fn density(of: f64) -> Result<f64, RangeError> {
    Figure::Density.within(of, 0.0, 3e4)
}

/// What is felt as gravity, from 0 to 1000 m/s².
pub(crate) fn gravity(of: f64) -> Result<f64, RangeError> {
    Figure::Gravity.within(of, 0.0, 1e3)
}

/// A reserve that is wanted, from 0.1 to 100.
pub(super) fn reserve(of: f64) -> Result<f64, RangeError> {
    Figure::Reserve.within(of, 0.1, 100.0)
}

/// The crown radius of a dished end over its diameter, from one half to 1.
pub(super) fn crown(of: f64) -> Result<f64, RangeError> {
    Figure::Crown.within(of, 0.5, 1.0)
}

/// The knuckle radius of a dished end over its crown radius, from 0.06 to 1.
pub(super) fn knuckle(of: f64) -> Result<f64, RangeError> {
    Figure::Knuckle.within(of, 0.06, 1.0)
}

/// The throat of a weld, from 0.1 to 100 mm, in metres.
pub(super) fn throat(metres: f64) -> Result<f64, RangeError> {
    Figure::Throat.within(metres, 1e-4, 0.1)
}

/// What a metre of seam bears, from 0 to 100 MN/m, in N/m; of a moment N·m/m.
pub(super) fn line_force(of: f64) -> Result<f64, RangeError> {
    Figure::LineForce.within(of, 0.0, 1e8)
}
