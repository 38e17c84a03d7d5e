//! A wall whose top edge is free: of a tank without a top.

use super::super::plate::{OpenTop, Rise, stiffness};
use super::{Bound, Metal};
use crate::units::input::{Input, InputError, check};
use crate::units::{Length, Pressure};

/// How a wall with a free top edge bears its load. Its welded edges are held from turning in part, so that stress
/// and bulge lie between the two bounds of each.
///
/// By bending alone: a free edge lets the sheet pull inward, so that stretching is not counted on. Where
/// `bulges` says so the figures are on the safe side, and the sheet is too thin to look well: a rim or a
/// stiffener along the top mends that first.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct OpenStrength {
    /// Highest stress with base and sides free to turn.
    pub stress_supported: Pressure,
    /// Highest stress with base and sides held from turning.
    pub stress_clamped: Pressure,
    /// Bulge with base and sides free to turn.
    pub bulge_supported: Length,
    /// Bulge with base and sides held from turning.
    pub bulge_clamped: Length,
    /// Strength over the higher of the two stresses; without end under no pressure.
    pub reserve: f64,
    /// Which edges that is for.
    pub ruling: Bound,
    /// Whether the bulge passes half the thickness.
    pub bulges: bool,
}

/// Judges an upright rectangular wall that is held at its base and both sides and free at its top, under a
/// pressure that changes in a straight line from `base` to `top`: of a liquid up to the rim ρ g h and zero.
///
/// Rules for the strength of the seams that hold it are [`seam`](super::super::weld::seam)'s; nothing here says
/// whether the rim is safe to lean on, or stays straight when the tank is lifted.
///
/// # Errors
/// [`InputError`] for a figure past its limits; [`Input::Spread`] where the wall is more than five times as
/// wide as high, or as high as wide.
pub fn open_top(
    width: Length,
    height: Length,
    thickness: Length,
    metal: Metal,
    base: Pressure,
    top: Pressure,
) -> Result<OpenStrength, InputError> {
    let (wide, high) = (
        check(Input::Size, width.si())?,
        check(Input::Size, height.si())?,
    );
    let t = check(Input::Thickness, thickness.si())?;
    let load = Rise {
        base: check(Input::Pressure, base.si())?,
        top: check(Input::Pressure, top.si())?,
    };
    let ratio = check(Input::Spread, wide / high)?;
    let refused = || crate::units::input::refused(Input::Spread, ratio);
    let plate = OpenTop::new(wide, high).ok_or_else(refused)?;
    let free = plate.supported(load, metal.poisson);
    let fixed = plate.clamped(load, metal.poisson);
    let d = stiffness(metal.modulus, metal.poisson, t);
    let (of_free, of_fixed) = (free.stress(t), fixed.stress(t));
    let bulge = free.bulge(d);
    Ok(OpenStrength {
        stress_supported: Pressure::from_pascals(of_free),
        stress_clamped: Pressure::from_pascals(of_fixed),
        bulge_supported: Length::from_metres(bulge),
        bulge_clamped: Length::from_metres(fixed.bulge(d)),
        reserve: metal.strength / libm::fmax(of_free, of_fixed),
        ruling: if of_free >= of_fixed {
            Bound::Supported
        } else {
            Bound::Clamped
        },
        bulges: bulge > 0.5 * t,
    })
}
