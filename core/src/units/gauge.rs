//! The thickness behind a sheet gauge number.
//!
//! One number means three thicknesses: aluminium is sold by Brown & Sharpe, carbon steel by the
//! Manufacturers' Standard, stainless nominally by the US Standard Gauge. A gauge number alone is no
//! order: order sheet by its decimal thickness and measure what arrives (common practice, no source).

use super::{Length, LengthUnit};

/// A system of sheet gauge numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum SheetGauge {
    /// Brown & Sharpe, also American Wire Gauge: aluminium sheet.
    BrownSharpe,
    /// Manufacturers' Standard Gauge: carbon steel sheet.
    ManufacturersStandard,
    /// US Standard Gauge, nominal: stainless steel sheet.
    UsStandard,
}

/// Ounces on a square foot, gauge 3 to 30: 15 USC 206, US Standard Gauge for sheet and plate iron and
/// steel (from memory).
const OUNCES: [u8; 28] = [
    160, 150, 140, 130, 120, 110, 100, 90, 80, 70, 60, 50, 45, 40, 36, 32, 28, 24, 22, 20, 18, 16,
    14, 12, 11, 10, 9, 8,
];

impl SheetGauge {
    /// The gauge numbers that it has here: 0 to 36 for Brown & Sharpe, 3 to 30 for the others.
    #[must_use]
    pub const fn numbers(self) -> core::ops::RangeInclusive<u8> {
        match self {
            Self::BrownSharpe => 0..=36,
            Self::ManufacturersStandard | Self::UsStandard => 3..=30,
        }
    }

    /// The thickness of gauge `number`, not rounded to the four decimals that tables print; `None`
    /// outside of [`numbers`](Self::numbers).
    ///
    /// * Brown & Sharpe: 0.005 in × 92^((36 - n)/39), ASTM B258 (from memory).
    /// * Manufacturers' Standard: the weight of the US Standard Gauge over 41.82 lb/ft² for an inch.
    ///   The divisor is the one behind published steel sheet tables, where 10 gauge is 5.625 lb/ft² and
    ///   0.1345 in (from memory).
    /// * US Standard: the same weight over 40 lb/ft² for an inch, 15 USC 206 (from memory).
    #[must_use]
    pub fn thickness(self, number: u8) -> Option<Length> {
        if !self.numbers().contains(&number) {
            return None;
        }
        let inches = match self {
            Self::BrownSharpe => 0.005 * libm::pow(92.0, (36.0 - f64::from(number)) / 39.0),
            Self::ManufacturersStandard => pounds_per_square_foot(number)? / 41.82,
            Self::UsStandard => pounds_per_square_foot(number)? / 40.0,
        };
        Some(Length::new(inches, LengthUnit::Inch))
    }
}

fn pounds_per_square_foot(number: u8) -> Option<f64> {
    let index = number.checked_sub(3)?;
    OUNCES
        .get(usize::from(index))
        .map(|ounces| f64::from(*ounces) / 16.0)
}
