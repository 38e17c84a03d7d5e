//! A plate that bulges past half its thickness stretches, and so grows stiffer than bending alone.

use super::Sides;

/// Up to this many thicknesses of bulge the figures of [`held()`] were compared with others.
pub const HELD_TO: f64 = 1.5;

/// Ratios short over long at which the coefficients below stand.
const RATIOS: [f64; 3] = [1.0, 2.0 / 3.0, 0.5];
/// c of the cubic, edges free to turn: the least that numerical solutions of von Kármán's equations for
/// loads of p b⁴/(E t⁴) from 12.5 to 250 call for, so that the bulge is not understated.
const C_SUPPORTED: [f64; 3] = [1.44, 1.67, 2.06];
/// The cubic's coefficient where edges are held from turning.
const C_CLAMPED: [f64; 3] = [0.529, 0.569, 0.639];
/// Stretching stress in the middle over E (w/b)²: the most of the same solutions.
const STRETCH: [f64; 3] = [3.38, 2.96, 2.95];

/// Newton's steps at the most; a bulge of a thousand thicknesses takes 22.
const STEPS: u8 = 60;

/// What stretching makes of a plate whose edges cannot pull inward.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Held {
    /// The bulge, in metres.
    pub bulge: f64,
    /// The stretching stress in the middle, in pascals.
    pub stretch: f64,
    /// The bulge over the one that bending alone would give; bending stress in the middle shrinks at
    /// least as much.
    pub share: f64,
    /// Whether the bulge is past [`HELD_TO`] thicknesses, where nothing was compared.
    pub past: bool,
}

/// The bulge of a plate with edges that cannot pull inward: the root of `w/t + c (w/t)³ = w₀/t`, with
/// w₀ the bulge by bending alone, in metres.
///
/// The cubic is that of the one-term energy solution (Timoshenko and Woinowsky-Krieger, article 101);
/// its c, between sides of 1:1, 1.5:1 and 2:1, is the least that fits von Kármán's equations solved
/// numerically for ν = 0.316, the cases of S. Levy, NACA reports 737 and 740. A longer plate keeps the c
/// of 2:1 (a strip has 3 and 0.75), which overstates its bulge. The bulge comes out up to 7 % too large,
/// the stretching stress up to 15 %.
///
/// The edge of a single sheet with nothing beside it pulls inward, and then stretches little: for it the
/// bulge by bending alone is the safe figure. The edges of a welded tank lie between.
#[must_use]
pub fn held(sides: Sides, linear: f64, thickness: f64, modulus: f64, clamped: bool) -> Held {
    let flat = 1.0 / sides.ratio();
    let c = between(flat, if clamped { &C_CLAMPED } else { &C_SUPPORTED });
    let stretch = between(flat, &STRETCH);
    stretched([c, stretch], sides.short(), linear, thickness, modulus)
}

/// Bulge and stress by the cubic's coefficient c and what the stretching stress is over E (w/span)².
pub(super) fn stretched(
    [c, stretch]: [f64; 2],
    span: f64,
    linear: f64,
    thickness: f64,
    modulus: f64,
) -> Held {
    let target = linear / thickness;
    // Newton's steps from above come down to the one real root and never past it.
    let mut w = target;
    for _ in 0..STEPS {
        let less = (w + c * w * w * w - target) / (1.0 + 3.0 * c * w * w);
        w -= less;
        if !(less > 1e-14 * w) {
            break;
        }
    }
    let bulge = w * thickness;
    let slant = bulge / span;
    Held {
        bulge,
        stretch: stretch * modulus * slant * slant,
        share: if linear > 0.0 { bulge / linear } else { 1.0 },
        past: w > HELD_TO,
    }
}

/// The value at a ratio short over long, straight between those known; the last one below.
fn between(flat: f64, values: &[f64; 3]) -> f64 {
    let [square, middle, long] = *values;
    let [_, second, third] = RATIOS;
    if flat >= second {
        middle + (square - middle) * (flat - second) / (1.0 - second)
    } else if flat >= third {
        long + (middle - long) * (flat - third) / (second - third)
    } else {
        long
    }
}
