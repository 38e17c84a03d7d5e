//! By how much a tank's inside grows with the pressure in it.

use crate::units::{Pressure, Ratio, Volume};

/// What the inside of a tank grows by for each pascal of gauge pressure, in m³: between two figures, for how far the walls
/// stretch and how well shapes are known is uncertain.
///
/// As air leaks out the walls draw in and keep the pressure up, so that a tank with soft walls leaks more than its gauge
/// says: for each pascal it loses not V/(R T) moles but (V + p C)/(R T), p the absolute pressure.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Compliance {
    least: f64,
    most: f64,
}

impl Compliance {
    /// Walls that do not give way.
    pub const RIGID: Self = Self {
        least: 0.0,
        most: 0.0,
    };

    /// From the least to the most, in m³/Pa; `None` unless both are finite, zero or more, and the first is no more than the
    /// second.
    #[must_use]
    pub fn new(least: f64, most: f64) -> Option<Self> {
        (least >= 0.0 && least <= most && most.is_finite()).then_some(Self { least, most })
    }

    /// The least, in m³/Pa.
    #[must_use]
    pub const fn least(self) -> f64 {
        self.least
    }

    /// The most, in m³/Pa.
    #[must_use]
    pub const fn most(self) -> f64 {
        self.most
    }

    /// What share of a leak the walls hide from a gauge at least and at most, `p C/(V + p C)`, in a volume at an absolute
    /// pressure.
    #[must_use]
    pub fn hides(self, volume: Volume, absolute: Pressure) -> [Ratio; 2] {
        [self.least, self.most].map(|gives| {
            let grown = absolute.si() * gives;
            Ratio::from_share(grown / (volume.si() + grown))
        })
    }
}
