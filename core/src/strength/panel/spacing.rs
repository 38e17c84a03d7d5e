//! How far apart baffles or stiffeners may stand.

use super::super::limits;
use super::super::plate::{Ramp, Sides};
use super::{Bent, PanelMetal};
use crate::units::range::RangeError;
use crate::units::{Length, Pressure};

/// How far apart baffles or stiffeners may stand.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Spacing {
    /// None is needed, however long the panel.
    Any,
    /// No farther than this.
    AtMost(Length),
}

/// Looks at the spacing at the most; each brings it nearer from the safe side.
const LOOKS: u8 = 16;
/// Stress in a strip over `p b²/t²`, with what stretching can add.
const STRIP: f64 = 0.75 * 1.05;
/// The spacing is given no nearer than this share.
const NEAR: f64 = 1e-3;

/// The farthest that baffles or stiffeners may stand apart along a wall that is `across` wide, under the
/// same pressure everywhere (take the highest), for the reserve `target`: each stands for an edge of the
/// panels on both sides of it.
///
/// # Errors
/// [`RangeError`] for a figure past its limits.
pub fn baffle_spacing(
    across: Length,
    thickness: Length,
    metal: PanelMetal,
    pressure: Pressure,
    target: f64,
) -> Result<Spacing, RangeError> {
    let width = limits::size(across.si())?;
    let t = limits::thickness(thickness)?;
    let p = limits::pressure(pressure.si())?;
    let allowed = metal.strength / limits::reserve(target)?;
    // No plate is stressed more than a strip of its short side, `0.75 p b²/t²`, and stretching adds up to
    // 5 % to that (see `Strength`), so this span is always safe.
    let mut safe = t * libm::sqrt(allowed / (STRIP * p));
    if !(safe < width) {
        return Ok(Spacing::Any);
    }
    let over = |span: f64| {
        let Some(sides) = Sides::new(span, width) else {
            return -1.0;
        };
        Bent::of(sides, Ramp::even(p), metal).stresses(t).worst() / allowed - 1.0
    };
    // Past ten widths a plate is a strip of its width.
    let mut unsafe_ = 10.0 * width;
    let (mut low, mut high) = (over(safe), over(unsafe_));
    if high <= 0.0 {
        return Ok(Spacing::Any);
    }
    for look in 0..LOOKS {
        if unsafe_ - safe < NEAR * safe {
            break;
        }
        // By turns a straight line between the two and the middle of their ratio, so that neither end sticks.
        let straight = safe + (unsafe_ - safe) * (-low) / (high - low);
        let next = if look % 2 == 0 && straight > safe && straight < unsafe_ {
            straight
        } else {
            libm::sqrt(safe * unsafe_)
        };
        let value = over(next);
        if value <= 0.0 {
            (safe, low) = (next, value);
        } else {
            (unsafe_, high) = (next, value);
        }
    }
    Ok(Spacing::AtMost(Length::from_metres(safe)))
}
