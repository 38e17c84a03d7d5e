//! What is wrong with a job, and where.

use core::fmt;

use crate::blank::{BlankError, JointError};
use crate::body::ShapeError;
use crate::fitting::PlaceError;
use crate::input::{Face, Field};
use crate::units::range::OutOfRange;

/// What is wrong with it.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Problem {
    /// A value past its limit.
    OutOfRange(OutOfRange),
    /// The shape with its sheet makes no tank.
    Shape(ShapeError),
    /// The joint does not suit its edge.
    Joint {
        /// The edge.
        faces: [Face; 2],
        /// Why.
        error: JointError,
    },
    /// The panels do not come out of flat sheet.
    Blank(BlankError),
    /// The two faces share no edge.
    NoSuchEdge([Face; 2]),
    /// The edge is named a second time, or is a rounded corner, which is one sheet anyway.
    EdgeTaken([Face; 2]),
    /// A fold's two faces are of different sheets.
    FoldOfTwoSheets([Face; 2]),
    /// What is set into a wall, or stands across the inside, does not fit there.
    Place(PlaceError),
    /// The name is empty.
    Unnamed,
    /// The face named is not one of the body's.
    NoSuchFace(Face),
    /// No published starting value is known for this sheet; the job must give one.
    NoStartingValue,
    /// The place on the plan lies over no liquid.
    OverNoLiquid,
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
    /// The baffle does not meet the wall named.
    NotAtBaffle(Face),
    // The numbers of these stand in the wire, so what comes later is added here.
    /// An end is folded to a side of an outline that has rounded corners.
    FoldBesideRound([Face; 2]),
    /// This machine has no room for what folds of a body that is no profile ask for.
    NoRoomForFold,
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OutOfRange(error) => error.fmt(f),
            Self::Shape(error) => error.fmt(f),
            Self::Joint {
                faces: [a, b],
                error,
            } => {
                write!(f, "the edge between {a} and {b}: {error}")
            }
            Self::Blank(error) => error.fmt(f),
            Self::NoSuchEdge([a, b]) => write!(f, "the faces {a} and {b} share no edge"),
            Self::EdgeTaken(edge) => of_edge(
                f,
                *edge,
                "has its joint already: it is named twice, or it is a rounded corner, which is one sheet",
            ),
            Self::FoldOfTwoSheets(edge) => of_edge(
                f,
                *edge,
                "cannot be folded: the two are of different thickness",
            ),
            Self::Place(error) => error.fmt(f),
            Self::OverNoLiquid => f.write_str("the place on the plan lies over no liquid"),
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
            Self::NoRoomForFold => f.write_str("no room here for folds: see the laptop's plan"),
            Self::FoldBesideRound(edge) => {
                of_edge(f, *edge, "cannot be folded past rounded corners: weld it")
            }
            Self::TooManyMarks { needed, most } => {
                write!(
                    f,
                    "the dip chart would have {needed} marks and may have {most}: take a wider step"
                )
            }
            Self::NotAtBaffle(face) => write!(f, "the baffle does not meet the {face}"),
        }
    }
}

/// What is wrong with an edge.
#[inline(never)]
fn of_edge(f: &mut fmt::Formatter<'_>, [a, b]: [Face; 2], wrong: &str) -> fmt::Result {
    write!(f, "the edge between {a} and {b} {wrong}")
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
