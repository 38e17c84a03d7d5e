//! Flow of shielding gas.

/// A flow of gas at 15 °C and 101.325 kPa.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(transparent)
)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Flow(f64);

impl Flow {
    /// From cubic metres a second.
    #[must_use]
    pub const fn from_si(value: f64) -> Self {
        Self(value)
    }

    /// In cubic metres a second.
    #[must_use]
    pub const fn si(self) -> f64 {
        self.0
    }

    /// From litres a minute.
    #[must_use]
    pub const fn from_litres_per_minute(value: f64) -> Self {
        Self(value / 60_000.0)
    }

    /// In litres a minute.
    #[must_use]
    pub const fn litres_per_minute(self) -> f64 {
        self.0 * 60_000.0
    }
}
