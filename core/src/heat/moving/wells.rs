//! Power that keeps a melt of a given width going, and how long it takes to freeze.

use core::f64::consts::PI;

use super::Moving;
use crate::units::refuse::{Field, Refused, above, within};
use crate::units::{Length, Temperature, Time};

impl Moving {
    /// Net power in watts that keeps a melt of `width` in sheet:
    /// `8 λ (Tm−T₀) d (0.2 + v w / 4a)`, A. A. Wells, Welding Journal 31 (1952), as in J. F. Lancaster,
    /// Metallurgy of Welding (both from memory). The source's own power plays no part.
    ///
    /// # Errors
    /// [`Refused`] for a melting point at or below the cold sheet, or a width outside 0 to 1 m.
    pub fn wells_power_thin(&self, melting: Temperature, width: Length) -> Result<f64, Refused> {
        let (rise, side) = self.melt(melting, width)?;
        Ok(8.0 * self.conductivity * rise * self.thickness * (0.2 + side))
    }

    /// The same in thick metal: `(5π/4) λ (Tm−T₀) w (0.4 + v w / 4a)`.
    ///
    /// # Errors
    /// As [`wells_power_thin`](Self::wells_power_thin).
    pub fn wells_power_thick(&self, melting: Temperature, width: Length) -> Result<f64, Refused> {
        let (rise, side) = self.melt(melting, width)?;
        Ok(1.25 * PI * self.conductivity * rise * width.si() * (0.4 + side))
    }

    /// Rise to the melting point, and `v w / 4a`.
    fn melt(&self, melting: Temperature, width: Length) -> Result<(f64, f64), Refused> {
        let rise = self.rise(melting)?;
        let w = above(Field::Distance, width.si(), 0.0, 1.0)?;
        Ok((rise, 0.25 * self.travel * w / self.diffusivity()))
    }

    /// How long the melt takes to freeze, `S = L Q / (2πλρc (Tm−T₀)²)`: AWS Welding Handbook, vol. 1
    /// (from memory). `latent` is the heat of melting for each volume, in J/m³.
    ///
    /// # Errors
    /// [`Refused`] for a melting point at or below the cold sheet, or a heat of melting outside 0.1 to
    /// 10 GJ/m³.
    pub fn solidification_time(&self, melting: Temperature, latent: f64) -> Result<Time, Refused> {
        let rise = self.rise(melting)?;
        let latent = within(Field::Latent, latent, 1e8, 1e10)?;
        let down = 2.0 * PI * self.conductivity * self.heat_capacity * rise * rise;
        Ok(Time::from_seconds(latent * self.per_metre() / down))
    }
}
