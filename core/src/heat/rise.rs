//! How far a temperature lies above another.

use crate::units::Temperature;

/// How far a temperature lies above that of the surroundings.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct TemperatureRise(f64);

impl TemperatureRise {
    /// A rise of so many kelvins.
    #[must_use]
    pub const fn from_kelvins(kelvins: f64) -> Self {
        Self(kelvins)
    }

    /// The rise in kelvins.
    #[must_use]
    pub const fn kelvins(self) -> f64 {
        self.0
    }

    /// The temperature that lies so far above `base`.
    #[must_use]
    pub const fn above(self, base: Temperature) -> Temperature {
        Temperature::from_kelvins(base.si() + self.0)
    }
}
