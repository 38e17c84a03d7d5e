//! The sheet about a moving arc, once the arc has run for a while: temperatures and widths.
//!
//! All of this takes a metal whose properties do not change with temperature, no heat of melting, no flow
//! in the pool, no loss to the air, a sheet much larger than the warm field, and a point or a line for an
//! arc. It says how far heat reaches, not the shape of a pool. In thin aluminium at hand speeds heat runs ahead
//! of the arc, so that the well-known short formulas, which take a fast arc, come out two to three times too
//! wide near the pool; [`Rosenthal`] has the whole field. [`adams`] says which of its two forms to take.
//!
//! Sources: D. Rosenthal, Trans. ASME 68 (1946); C. M. Adams, Welding Journal 37 (1958); AWS Welding Handbook,
//! vol. 1; S. Kou, Welding Metallurgy, chapter 2; Ø. Grong, Metallurgical Modelling of Welding, chapter 1 (all
//! from memory).
//!
//! The power here is what enters the metal: arc power times the measured share, not the standard's
//! factor; see [`crate::heat`].

pub mod adams;
mod rosenthal;

pub use rosenthal::{Peak, Rosenthal};

use crate::units::range::RangeError;
use crate::units::{Figure, Length, LineEnergy, Speed, Temperature};

/// An arc that moves along a straight seam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MovingSource {
    /// Power into the metal, in watts: above 0, at most 100 kW.
    pub power: f64,
    /// Along the seam: above 0, at most 1 m/s.
    pub travel: Speed,
}

/// The metal that it runs over.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeldedPlate {
    /// Thickness: 0.1 to 500 mm.
    pub thickness: Length,
    /// Conductivity for heat, in W/(m K): 1 to 500.
    pub conductivity: f64,
    /// Heat capacity for each volume (density times specific heat), in J/(m³ K): 0.5 to 10 MJ/(m³ K).
    pub heat_capacity: f64,
    /// Temperature before the arc: 200 to 1500 K.
    pub start: Temperature,
}

/// A source over a plate, both checked. Plain SI inside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moving {
    power: f64,
    travel: f64,
    thickness: f64,
    conductivity: f64,
    heat_capacity: f64,
    start: f64,
}

impl Moving {
    /// A source over a plate.
    ///
    /// # Errors
    /// [`RangeError`] for a value outside the range that its field names.
    pub fn new(source: MovingSource, plate: WeldedPlate) -> Result<Self, RangeError> {
        Ok(Self {
            power: Figure::Power.above(source.power, 0.0, 1e5)?,
            travel: Figure::Travel.above(source.travel.si(), 0.0, 1.0)?,
            thickness: Figure::Thickness.within(plate.thickness.si(), 1e-4, 0.5)?,
            conductivity: Figure::Conductivity.within(plate.conductivity, 1.0, 500.0)?,
            heat_capacity: Figure::HeatCapacity.within(plate.heat_capacity, 5e5, 1e7)?,
            start: Figure::Start.within(plate.start.si(), 200.0, 1_500.0)?,
        })
    }

    /// Heat for each length of seam, `q / v`.
    #[must_use]
    pub fn line_energy(&self) -> LineEnergy {
        LineEnergy::from_joules_per_metre(self.per_metre())
    }

    /// Diffusivity `λ / ρc`, in m²/s.
    #[must_use]
    pub fn diffusivity(&self) -> f64 {
        self.conductivity / self.heat_capacity
    }

    fn per_metre(&self) -> f64 {
        self.power / self.travel
    }

    /// How far `temperature` lies above the cold sheet, in kelvins.
    fn rise(&self, temperature: Temperature) -> Result<f64, RangeError> {
        Figure::Rise.above(temperature.si() - self.start, 0.0, 5_000.0)
    }
}
