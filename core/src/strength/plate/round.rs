//! A round plate under a pressure that changes in a straight line across it.
//!
//! In closed form: Timoshenko and Woinowsky-Krieger, *Theory of Plates and Shells*, articles 16 (even pressure) and
//! 63 (the part that changes). Plain `f64` in SI units; ρ is the distance from the middle over the radius, towards
//! the higher pressure.

use super::large::{Held, stretched};
use super::{Bending, peak};

/// A pressure over a disc in pascals: `p = mean + rise · ρ cos θ`, θ from the direction of the highest.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Tilt {
    /// In the middle.
    pub mean: f64,
    /// What is added at the rim where it is highest; zero or more.
    pub rise: f64,
}

/// The bulge over the thickness of a clamped and of a supported disc that cannot pull inward is the root of
/// `w/t + c (w/t)³ = w₀/t`: c, and the stretching stress in the middle over E (w/a)². Timoshenko and
/// Woinowsky-Krieger, table 82 (from memory), ν = 0.3. For other ratios of Poisson they serve as they stand.
const CLAMPED: [f64; 2] = [0.471, 0.976];
const SUPPORTED: [f64; 2] = [1.852, 0.905];

impl Tilt {
    /// The highest pressure, at one place of the rim.
    #[must_use]
    pub fn most(self) -> f64 {
        self.mean + self.rise
    }
}

/// Largest moment and deflection of a disc with its edge held down and free to turn.
///
/// On the diameter towards the highest pressure: `M_r = (3 + ν) p₀ (1 − ρ²)/16 + (5 + ν) p₁ ρ (1 − ρ²)/48`, `M_t`
/// alike, each times a².
#[must_use]
pub fn disc_supported(radius: f64, tilt: Tilt, poisson: f64) -> Bending {
    let nu = poisson;
    let Tilt { mean, rise } = tilt;
    let mut radial = |r: f64| {
        let past = 1.0 - r * r;
        past * ((3.0 + nu) * mean / 16.0 + (5.0 + nu) * rise * r / 48.0)
    };
    let mut round = |r: f64| {
        let even = (3.0 + nu - (1.0 + 3.0 * nu) * r * r) / 16.0;
        let first = (5.0 + nu) * (1.0 + 3.0 * nu) / (3.0 + nu);
        mean * even + rise * r * (first - (1.0 + 5.0 * nu) * r * r) / 48.0
    };
    let mut sag = |r: f64| {
        let past = 1.0 - r * r;
        let even = mean / 64.0 * ((5.0 + nu) / (1.0 + nu) - r * r);
        past * (even + rise * r / 192.0 * ((7.0 + nu) / (3.0 + nu) - r * r))
    };
    let middle = libm::fmax(radial(0.0), round(0.0));
    let moment = libm::fmax(top(&mut radial), top(&mut round));
    Bending {
        moment: libm::fmax(moment, middle) * radius * radius,
        deflection: libm::fmax(sag(0.0), top(&mut sag)) * radius * radius * radius * radius,
    }
}

/// Largest moment, which stands at the edge, and deflection of a disc with its edge held from turning:
/// `M = (p₀/8 + p₁/24) a²`, whatever Poisson's ratio.
#[must_use]
pub fn disc_clamped(radius: f64, tilt: Tilt) -> Bending {
    let Tilt { mean, rise } = tilt;
    let mut sag = |r: f64| {
        let past = 1.0 - r * r;
        past * past * (mean / 64.0 + rise * r / 192.0)
    };
    let square = radius * radius;
    Bending {
        moment: (mean / 8.0 + rise / 24.0) * square,
        deflection: libm::fmax(sag(0.0), top(&mut sag)) * square * square,
    }
}

/// What a disc hands on at its edge where the pressure is highest, in N/m: `p₀ a/2`, and of the part that changes a
/// quarter of p₁ a where it is free to turn and 7/24 where it is held, so that forces and moments balance.
#[must_use]
pub fn disc_reaction(radius: f64, tilt: Tilt) -> f64 {
    radius * (0.5 * tilt.mean + 7.0 / 24.0 * tilt.rise)
}

/// The bulge of a disc with an edge that cannot pull inward, `linear` being the one by bending alone; as
/// [`held()`](super::held()).
#[must_use]
pub fn disc_held(radius: f64, linear: f64, thickness: f64, modulus: f64, clamped: bool) -> Held {
    let [c, stretch] = if clamped { CLAMPED } else { SUPPORTED };
    stretched([c, stretch], radius, linear, thickness, modulus)
}

/// The largest of a function between the middle and the rim.
fn top(of: &mut dyn FnMut(f64) -> f64) -> f64 {
    peak::along(of, 0.0, 1.0)
}
