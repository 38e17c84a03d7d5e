//! The short formulas for a fast arc: Adams, Welding Journal 37 (1958), as the AWS Welding Handbook,
//! vol. 1, gives them (from memory); regime, peaks, cooling rates and times.

use core::f64::consts::{E, PI};

use super::Moving;
use crate::units::refuse::{Field, Refused, above, within};
use crate::units::{Length, Temperature, Time};

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
    /// [`Refused`] unless the temperature is above the cold sheet's, by at most 5000 K.
    pub fn relative_thickness(&self, temperature: Temperature) -> Result<f64, Refused> {
        let rise = self.rise(temperature)?;
        Ok(self.thickness * libm::sqrt(self.heat_capacity * rise / self.per_metre()))
    }

    /// Whether the sheet counts as thin or thick at `temperature`.
    ///
    /// # Errors
    /// As [`relative_thickness`](Self::relative_thickness).
    pub fn regime(&self, temperature: Temperature) -> Result<Regime, Refused> {
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

    /// The thickness at which the two forms give one cooling time between two temperatures:
    /// `√(Q/(2ρc) · [1/(T₂−T₀) + 1/(T₁−T₀)])`, from setting [`cooling_time_thin`](Self::cooling_time_thin)
    /// equal to [`cooling_time_thick`](Self::cooling_time_thick); EN 1011-2, annex D, has it for 800 and
    /// 500 °C (from memory).
    ///
    /// # Errors
    /// [`Refused`] unless both lie above the cold sheet's temperature.
    pub fn transition_thickness(
        &self,
        hot: Temperature,
        cold: Temperature,
    ) -> Result<Length, Refused> {
        let (hot, cold) = self.pair(hot, cold)?;
        let square = self.per_metre() / (2.0 * self.heat_capacity) * (1.0 / cold + 1.0 / hot);
        Ok(Length::from_metres(libm::sqrt(square)))
    }

    /// Both rises, the hotter first, checked.
    fn pair(&self, hot: Temperature, cold: Temperature) -> Result<(f64, f64), Refused> {
        let (hot, cold) = (self.rise(hot)?, self.rise(cold)?);
        above(Field::Rise, hot, cold, f64::INFINITY)?;
        Ok((hot, cold))
    }

    /// Hottest temperature at `from` the edge of the melt, in sheet:
    /// `1/(Tp−T₀) = √(2πe) ρc d Y / Q + 1/(Tm−T₀)`.
    ///
    /// # Errors
    /// [`Refused`] for a melting point at or below the cold sheet, or a distance outside 0 to 100 m.
    pub fn peak_thin(&self, melting: Temperature, from: Length) -> Result<Temperature, Refused> {
        let y = within(Field::Distance, from.si(), 0.0, 100.0)?;
        let melting = self.rise(melting)?;
        let sum = y / self.reach_thin() + 1.0 / melting;
        Ok(Temperature::from_kelvins(self.start + 1.0 / sum))
    }

    /// How far from the edge of the melt `temperature` is just reached, in sheet: the inverse of
    /// [`peak_thin`](Self::peak_thin).
    ///
    /// # Errors
    /// [`Refused`] unless cold sheet, temperature and melting point follow in this order.
    pub fn distance_thin(
        &self,
        melting: Temperature,
        temperature: Temperature,
    ) -> Result<Length, Refused> {
        let (melting, rise) = self.pair(melting, temperature)?;
        Ok(Length::from_metres(
            self.reach_thin() * (1.0 / rise - 1.0 / melting),
        ))
    }

    /// `Q / (√(2πe) ρc d)`, in m K.
    fn reach_thin(&self) -> f64 {
        self.per_metre() / (libm::sqrt(2.0 * PI * E) * self.heat_capacity * self.thickness)
    }

    /// Hottest temperature at `from` the edge of the melt, in thick metal:
    /// `1/(Tp−T₀) = 5.44 π λ a / (q v) · [2 + (vY/2a)²] + 1/(Tm−T₀)`. The constant is the handbook's,
    /// rounded there.
    ///
    /// The handbook's form does not give the melting point at the edge itself; it is meant for some way
    /// off, in metal that melts in a much narrower band than `2a/v`.
    ///
    /// # Errors
    /// As [`peak_thin`](Self::peak_thin).
    pub fn peak_thick(&self, melting: Temperature, from: Length) -> Result<Temperature, Refused> {
        let y = within(Field::Distance, from.si(), 0.0, 100.0)?;
        let melting = self.rise(melting)?;
        let a = self.diffusivity();
        let side = 0.5 * self.travel * y / a;
        let factor = 5.44 * PI * self.conductivity * a / (self.power * self.travel);
        let sum = factor * (2.0 + side * side) + 1.0 / melting;
        Ok(Temperature::from_kelvins(self.start + 1.0 / sum))
    }

    /// Width of the band that gets hotter than `temperature` by the fast limit in sheet:
    /// `2 Q / (√(2πe) ρc d ΔT)`. Much too wide near a pool in aluminium; see the module.
    ///
    /// # Errors
    /// [`Refused`] unless the temperature is above the cold sheet's.
    pub fn fast_width_thin(&self, temperature: Temperature) -> Result<Length, Refused> {
        let rise = self.rise(temperature)?;
        Ok(Length::from_metres(2.0 * self.reach_thin() / rise))
    }

    /// How fast the line of the seam cools as it passes `temperature`, in sheet, in K/s:
    /// `2πλρc (d/Q)² (T−T₀)³`.
    ///
    /// # Errors
    /// [`Refused`] unless the temperature is above the cold sheet's.
    pub fn cooling_rate_thin(&self, temperature: Temperature) -> Result<f64, Refused> {
        let rise = self.rise(temperature)?;
        let ratio = self.thickness / self.per_metre();
        Ok(
            2.0 * PI
                * self.conductivity
                * self.heat_capacity
                * ratio
                * ratio
                * (rise * rise * rise),
        )
    }

    /// The same in thick metal: `2πλ (T−T₀)² / Q`.
    ///
    /// # Errors
    /// As [`cooling_rate_thin`](Self::cooling_rate_thin).
    pub fn cooling_rate_thick(&self, temperature: Temperature) -> Result<f64, Refused> {
        let rise = self.rise(temperature)?;
        Ok(2.0 * PI * self.conductivity * rise * rise / self.per_metre())
    }

    /// How long the line of the seam takes from `hot` to `cold`, in sheet:
    /// `(Q/d)² / (4πλρc) · [1/(T₂−T₀)² − 1/(T₁−T₀)²]`, the rate's own integral.
    ///
    /// # Errors
    /// [`Refused`] unless cold sheet, `cold` and `hot` follow in this order.
    pub fn cooling_time_thin(&self, hot: Temperature, cold: Temperature) -> Result<Time, Refused> {
        let (hot, cold) = self.pair(hot, cold)?;
        let ratio = self.per_metre() / self.thickness;
        let constant = ratio * ratio / (4.0 * PI * self.conductivity * self.heat_capacity);
        Ok(Time::from_seconds(
            constant * (1.0 / (cold * cold) - 1.0 / (hot * hot)),
        ))
    }

    /// The same in thick metal: `Q / (2πλ) · [1/(T₂−T₀) − 1/(T₁−T₀)]`.
    ///
    /// # Errors
    /// As [`cooling_time_thin`](Self::cooling_time_thin).
    pub fn cooling_time_thick(&self, hot: Temperature, cold: Temperature) -> Result<Time, Refused> {
        let (hot, cold) = self.pair(hot, cold)?;
        let constant = self.per_metre() / (2.0 * PI * self.conductivity);
        Ok(Time::from_seconds(constant * (1.0 / cold - 1.0 / hot)))
    }
}
