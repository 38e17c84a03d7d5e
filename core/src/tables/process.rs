//! Welding processes and the share of the arc energy that a standard counts as heat input.

use super::Family;
use crate::units::Ratio;

/// A welding process.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Process {
    /// Tungsten inert gas on alternating current, as for aluminium.
    TigAc,
    /// Tungsten inert gas on direct current, electrode negative, as for steels.
    TigDc,
    // On the wire a process is its place in this list: new ones go to its end.
    /// Wire fed into an arc in inert gas, as for aluminium.
    Mig,
    /// Wire fed into an arc in active gas, as for steels.
    Mag,
    /// Wire with a core of flux fed into an arc in active gas.
    FluxCored,
}

impl Process {
    /// Every process.
    pub const ALL: [Self; 5] = [
        Self::TigAc,
        Self::TigDc,
        Self::Mig,
        Self::Mag,
        Self::FluxCored,
    ];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::TigAc => "tig ac",
            Self::TigDc => "tig dc",
            Self::Mig => "mig",
            Self::Mag => "mag",
            Self::FluxCored => "flux-cored",
        }
    }

    /// Its number in ISO 4063 (from memory).
    #[must_use]
    pub const fn number(self) -> u16 {
        match self {
            Self::TigAc | Self::TigDc => 141,
            Self::Mig => 131,
            Self::Mag => 135,
            Self::FluxCored => 136,
        }
    }

    /// Whether the filler is a wire that is itself the electrode; else it is a rod beside a tungsten.
    #[must_use]
    pub const fn feeds_wire(self) -> bool {
        matches!(self, Self::Mig | Self::Mag | Self::FluxCored)
    }

    /// What a family of metals is welded with where the job does not say.
    #[must_use]
    pub const fn usual(family: Family) -> Self {
        match family {
            Family::Aluminium => Self::TigAc,
            Family::Stainless | Family::Steel => Self::TigDc,
        }
    }

    /// The factor `k` between arc energy and heat input: EN 1011-1:2009, table 1: 0.6 for process 141, 0.8 for 131, 135
    /// and 136.
    #[must_use]
    pub const fn nominal_efficiency(self) -> Ratio {
        Ratio::from_share(if self.feeds_wire() { 0.8 } else { 0.6 })
    }
}
