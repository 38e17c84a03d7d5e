//! Petroleum products: density and growth from one measured density.
//!
//! The form and the constants of API MPMS chapter 11.1 (1980), also ASTM D1250-80 and ISO 91-1, at
//! 15 °C (all from memory): α = K0/ρ² + K1/ρ and V15/V = exp(−α ΔT (1 + 0.8 α ΔT)), ρ at 15 °C in kg/m³.
//! Two constants hold for a whole trade, so the result is good to some tenths of a per cent of volume
//! over 60 K; what an additive or a bio share does is not in it.

use super::{FARTHEST, LiquidError};
use crate::units::{Density, Temperature, TemperatureUnit};

/// The density that the tables start from is that at this temperature.
pub const BASE: Temperature = Temperature::new(15.0, TemperatureUnit::Celsius);

/// A petroleum product of a known density.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Petroleum {
    density: f64,
    alpha: f64,
}

impl Petroleum {
    /// Densities of refined products in the tables, in kg/m³ at 15 °C (table 54B, from memory).
    pub const REFINED: [f64; 2] = [653.0, 1_075.0];
    /// Densities of lubricating oils in the tables, in kg/m³ at 15 °C (table 54D, from memory).
    pub const LUBRICATING: [f64; 2] = [800.0, 1_164.0];

    /// Petrol, kerosene, jet fuel, diesel, heating oil: by density at 15 °C in kg/m³, 653 to 1075.
    ///
    /// Constants of table 54B (from memory): petrol up to 770, a passage up to 787.5, kerosene and jet
    /// fuel up to 838.5, diesel and heavier above.
    ///
    /// # Errors
    /// [`LiquidError::Density`] outside those.
    pub fn refined(density: f64) -> Result<Self, LiquidError> {
        let density = in_table(density, Self::REFINED)?;
        Ok(Self {
            density,
            alpha: refined_alpha(density),
        })
    }

    /// Lubricating and hydraulic oils of mineral base: by density at 15 °C in kg/m³, 800 to 1164.
    ///
    /// # Errors
    /// [`LiquidError::Density`] outside those.
    pub fn lubricating(density: f64) -> Result<Self, LiquidError> {
        let density = in_table(density, Self::LUBRICATING)?;
        Ok(Self {
            density,
            alpha: lubricating_alpha(density),
        })
    }

    /// A product of a density that is known to be in the table, for the liquids that come with one.
    pub(super) fn known(density: f64, lubricating: bool) -> Self {
        Self {
            density,
            alpha: if lubricating {
                lubricating_alpha(density)
            } else {
                refined_alpha(density)
            },
        }
    }

    /// How fast it grows at 15 °C, as a share of its volume for each kelvin.
    #[must_use]
    pub const fn alpha(&self) -> f64 {
        self.alpha
    }

    /// Its volume at 15 °C as a share of that at `temperature`, −50 °C to 150 °C (the range of the 2004
    /// edition, from memory).
    ///
    /// # Errors
    /// [`LiquidError::Temperature`] outside those.
    pub fn to_base(&self, temperature: Temperature) -> Result<f64, LiquidError> {
        let [least, most] = FARTHEST;
        if !(temperature >= least && temperature <= most) {
            return Err(LiquidError::Temperature {
                value: temperature,
                least,
                most,
            });
        }
        let by = self.alpha * (temperature.si() - BASE.si());
        Ok(libm::exp(-by * (1.0 + 0.8 * by)))
    }

    /// Its density at `temperature`, −50 °C to 150 °C.
    ///
    /// # Errors
    /// [`LiquidError::Temperature`] outside those.
    pub fn density(&self, temperature: Temperature) -> Result<Density, LiquidError> {
        let density = self.density * self.to_base(temperature)?;
        Ok(Density::from_kilograms_per_cubic_metre(density))
    }
}

fn in_table(density: f64, [least, most]: [f64; 2]) -> Result<f64, LiquidError> {
    if density >= least && density <= most {
        Ok(density)
    } else {
        Err(LiquidError::Density {
            value: density,
            least,
            most,
        })
    }
}

fn refined_alpha(density: f64) -> f64 {
    let square = density * density;
    if density <= 770.0 {
        346.4228 / square + 0.4388 / density
    } else if density < 787.5 {
        2_680.320_6 / square - 0.003_363_12
    } else if density < 838.5 {
        594.5418 / square
    } else {
        186.9696 / square + 0.4862 / density
    }
}

fn lubricating_alpha(density: f64) -> f64 {
    0.6278 / density
}
