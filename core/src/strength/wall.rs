//! Round walls: cylinders, dished ends, and flat discs.
//!
//! Pressure from within only. A wall under vacuum, or with liquid outside, can buckle far below these
//! stresses, and nothing here speaks of that. The formulas for cylinder and dished ends are those of ASME
//! VIII-1, UG-27, UG-32 and Appendix 1-4, turned round to give the stress and with a joint efficiency of 1
//! (from memory); to use them does not make a tank a vessel to that code. Where law counts a tank as a
//! pressure vessel, have it designed and tested by those it licenses.

use super::plate::stiffness;
use crate::units::input::{Input, InputError, check};
use crate::units::{Length, Pressure};

/// The wall of a cylinder.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Hoop {
    /// Stress round the cylinder, which a seam along it bears.
    pub round: Pressure,
    /// Stress along the cylinder, which a seam round it bears.
    pub along: Pressure,
}

/// Stress in a cylinder with the inside `radius`: round it `p (R/t + 0.6)` (UG-27(c)(1)), along it
/// `p (R/t − 0.4) / 2` (UG-27(c)(2)).
///
/// # Errors
/// [`InputError`] for a figure past its limits.
pub fn cylinder(radius: Length, thickness: Length, pressure: Pressure) -> Result<Hoop, InputError> {
    let (slim, p) = checked(radius, thickness, pressure)?;
    Ok(Hoop {
        round: Pressure::from_pascals(p * (slim + 0.6)),
        along: Pressure::from_pascals(0.5 * p * (slim - 0.4)),
    })
}

/// A dished end.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Dish {
    /// Half a sphere.
    Hemisphere,
    /// Half an ellipsoid, half as deep as its radius.
    TwoToOne,
    /// Part of a sphere, and a knuckle.
    Torisphere {
        /// Inside radius of the crown.
        crown: Length,
        /// Inside radius of the knuckle.
        knuckle: Length,
    },
}

/// The highest stress in a dished end on a cylinder with the inside `radius`, with inside diameter D:
/// hemisphere `p (R/t + 0.2) / 2` (UG-27(d)), ellipsoid `p (D/t + 0.2) / 2` (UG-32(d)), torisphere
/// `p (L M/t + 0.2) / 2` with `M = (3 + √(L/r)) / 4` (Appendix 1-4(d)).
///
/// # Errors
/// [`InputError`] for a figure past its limits: a crown wider than the diameter, a knuckle below 6 % of
/// the crown.
pub fn dish(
    dish: Dish,
    radius: Length,
    thickness: Length,
    pressure: Pressure,
) -> Result<Pressure, InputError> {
    let (slim, p) = checked(radius, thickness, pressure)?;
    let factor = match dish {
        Dish::Hemisphere => 1.0,
        Dish::TwoToOne => 2.0,
        Dish::Torisphere { crown, knuckle } => {
            let wide = 2.0 * check(Input::Crown, crown.si() / (2.0 * radius.si()))?;
            let tight = check(Input::Knuckle, knuckle.si() / crown.si())?;
            wide * 0.25 * (3.0 + libm::sqrt(1.0 / tight))
        }
    };
    Ok(Pressure::from_pascals(0.5 * p * (slim * factor + 0.2)))
}

/// A dished end that is thinner than this share of its crown radius can wrinkle at the knuckle below the
/// stress that [`dish`] gives (ASME VIII-1, UG-32, from memory: t/L below 0.002).
pub const THIN_DISH: f64 = 0.002;

/// A flat disc under even pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Disc {
    /// Stress in the middle with the edge free to turn.
    pub stress_supported: Pressure,
    /// Stress at the edge with the edge held from turning.
    pub stress_clamped: Pressure,
    /// Bulge with the edge free to turn.
    pub bulge_supported: Length,
    /// Bulge with the edge held from turning.
    pub bulge_clamped: Length,
}

/// A flat end of a drum, under the highest pressure that it bears anywhere: edge free to turn,
/// `M = (3 + ν) p a² / 16`, `w = (5 + ν) p a⁴ / (64 (1 + ν) D)`; held, `M = p a² / 8`,
/// `w = p a⁴ / (64 D)` (Timoshenko and Woinowsky-Krieger, article 16; Roark, table 11.2, cases 10a and
/// 10b). Small deflection: it overstates a bulge past half the thickness.
///
/// # Errors
/// [`InputError`] for a figure past its limits.
pub fn disc(
    radius: Length,
    thickness: Length,
    modulus: Pressure,
    poisson: f64,
    pressure: Pressure,
) -> Result<Disc, InputError> {
    let (slim, p) = checked(radius, thickness, pressure)?;
    let modulus = check(Input::Modulus, modulus.si())?;
    let nu = check(Input::Poisson, poisson)?;
    let a = radius.si();
    let clamped = p * a * a * a * a / (64.0 * stiffness(modulus, nu, thickness.si()));
    let stress = |coefficient: f64| Pressure::from_pascals(6.0 * coefficient * p * slim * slim);
    Ok(Disc {
        stress_supported: stress((3.0 + nu) / 16.0),
        stress_clamped: stress(0.125),
        bulge_supported: Length::from_metres(clamped * (5.0 + nu) / (1.0 + nu)),
        bulge_clamped: Length::from_metres(clamped),
    })
}

/// Radius over thickness, and the pressure in pascals.
fn checked(
    radius: Length,
    thickness: Length,
    pressure: Pressure,
) -> Result<(f64, f64), InputError> {
    let radius = check(Input::Size, radius.si())?;
    let thickness = check(Input::Thickness, thickness.si())?;
    Ok((radius / thickness, check(Input::Pressure, pressure.si())?))
}
