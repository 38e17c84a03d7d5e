//! Shielding gases by ISO 14175, and which metal and process each is for.

use core::fmt;

use crate::tables::{Family, Process};

/// A group of shielding gases: ISO 14175 (from memory).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShieldGas {
    /// Argon.
    I1,
    /// Helium.
    I2,
    /// Argon with helium.
    I3,
    /// Argon with 0.5 to 5 % of carbon dioxide.
    M12,
    /// Argon with 0.5 to 3 % of oxygen.
    M13,
    /// Argon with 5 to 15 % of carbon dioxide.
    M20,
    /// Argon with 15 to 25 % of carbon dioxide.
    M21,
    /// Carbon dioxide.
    C1,
}

impl ShieldGas {
    /// Every group.
    pub const ALL: [Self; 8] = [
        Self::I1,
        Self::I2,
        Self::I3,
        Self::M12,
        Self::M13,
        Self::M20,
        Self::M21,
        Self::C1,
    ];

    /// Its symbol in ISO 14175.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::I1 => "I1",
            Self::I2 => "I2",
            Self::I3 => "I3",
            Self::M12 => "M12",
            Self::M13 => "M13",
            Self::M20 => "M20",
            Self::M21 => "M21",
            Self::C1 => "C1",
        }
    }

    /// What it is made of.
    #[must_use]
    pub const fn made_of(self) -> &'static str {
        match self {
            Self::I1 => "argon",
            Self::I2 => "helium",
            Self::I3 => "argon with helium",
            Self::M12 => "argon with up to 5 % of carbon dioxide",
            Self::M13 => "argon with up to 3 % of oxygen",
            Self::M20 => "argon with 5 to 15 % of carbon dioxide",
            Self::M21 => "argon with 15 to 25 % of carbon dioxide",
            Self::C1 => "carbon dioxide",
        }
    }

    /// Whether it leaves hot metal alone.
    #[must_use]
    pub const fn is_inert(self) -> bool {
        matches!(self, Self::I1 | Self::I2 | Self::I3)
    }

    /// What is usual where nobody says: argon for MIG, M21 for MAG and cored wire on steel, M12 for MAG on stainless
    /// steel. Common practice, no source.
    #[must_use]
    pub const fn usual(process: Process, family: Family) -> Self {
        match (process, family) {
            (Process::Mag, Family::Stainless) => Self::M12,
            (Process::Mag | Process::FluxCored, _) => Self::M21,
            _ => Self::I1,
        }
    }

    /// What speaks against it; `None` where nothing does.
    #[must_use]
    pub const fn fault(self, process: Process, family: Family) -> Option<GasFault> {
        match (process, family, self) {
            (_, Family::Aluminium, gas) if !gas.is_inert() => Some(GasFault::ActiveOnAluminium),
            (Process::Mig, _, gas) if !gas.is_inert() => Some(GasFault::ActiveWithMig),
            (Process::Mag | Process::FluxCored, _, gas) if gas.is_inert() => {
                Some(GasFault::InertWithMag)
            }
            (Process::Mag, Family::Stainless, Self::M20 | Self::M21 | Self::C1) => {
                Some(GasFault::CarbonOnStainless)
            }
            (Process::FluxCored, _, Self::M12 | Self::M13 | Self::M20) => {
                Some(GasFault::TooMildForCore)
            }
            (Process::Mig, Family::Stainless | Family::Steel, _) => Some(GasFault::InertOnSteel),
            _ => None,
        }
    }
}

impl fmt::Display for ShieldGas {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} ({})", self.name(), self.made_of())
    }
}

/// What speaks against a gas.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum GasFault {
    /// It burns aluminium.
    ActiveOnAluminium,
    /// The process is one with inert gas.
    ActiveWithMig,
    /// The process is one with active gas.
    InertWithMag,
    /// Stainless steel takes up carbon from it.
    CarbonOnStainless,
    /// Cored wires are made for more carbon dioxide.
    TooMildForCore,
    /// On steel an arc in pure inert gas wanders.
    InertOnSteel,
}

impl GasFault {
    /// Whether the job must not be welded so.
    #[must_use]
    pub const fn forbids(self) -> bool {
        matches!(self, Self::ActiveOnAluminium)
    }

    /// In words, after the gas.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::ActiveOnAluminium => {
                "burns aluminium: the seam turns to oxide and soot. Take argon (I1), or argon with helium (I3)"
            }
            Self::ActiveWithMig => {
                "is active, and MIG is the process with inert gas (ISO 4063, 131): with this gas it is \"mag\""
            }
            Self::InertWithMag => {
                "is inert, and the process is one with active gas: with solid wire it would be \"mig\"; wire and slag of MAG and flux-cored want some oxygen or carbon dioxide (common practice, no source)"
            }
            Self::CarbonOnStainless => {
                "gives carbon and oxide to stainless steel, which then rusts beside the seam; keep to 5 % of carbon dioxide at most: M12 or M13 (common practice, no source)"
            }
            Self::TooMildForCore => {
                "is no gas that cored wires are classified with, which are M21 and C1 (EN ISO 17632, from memory): ask the wire's data sheet"
            }
            Self::InertOnSteel => {
                "makes an arc that wanders and cuts in beside the seam on steel; MAG with a little oxygen or carbon dioxide is usual (common practice, no source)"
            }
        }
    }
}
