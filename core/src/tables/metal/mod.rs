//! What is known of each alloy as a metal, each figure with its source.
//!
//! The table keeps whole numbers of a small unit and one byte for the source, 2 to 6 bytes a figure, so
//! that all of it fits some kilobytes of flash; the methods hand out SI.

mod figure;
mod heated;
mod rows;
mod steels;
mod strength;

use super::{Alloy, Source, Sourced, Temper};
use crate::units::{Ratio, Temperature, TemperatureUnit};
use figure::{Figure, Hardness, Share};

pub use heated::HeatedMetal;
pub use strength::{Condition, Strength, StrengthBasis, Welded};

/// The physical data of one alloy.
#[derive(Debug)]
pub struct Metal {
    /// J/(kg K).
    heat_capacity: Figure,
    /// W/(m K), where no temper is told or it makes no difference.
    conductivity: Figure,
    /// W/(m K) in other tempers.
    conductivities: &'static [(Hardness, Figure)],
    /// °C.
    solidus: Figure,
    /// °C.
    liquidus: Figure,
    /// 1e-7 /K.
    expansion: Figure,
    /// 0.1 `GPa`.
    modulus: Figure,
    /// 0.01.
    poisson: Figure,
    /// 0.01.
    bright: Figure,
    magnesium: Share,
    silicon: Share,
    heat_treatable: bool,
    strengths: &'static [strength::Row],
    welded: &'static [strength::WeldedRow],
}

/// The share of an element by mass.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Content {
    /// The least that the standard allows.
    pub least: Ratio,
    /// The most.
    pub most: Ratio,
    /// The figure to reckon with: the nominal one where it is known, else the middle of the range; of an
    /// impurity, which has a most only, none.
    pub nominal: Ratio,
}

impl Metal {
    /// Heat capacity near room temperature, in J/(kg K). Of aluminium alloys some tables give it at
    /// 100 °C, which is 5 % more than at 25 °C.
    #[must_use]
    pub fn heat_capacity(&self) -> Sourced<f64> {
        self.heat_capacity.over(1.0)
    }

    /// Where it begins to melt.
    #[must_use]
    pub fn solidus(&self) -> Sourced<Temperature> {
        self.solidus.celsius()
    }

    /// Where it is all liquid.
    #[must_use]
    pub fn liquidus(&self) -> Sourced<Temperature> {
        self.liquidus.celsius()
    }

    /// Linear expansion for each kelvin, 20 to 100 °C.
    #[must_use]
    pub fn expansion(&self) -> Sourced<f64> {
        self.expansion.over(1e7)
    }

    /// Modulus of elasticity, in Pa.
    #[must_use]
    pub fn modulus(&self) -> Sourced<f64> {
        self.modulus.times(1e8)
    }

    /// Poisson's ratio.
    #[must_use]
    pub fn poisson(&self) -> Sourced<f64> {
        self.poisson.over(100.0)
    }

    /// Total emissivity of the sheet as it comes from the rolls.
    #[must_use]
    pub fn emissivity_bright(&self) -> Sourced<f64> {
        self.bright.over(100.0)
    }

    /// Magnesium; none in the steels.
    #[must_use]
    pub fn magnesium(&self) -> Sourced<Content> {
        self.magnesium.content()
    }

    /// Silicon.
    #[must_use]
    pub fn silicon(&self) -> Sourced<Content> {
        self.silicon.content()
    }

    /// Whether it is hardened by heat treatment, which a weld undoes: the 6xxx alloys.
    #[must_use]
    pub const fn heat_treatable(&self) -> bool {
        self.heat_treatable
    }

    /// Conductivity near room temperature, in W/(m K), in a temper.
    ///
    /// H12, H22 and H32 count alike, as do H14, H24 and H34, and so on: the last digit tells how hard.
    /// Where the table has no figure for the temper, or none is told, it is that of the annealed sheet, of
    /// a heat-treatable alloy that of T6, the temper in which it is sold.
    #[must_use]
    pub fn conductivity(&self, temper: Option<Temper>) -> Sourced<f64> {
        let told = temper.map(Hardness::of);
        self.conductivities
            .iter()
            .find(|(hardness, _)| Some(*hardness) == told)
            .map_or(self.conductivity, |(_, figure)| *figure)
            .over(1.0)
    }
}

impl Alloy {
    /// What is known of it as a metal.
    #[must_use]
    pub const fn metal(self) -> &'static Metal {
        match self {
            Self::A1050 => &rows::A1050,
            Self::A1100 => &rows::A1100,
            Self::A3003 => &rows::A3003,
            Self::A3103 => &rows::A3103,
            Self::A5005 => &rows::A5005,
            Self::A5052 => &rows::A5052,
            Self::A5083 => &rows::A5083,
            Self::A5086 => &rows::A5086,
            Self::A5454 => &rows::A5454,
            Self::A5754 => &rows::A5754,
            Self::A6061 => &rows::A6061,
            Self::A6063 => &rows::A6063,
            Self::A6082 => &rows::A6082,
            Self::S304 => &steels::S304,
            Self::S304L => &steels::S304L,
            Self::S316 => &steels::S316,
            Self::S316L => &steels::S316L,
            Self::LowCarbonSteel => &steels::LOW_CARBON,
            Self::S235 => &steels::S235,
            Self::S275 => &steels::S275,
            Self::S355 => &steels::S355,
            Self::Dc01 => &steels::DC01,
            Self::Dd11 => &steels::DD11,
        }
    }

    /// Conductivity near room temperature, in W/(m K), in a temper: see [`Metal::conductivity`].
    #[must_use]
    pub fn conductivity(self, temper: Option<Temper>) -> Sourced<f64> {
        self.metal().conductivity(temper)
    }
}

const fn celsius(value: f64) -> Temperature {
    Temperature::new(value, TemperatureUnit::Celsius)
}

#[cfg(test)]
mod tests;
