//! Filler rod or wire for beads.

use super::Bead;
use crate::input::limits::{ROD_DIAMETER, ROD_LENGTH, SPOOL, WIRE_DIAMETER};
use crate::tables::Process;
use crate::units::range::RangeError;
use crate::units::{Area, Figure, Length, LengthUnit, Mass, Ratio, Speed};

/// Share of a TIG rod's metal that ends in the seam: 0.95 to 1.0 (from memory); the lower end.
pub const DEPOSITION: Ratio = Ratio::from_share(0.95);

/// Stub that is left of a rod: 50 mm of 1 m (from memory).
pub const STUB: Length = Length::new(50.0, LengthUnit::Millimetre);

/// Share of the metal of a wire that ends in the seam, by mass: of solid wire 0.92 to 0.99, of flux-cored wire under gas
/// 0.82 to 0.88 (trade articles on the cost of weld metal; a wire maker's guide has 0.93 to 0.98 for solid wire), the
/// middles of them rounded down; [`DEPOSITION`] of a rod.
#[must_use]
pub const fn deposition(process: Process) -> Ratio {
    match process {
        Process::TigAc | Process::TigDc => DEPOSITION,
        Process::Mig | Process::Mag => Ratio::from_share(0.95),
        Process::FluxCored => Ratio::from_share(0.85),
    }
}

/// The mass of a metre of flux-cored wire, as a share of that of a solid one as thick: common practice, no source.
pub const CORED_MASS: Ratio = Ratio::from_share(0.8);

/// A filler rod, or a wire from a spool.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rod {
    area: f64,
    length: f64,
    stub: f64,
    density: f64,
    /// Share of its volume that ends in the seam as metal without pores.
    deposition: f64,
    spooled: bool,
}

/// What a wire is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WireDraft {
    /// Diameter: 0.4 to 4 mm.
    pub diameter: Length,
    /// Mass of what is on the spool: 0.1 to 50 kg.
    pub spool: Mass,
    /// Density of the metal in kg/m³: 1000 to 20 000.
    pub density: f64,
    /// The process, on which hangs whether it has a core and how much of it ends in the seam.
    pub process: Process,
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
            spooled: false,
        })
    }

    /// A wire from a spool, with the usual [`deposition`] of its process.
    ///
    /// # Errors
    /// [`RangeError`] for a value outside the range that its field names.
    pub fn wire(draft: &WireDraft) -> Result<Self, RangeError> {
        let (thinnest, thickest) = WIRE_DIAMETER;
        let d = Figure::WireDiameter.within(draft.diameter.si(), thinnest.si(), thickest.si())?;
        let spool = Figure::Spool.within(draft.spool.si(), SPOOL.0.si(), SPOOL.1.si())?;
        let metal = Figure::Density.within(draft.density, 1_000.0, 20_000.0)?;
        let area = 0.25 * core::f64::consts::PI * d * d;
        let filled = match draft.process {
            Process::FluxCored => CORED_MASS.si(),
            _ => 1.0,
        };
        let density = filled * metal;
        Ok(Self {
            area,
            length: spool / (area * density),
            stub: 0.0,
            density,
            deposition: filled * deposition(draft.process).si(),
            spooled: true,
        })
    }

    /// The section of bead that a feed of wire fills at a travel speed.
    #[must_use]
    pub fn filled(&self, feed: Speed, travel: Speed) -> Area {
        Area::from_square_metres(self.area * self.deposition * feed.si() / travel.si())
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

    /// What a length of rod to melt comes to, in rods that are each used down to their stubs; of wire, in spools, of
    /// which no more counts as bought than is melted: the rest serves another job.
    ///
    /// # Errors
    /// [`RangeError`] past 10 km of rod.
    pub fn bought(&self, melted: Length) -> Result<RodUse, RangeError> {
        let melted = Figure::RodLength.within(melted.si(), 0.0, 1e4)?;
        // A rod too many by rounding would be one bought for nothing.
        let count = libm::ceil(melted / (self.length - self.stub) - 1e-9);
        // At most 10 km over 50 mm, or over the 900 mm of the least spool of the thickest wire.
        let rods = count as u32;
        let mass = |length: f64| Mass::from_kilograms(length * self.mass_per_metre());
        let bought = if self.spooled {
            melted
        } else {
            f64::from(rods) * self.length
        };
        Ok(RodUse {
            melted: Length::from_metres(melted),
            melted_mass: mass(melted),
            rods,
            bought_mass: mass(bought),
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
    /// Rods or spools to have at hand, whole ones.
    pub rods: u32,
    /// Mass of those rods; of wire, what is used of them.
    pub bought_mass: Mass,
}
