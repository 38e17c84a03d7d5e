//! What a person should know of a result: a code for programs, a severity, and a sentence.

use core::fmt;

use crate::body::Face;
use crate::capacity::Measure;
use crate::panel::PanelMark;
use crate::quantity::{Length, LengthUnit, Volume, VolumeUnit};
use crate::seam::SeamMark;

/// How much a notice matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Severity {
    /// Good to know.
    Info,
    /// Mind this when the tank is made.
    Caution,
    /// The tank cannot be made, or not safely, as it is described.
    Warning,
}

impl Severity {
    /// The word for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Info => "info",
            Self::Caution => "caution",
            Self::Warning => "warning",
        }
    }
}

/// One thing to know.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Notice {
    /// The sheet takes the whole of a face, so that its panel has no inside.
    FaceLost {
        /// The panel.
        mark: PanelMark,
        /// Its face.
        face: Face,
    },
    /// A panel is too small to be held and tacked.
    SmallFace {
        /// The panel.
        mark: PanelMark,
        /// Its face.
        face: Face,
        /// The least distance across it.
        across: Length,
        /// What it should be at least.
        least: Length,
    },
    /// A seam is shorter than one tack.
    SmallEdge {
        /// The seam.
        mark: SeamMark,
        /// Its length.
        length: Length,
        /// What it should be at least.
        least: Length,
    },
    /// The tank holds less than was asked for.
    TargetMissed {
        /// Which capacity.
        of: Measure,
        /// What was asked for.
        target: Volume,
        /// What it holds.
        holds: Volume,
    },
    /// Every tank: leave the fittings open.
    VentBeforeWelding,
    /// Every tank: rays and fume.
    ArcAndFume,
    /// Every tank: never weld one that was used, unless it was made safe.
    UsedTank,
}

impl Notice {
    /// A stable code for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::FaceLost { .. } => "face-lost",
            Self::SmallFace { .. } => "small-face",
            Self::SmallEdge { .. } => "small-edge",
            Self::TargetMissed { .. } => "target-missed",
            Self::VentBeforeWelding => "vent-before-welding",
            Self::ArcAndFume => "arc-and-fume",
            Self::UsedTank => "used-tank",
        }
    }

    /// How much it matters.
    #[must_use]
    pub const fn severity(&self) -> Severity {
        match self {
            Self::FaceLost { .. } => Severity::Warning,
            Self::SmallFace { .. } | Self::SmallEdge { .. } | Self::TargetMissed { .. } => {
                Severity::Caution
            }
            Self::VentBeforeWelding | Self::ArcAndFume | Self::UsedTank => Severity::Caution,
        }
    }
}

impl fmt::Display for Notice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mm = |length: &Length| length.display(LengthUnit::Millimetre, 1);
        let litres = |volume: &Volume| volume.display(VolumeUnit::Litre, 3);
        match self {
            Self::FaceLost { mark, face } => write!(
                f,
                "panel {mark} ({face}) has no inside: the sheets around it take all of it; make that cut larger or leave it out"
            ),
            Self::SmallFace { mark, face, across, least } => write!(
                f,
                "panel {mark} ({face}) is only {} across, less than one tack of {}; it is hard to hold and to weld",
                mm(across),
                mm(least)
            ),
            Self::SmallEdge { mark, length, least } => {
                write!(f, "seam {mark} is only {} long, less than one tack of {}", mm(length), mm(least))
            }
            Self::TargetMissed { of, target, holds } => write!(
                f,
                "the {} capacity is {}, short of the {} asked for",
                of.name(),
                litres(holds),
                litres(target)
            ),
            Self::VentBeforeWelding => f.write_str(
                "leave a fitting open while you weld: air shut in a tank heats, blows through the last of the seam and can burst it",
            ),
            Self::ArcAndFume => f.write_str(
                "cover skin and eyes from the arc, draw off fume and ozone, and keep chlorinated cleaners far away: arc light turns their vapour to phosgene; local rules go first",
            ),
            Self::UsedTank => f.write_str(
                "never weld a tank that has held fuel, oil or anything that gives off vapour unless a licensed practice has made it safe and tested it (ANSI/AWS F4.1, NFPA 326)",
            ),
        }
    }
}
