//! What is wrong with a job, and where.

use core::fmt;

use crate::body::{BlockError, Face};
use crate::bound::OutOfRange;

/// An input of a job, by the key under which a job file gives it. Cuts and legs count from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
#[expect(missing_docs, reason = "each is the key that its name spells")]
pub enum Field {
    Name,
    Shape,
    Length,
    Width,
    Height,
    /// A cut as a whole.
    Cut(u8),
    /// A leg of a cut.
    CutLeg(u8, u8),
    /// A coordinate of the point that a cut passes through.
    CutThrough(u8, u8),
    Alloy,
    Thickness,
    /// The thickness of one face.
    FaceThickness(Face),
    JointsDefault,
    Headspace,
    Target,
    PickUp,
    DipStep,
    Process,
    Current,
    Voltage,
    Travel,
    Efficiency,
    StitchMax,
    TackPitch,
}

impl fmt::Display for Field {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Cut(n) => return write!(f, "shape.cut {n}"),
            Self::CutLeg(n, leg) => return write!(f, "shape.cut {n} leg {leg}"),
            Self::CutThrough(n, axis) => return write!(f, "shape.cut {n} through {axis}"),
            Self::FaceThickness(face) => return write!(f, "stock.faces.{face}"),
            Self::Name => "name",
            Self::Shape => "shape",
            Self::Length => "shape.length",
            Self::Width => "shape.width",
            Self::Height => "shape.height",
            Self::Alloy => "stock.alloy",
            Self::Thickness => "stock.thickness",
            Self::JointsDefault => "joints.default",
            Self::Headspace => "fill.headspace",
            Self::Target => "fill.target",
            Self::PickUp => "fill.pick_up",
            Self::DipStep => "fill.dip_step",
            Self::Process => "arc.process",
            Self::Current => "arc.current",
            Self::Voltage => "arc.voltage",
            Self::Travel => "arc.travel",
            Self::Efficiency => "arc.efficiency",
            Self::StitchMax => "weld.stitch_max",
            Self::TackPitch => "weld.tack_pitch",
        })
    }
}

/// What is wrong with it.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Problem {
    /// A value past its limit.
    OutOfRange(OutOfRange),
    /// The block with its cuts and sheet makes no tank.
    Block(BlockError),
    /// The name is empty.
    Unnamed,
    /// The face named is not one of the body's.
    NoSuchFace(Face),
    /// No published starting value is known for this sheet; the job must give one.
    NoStartingValue,
    /// More stitches than a job may have.
    TooManyStitches {
        /// What this job would need, at least.
        needed: u32,
        /// What it may have.
        most: u16,
    },
    /// More tacks on one seam than can be counted.
    TooManyTacks,
    /// More points in the dip chart than may be.
    TooManyMarks {
        /// What this step would give.
        needed: u32,
        /// What there may be.
        most: u16,
    },
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OutOfRange(error) => error.fmt(f),
            Self::Block(error) => error.fmt(f),
            Self::Unnamed => {
                f.write_str("the job has no name: a record without one cannot be found again")
            }
            Self::NoSuchFace(face) => write!(f, "the body has no face called {face}"),
            Self::NoStartingValue => f.write_str(
                "no published starting value reaches this sheet (0.5 to 10 mm): give one here",
            ),
            Self::TooManyStitches { needed, most } => write!(
                f,
                "the job would need {needed} stitches or more and may have {most}: allow a longer stitch"
            ),
            Self::TooManyTacks => {
                f.write_str("a seam would need more than 9999 tacks: allow a wider pitch")
            }
            Self::TooManyMarks { needed, most } => {
                write!(
                    f,
                    "the dip chart would have {needed} marks and may have {most}: take a wider step"
                )
            }
        }
    }
}

/// A job that cannot be computed.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct JobError {
    /// The input at fault.
    pub field: Field,
    /// What is wrong with it.
    pub problem: Problem,
}

impl fmt::Display for JobError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.field, self.problem)
    }
}

impl core::error::Error for JobError {}
