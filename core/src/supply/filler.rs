//! Filler rod for beads.

use super::Bead;
use crate::input::limits::{ROD_DIAMETER, ROD_LENGTH};
use crate::units::range::RangeError;
use crate::units::{Figure, Length, LengthUnit, Mass, Ratio};

/// Share of a TIG rod's metal that ends in the seam: 0.95 to 1.0 (from memory); the lower end.
pub const DEPOSITION: Ratio = Ratio::from_share(0.95);

/// Stub that is left of a rod: 50 mm of 1 m (from memory).
pub const STUB: Length = Length::new(50.0, LengthUnit::Millimetre);

/// A filler rod.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rod {
    area: f64,
    length: f64,
    stub: f64,
    density: f64,
    deposition: f64,
}

/// What a rod is.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct RodDraft {
    /// Diameter: 0.5 to 10 mm.
    pub diameter: Length,
    /// Length as bought: 100 mm to 2 m.
    pub length: Length,
    /// What is thrown away of each: at least 0, at most half of the length.
    pub stub: Length,
    /// Density in kg/m³: 1000 to 20 000.
    pub density: f64,
    /// Share of what is melted that ends in the seam: 50 to 100 %.
    pub deposition: Ratio,
}

impl Rod {
    /// A rod.
    ///
    /// # Errors
    /// [`RangeError`] for a value outside the range that its field names.
    pub fn new(draft: &RodDraft) -> Result<Self, RangeError> {
        let (thinnest, thickest) = ROD_DIAMETER;
        let (shortest, longest) = ROD_LENGTH;
        let d = Figure::RodDiameter.within(draft.diameter.si(), thinnest.si(), thickest.si())?;
        let length = Figure::RodLength.within(draft.length.si(), shortest.si(), longest.si())?;
        Ok(Self {
            area: 0.25 * core::f64::consts::PI * d * d,
            length,
            stub: Figure::Stub.within(draft.stub.si(), 0.0, 0.5 * length)?,
            density: Figure::Density.within(draft.density, 1_000.0, 20_000.0)?,
            deposition: Figure::Deposition.within(draft.deposition.si(), 0.5, 1.0)?,
        })
    }

    /// Mass of a metre, in kg.
    #[must_use]
    pub fn mass_per_metre(&self) -> f64 {
        self.area * self.density
    }

    /// Length of rod to melt for a bead: `A L / (¼ π d² η)`.
    #[must_use]
    pub fn melted(&self, bead: &Bead) -> Length {
        Length::from_metres(bead.volume().si() / (self.area * self.deposition))
    }

    /// What a length of rod to melt comes to, in rods that are each used down to their stubs.
    ///
    /// # Errors
    /// [`RangeError`] past 10 km of rod.
    pub fn bought(&self, melted: Length) -> Result<RodUse, RangeError> {
        let melted = Figure::RodLength.within(melted.si(), 0.0, 1e4)?;
        // A rod too many by rounding would be one bought for nothing.
        let count = libm::ceil(melted / (self.length - self.stub) - 1e-9);
        // At most 10 km over 50 mm.
        let rods = count as u32;
        let mass = |length: f64| Mass::from_kilograms(length * self.mass_per_metre());
        Ok(RodUse {
            melted: Length::from_metres(melted),
            melted_mass: mass(melted),
            rods,
            bought_mass: mass(f64::from(rods) * self.length),
        })
    }
}

/// What beads use of a rod.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct RodUse {
    /// Length melted.
    pub melted: Length,
    /// Its mass.
    pub melted_mass: Mass,
    /// Rods to have at hand, whole ones.
    pub rods: u32,
    /// Mass of those.
    pub bought_mass: Mass,
}
