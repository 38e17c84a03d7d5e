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
}

impl Process {
    /// Every process.
    pub const ALL: [Self; 2] = [Self::TigAc, Self::TigDc];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::TigAc => "tig ac",
            Self::TigDc => "tig dc",
        }
    }

    /// What a family of metals is welded with.
    #[must_use]
    pub const fn usual(family: Family) -> Self {
        match family {
            Family::Aluminium => Self::TigAc,
            Family::Stainless | Family::Steel => Self::TigDc,
        }
    }

    /// The factor `k` between arc energy and heat input: EN 1011-1:2009, table 1, process 141.
    #[must_use]
    pub const fn nominal_efficiency(self) -> Ratio {
        match self {
            Self::TigAc | Self::TigDc => Ratio::from_share(0.6),
        }
    }
}
