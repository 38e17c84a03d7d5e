//! Stress that stands in a short stretch of a wall only, while all is elastic.

use crate::units::Pressure;

/// Bending at a hole, at a rim or in a knuckle eases when the metal there yields a little, once; up to twice the yield
/// strength it stays elastic from then on (ASME VIII-2, 5.5.6: primary and secondary stress together at most the greater of
/// three times the stress allowed and twice the yield strength, from memory).
pub const SHAKEN_DOWN: f64 = 2.0;

/// Where such a stress stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum ElasticPlace {
    /// Where the shell of a drum meets its end.
    Rim,
    /// Off the rim: in the knuckle or the crown of an end, or in the shell.
    Wall,
    /// At the edge of a hole in a flat wall.
    Hole,
}

impl ElasticPlace {
    /// The words for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Rim => "at its rim",
            Self::Wall => "off its rim",
            Self::Hole => "at a hole",
        }
    }
}

/// The highest stress of a short stretch.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct ElasticPeak {
    /// At the surface: von Mises' of a drum; at a hole, where the metal is pulled one way only, the stress along its edge.
    pub stress: Pressure,
    /// Where.
    pub place: ElasticPlace,
}

impl ElasticPeak {
    /// The reserve that a yield strength leaves: what is `wanted` where the stress is as high as it may be,
    /// [`SHAKEN_DOWN`] times that strength.
    #[must_use]
    pub fn reserve(&self, strength: Pressure, wanted: f64) -> f64 {
        wanted * SHAKEN_DOWN * strength.si() / self.stress.si()
    }
}

/// What an open hole makes of the two moments of a plate round it, told as a moment along its edge: Goodier's solution for
/// thin plates, as Peterson, *Stress Concentration Factors*, and Timoshenko and Goodier, *Theory of Elasticity*, give it
/// (from memory): `(M₁ + M₂) ± (M₁ − M₂) 2 (1 + ν)/(3 + ν)`. One moment alone rises by `(5 + 3 ν)/(3 + ν)`, two like
/// ones by 2. For a hole that is small beside the plate, and thick in no place: a rim of a fitting makes it less.
pub(super) fn round_a_hole([one, other]: [f64; 2], poisson: f64) -> f64 {
    let more = (one - other) * 2.0 * (1.0 + poisson) / (3.0 + poisson);
    libm::fmax(
        libm::fabs(one + other + more),
        libm::fabs(one + other - more),
    )
}
