//! Why a panel, or a wall of a tank, cannot be judged.

use core::fmt;

use crate::tables::LiquidError;
use crate::units::range::RangeError;
use crate::units::{Temperature, TemperatureUnit};

/// Why a panel cannot be judged.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum PanelError {
    /// A figure past its limits.
    Range(RangeError),
    /// The outline has fewer than three corners.
    TooFew {
        /// How many it has.
        corners: u8,
    },
    /// A coordinate of the outline is not a number, or without end.
    NotFinite,
    /// All corners of the outline lie on one line.
    NoArea,
}

impl PanelError {
    /// Whether the outline is no panel at all, whatever its sheet and its load.
    pub(super) const fn is_of_outline(self) -> bool {
        !matches!(self, Self::Range(_))
    }
}

impl From<RangeError> for PanelError {
    fn from(error: RangeError) -> Self {
        Self::Range(error)
    }
}

impl fmt::Display for PanelError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Range(error) => error.fmt(f),
            Self::TooFew { corners } => {
                write!(
                    f,
                    "the panel has {corners} corners, and must have at least 3"
                )
            }
            Self::NotFinite => f.write_str("a corner of the panel is not a number"),
            Self::NoArea => f.write_str("the panel has no area: all its corners lie on one line"),
        }
    }
}

impl core::error::Error for PanelError {}

/// Why a wall or a seam of a tank cannot be judged.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum StrengthError {
    /// No source has the strength of this alloy beside a weld.
    Unknown,
    /// The liquid has no density at its temperature.
    Liquid(LiquidError),
    /// A figure past its limits, or an outline that is no plate.
    Panel(PanelError),
    /// Its metal gets hotter in service than is known of its strength.
    TooHot {
        /// How hot it gets.
        gets: Temperature,
        /// The hottest that is known of.
        most: Temperature,
    },
    /// A baffle that is open below or above it, is not welded to a wall, or has flanges, and that strips of it between two
    /// opposite walls would not bear its load: no figures here for a plate with a free edge.
    FreeEdge,
}

impl From<LiquidError> for StrengthError {
    fn from(error: LiquidError) -> Self {
        Self::Liquid(error)
    }
}

impl From<RangeError> for StrengthError {
    fn from(error: RangeError) -> Self {
        Self::Panel(PanelError::Range(error))
    }
}

impl From<PanelError> for StrengthError {
    fn from(error: PanelError) -> Self {
        Self::Panel(error)
    }
}

impl fmt::Display for StrengthError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unknown => f.write_str(
                "no source has the strength of this alloy beside a weld; choose another",
            ),
            Self::Liquid(error) => error.fmt(f),
            Self::Panel(error) => error.fmt(f),
            Self::TooHot { gets, most } => write!(
                f,
                "it gets {} in service, and what this metal bears is not known past {}: keep it cooler or choose another",
                gets.display(TemperatureUnit::Celsius, 0),
                most.display(TemperatureUnit::Celsius, 0)
            ),
            Self::FreeEdge => f.write_str(
                "of a baffle with a free edge only strips between two opposite walls are looked at, and these would not bear its load: it bears more, and how much is not judged; take thicker sheet or hold another edge",
            ),
        }
    }
}

impl core::error::Error for StrengthError {}
