//! Whether a sheet is thin or thick to an arc: the relative thickness of Adams, Welding Journal 37 (1958), as the AWS
//! Welding Handbook, vol. 1, gives it (from memory).

use super::Moving;
use crate::units::Temperature;
use crate::units::range::RangeError;

/// Below this relative thickness a plate is thin: AWS Welding Handbook, vol. 1 (from memory).
pub const THIN_BELOW: f64 = 0.6;
/// Above this one it is thick.
pub const THICK_ABOVE: f64 = 0.9;
/// Between them this is where the thin formula hands over to the thick one.
pub const SPLIT: f64 = 0.75;

/// Whether heat soaks through the sheet or spreads into it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Regime {
    /// Thin: one temperature through the sheet.
    Thin,
    /// Between, nearer thin.
    RatherThin,
    /// Between, nearer thick.
    RatherThick,
    /// Thick.
    Thick,
}

impl Regime {
    /// Which of the two forms to use.
    #[must_use]
    pub const fn is_thin(self) -> bool {
        matches!(self, Self::Thin | Self::RatherThin)
    }
}

impl Moving {
    /// Relative thickness `τ = d √(ρc (T − T₀) / Q)` for what happens at `temperature`.
    ///
    /// # Errors
    /// [`RangeError`] unless the temperature is above the cold sheet's, by at most 5000 K.
    pub fn relative_thickness(&self, temperature: Temperature) -> Result<f64, RangeError> {
        let rise = self.rise(temperature)?;
        Ok(self.thickness * libm::sqrt(self.heat_capacity * rise / self.per_metre()))
    }

    /// Whether the sheet counts as thin or thick at `temperature`.
    ///
    /// # Errors
    /// As [`relative_thickness`](Self::relative_thickness).
    pub fn regime(&self, temperature: Temperature) -> Result<Regime, RangeError> {
        let tau = self.relative_thickness(temperature)?;
        Ok(if tau < THIN_BELOW {
            Regime::Thin
        } else if tau < SPLIT {
            Regime::RatherThin
        } else if tau <= THICK_ABOVE {
            Regime::RatherThick
        } else {
            Regime::Thick
        })
    }
}
