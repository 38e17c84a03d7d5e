//! Why a figure of a liquid cannot be had.

use core::fmt;

use crate::units::{Decimal, Temperature, TemperatureUnit};

/// The least share of glycol that the tables hold, in per cent of the mass.
pub(super) const LEAST_GLYCOL: u8 = 1;
/// The most, in per cent of the mass.
pub(super) const MOST_GLYCOL: u8 = 60;

/// A value outside the published figures of a liquid.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum LiquidError {
    /// A temperature for which nothing is published, or one that is not a number.
    Temperature {
        /// The temperature.
        value: Temperature,
        /// The lowest of the table.
        least: Temperature,
        /// The highest of the table.
        most: Temperature,
    },
    /// A density at 15 °C, in kg/m³, outside the table.
    Density {
        /// The density.
        value: f64,
        /// The least of the table.
        least: f64,
        /// The most of the table.
        most: f64,
    },
    /// A share of glycol, in per cent by mass, outside the table.
    Glycol {
        /// The share.
        value: u8,
    },
}

impl fmt::Display for LiquidError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let celsius = |value: &Temperature| value.display(TemperatureUnit::Celsius, 1);
        match self {
            Self::Temperature { value, least, most } => write!(
                f,
                "the temperature {} is outside the published figures: it must be from {} to {}",
                celsius(value),
                celsius(least),
                celsius(most)
            ),
            Self::Density { value, least, most } => write!(
                f,
                "the density {} kg/m³ at 15 °C is outside the table: it must be from {} to {}",
                Decimal::new(*value, 1),
                Decimal::new(*least, 1),
                Decimal::new(*most, 1)
            ),
            Self::Glycol { value } => write!(
                f,
                "the share of glycol is {value} %: it must be from {LEAST_GLYCOL} % to {MOST_GLYCOL} % by mass"
            ),
        }
    }
}

impl core::error::Error for LiquidError {}
