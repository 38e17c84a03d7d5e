//! What a person should know of a result: a code for programs, a severity, and a sentence.

use core::fmt;

use super::caution::Caution;
use crate::blank::PanelMark;
use crate::fitting::Near;
use crate::input::{Face, Measure};
use crate::seam::SeamMark;
use crate::units::{Length, LengthUnit, Volume, VolumeUnit};

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
    /// A bend is tighter than its sheet takes.
    TightBend {
        /// The two faces.
        faces: [Face; 2],
        /// Its inside radius.
        radius: Length,
        /// The least, across the grain.
        least: Length,
    },
    /// No table tells how tight this sheet can be bent.
    BendUnknown {
        /// The two faces.
        faces: [Face; 2],
        /// Its inside radius.
        radius: Length,
    },
    /// A hole comes nearer to a seam, a bend or another hole than it should.
    HoleClose {
        /// The fitting, counted from 1.
        fitting: u8,
        /// Its wall.
        face: Face,
        /// What it comes near to.
        to: Near,
        /// How near.
        distance: Length,
        /// How near it should come at most.
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
            Self::TightBend { .. } => "tight-bend",
            Self::BendUnknown { .. } => "bend-unknown",
            Self::HoleClose { .. } => "hole-close",
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
            Self::BendUnknown { .. } => Severity::Info,
            Self::SmallFace { .. }
            | Self::SmallEdge { .. }
            | Self::TightBend { .. }
            | Self::HoleClose { .. }
            | Self::TargetMissed { .. } => Severity::Caution,
            Self::VentBeforeWelding | Self::ArcAndFume | Self::UsedTank => Severity::Caution,
        }
    }

    /// The cautions that tell the same in whole: who shows all of these need not show the notice as well. None of a
    /// notice about this tank alone.
    #[must_use]
    pub const fn told_by(&self) -> &'static [Caution] {
        match self {
            Self::VentBeforeWelding => &[Caution::VentFirst],
            Self::ArcAndFume => &[
                Caution::ArcRays,
                Caution::OzoneFume,
                Caution::ChlorinatedSolvent,
            ],
            Self::UsedTank => &[Caution::UsedTank],
            _ => &[],
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
            Self::TightBend { faces: [a, b], radius, least } => write!(
                f,
                "the bend between {a} and {b} has an inside radius of {}, and this alloy and temper takes {} at least, across the grain; tighter, it may crack",
                mm(radius),
                mm(least)
            ),
            Self::BendUnknown { faces: [a, b], radius } => write!(
                f,
                "no table here tells how tight this alloy and temper can be bent: try the {} of the bend between {a} and {b} on scrap first",
                mm(radius)
            ),
            Self::HoleClose { fitting, face, to, distance, least } => {
                write!(f, "the hole of fitting {fitting} in the {face} comes within {} of ", mm(distance))?;
                match to {
                    Near::Seam(other) => write!(f, "the seam with {other}")?,
                    Near::Bend(other) => write!(f, "the bend to {other}")?,
                    Near::Hole(other) => write!(f, "that of fitting {other}")?,
                }
                write!(f, "; common practice keeps {} at least", mm(least))
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
