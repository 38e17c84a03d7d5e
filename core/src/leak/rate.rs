//! How fast a tank loses air.

use core::fmt;

use crate::units::{Decimal, Temperature};

/// The molar gas constant in J/(mol K): exact since the SI of 2019 (CODATA 2018, from memory). 40 CFR
/// 1065.644 prints 8.314472, an older figure, 1.1 millionths higher.
pub const GAS: f64 = 8.314_462_618;

/// Standard temperature of a standard cubic centimetre, in kelvins: 0 °C (SEMI E12, from memory).
const STANDARD_KELVINS: f64 = 273.15;
/// Its pressure, in pascals: one atmosphere.
const STANDARD_PASCALS: f64 = 101_325.0;
/// Standard cubic centimetres for each cubic metre, over the minutes in a second.
const PER_MINUTE: f64 = 6e7;

/// A leak rate, in moles of air for each second; positive when the tank loses what was pumped in.
///
/// Moles do not depend on where the air is; Pa·m³/s do, so they need the temperature of the gas.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(transparent)
)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct LeakRate(f64);

impl LeakRate {
    /// From mol/s.
    #[must_use]
    pub const fn from_moles(value: f64) -> Self {
        Self(value)
    }

    /// In mol/s.
    #[must_use]
    pub const fn moles(self) -> f64 {
        self.0
    }

    /// From Pa·m³/s of gas at a temperature, n = Q / (R T).
    #[must_use]
    pub const fn from_throughput(value: f64, at: Temperature) -> Self {
        Self(value / (GAS * at.si()))
    }

    /// In Pa·m³/s of gas at a temperature: 1 Pa·m³/s is 10 mbar·L/s.
    #[must_use]
    pub const fn throughput(self, at: Temperature) -> f64 {
        self.0 * GAS * at.si()
    }

    /// From standard cubic centimetres a minute, at 0 °C and one atmosphere.
    #[must_use]
    pub const fn from_sccm(value: f64) -> Self {
        Self(value / PER_MINUTE * STANDARD_PASCALS / (GAS * STANDARD_KELVINS))
    }

    /// In standard cubic centimetres a minute, at 0 °C and one atmosphere.
    #[must_use]
    pub const fn sccm(self) -> f64 {
        self.0 * (GAS * STANDARD_KELVINS) / STANDARD_PASCALS * PER_MINUTE
    }
}

impl fmt::Display for LeakRate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} sccm", Decimal::new(self.sccm(), 2))
    }
}
