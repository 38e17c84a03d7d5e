//! What is wrong with a job, and where.

use core::fmt;

use crate::body::{Face, ShapeError};
use crate::bound::OutOfRange;
use crate::fixture::PlaceError;
use crate::joint::JointError;
use crate::panel::BlankError;

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
    /// A point of an outline.
    Point(u8),
    /// The base of a taper.
    Base(u8),
    /// The top of a taper.
    TopSize(u8),
    /// How far a taper's top stands off its base.
    Shift(u8),
    Diameter,
    Crown,
    Knuckle,
    Alloy,
    Thickness,
    /// The thickness of one face.
    FaceThickness(Face),
    JointsDefault,
    /// An edge with a joint of its own, counted from 1.
    OwnJoint(u8),
    /// A folded edge, counted from 1.
    Fold(u8),
    BendRadius,
    KFactor,
    Lap,
    Gap,
    /// A fitting as a whole.
    Fitting(u8),
    FittingAt(u8),
    FittingBore(u8),
    FittingOuter(u8),
    FittingStandIn(u8),
    /// A baffle as a whole.
    Baffle(u8),
    BaffleAt(u8),
    BaffleThickness(u8),
    /// Where a hole of a baffle is.
    BaffleHoleAt(u8, u8),
    Headspace,
    Target,
    PickUp,
    PickUpAt,
    Neck,
    Pitch,
    Roll,
    DipStep,
    DipVolume,
    DipAt,
    FillTemperature,
    Hottest,
    Liquid,
    Process,
    Current,
    Voltage,
    Travel,
    Efficiency,
    StitchMax,
    TackPitch,
    InterpassMax,
    Ambient,
    Emissivity,
    Moving,
    UseTemperature,
    UsePressure,
    /// Along which axis, counted from 1.
    Acceleration(u8),
    /// A mount, counted from 1.
    Mount(u8),
    // The numbers of these stand in the wire, so what comes later is added here.
    FittingFace(u8),
    BaffleAcross(u8),
    /// How large a hole of a baffle is.
    BaffleHoleDiameter(u8, u8),
}

impl fmt::Display for Field {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Cut(n) => return write!(f, "shape.cut {n}"),
            Self::CutLeg(n, leg) => return write!(f, "shape.cut {n} leg {leg}"),
            Self::CutThrough(n, axis) => return write!(f, "shape.cut {n} through {axis}"),
            Self::Point(n) => return write!(f, "shape.outline {n}"),
            Self::Base(n) => return write!(f, "shape.base {n}"),
            Self::TopSize(n) => return write!(f, "shape.top {n}"),
            Self::Shift(n) => return write!(f, "shape.shift {n}"),
            Self::FaceThickness(face) => return write!(f, "stock.faces.{face}"),
            Self::OwnJoint(n) => return write!(f, "joints.edges {n}"),
            Self::Fold(n) => return write!(f, "joints.folds {n}"),
            Self::Fitting(n) => return write!(f, "fitting {n}"),
            Self::FittingFace(n) => return write!(f, "fitting {n} face"),
            Self::FittingAt(n) => return write!(f, "fitting {n} at"),
            Self::FittingBore(n) => return write!(f, "fitting {n} bore"),
            Self::FittingOuter(n) => return write!(f, "fitting {n} outer"),
            Self::FittingStandIn(n) => return write!(f, "fitting {n} stand_in"),
            Self::Baffle(n) => return write!(f, "baffle {n}"),
            Self::BaffleAcross(n) => return write!(f, "baffle {n} across"),
            Self::BaffleAt(n) => return write!(f, "baffle {n} at"),
            Self::BaffleThickness(n) => return write!(f, "baffle {n} thickness"),
            Self::BaffleHoleAt(n, hole) => return write!(f, "baffle {n} hole {hole} at"),
            Self::BaffleHoleDiameter(n, hole) => {
                return write!(f, "baffle {n} hole {hole} diameter");
            }
            Self::Name => "name",
            Self::Shape => "shape",
            Self::Length => "shape.length",
            Self::Width => "shape.width",
            Self::Height => "shape.height",
            Self::Diameter => "shape.diameter",
            Self::Crown => "shape.crown",
            Self::Knuckle => "shape.knuckle",
            Self::Alloy => "stock.alloy",
            Self::Thickness => "stock.thickness",
            Self::JointsDefault => "joints.default",
            Self::BendRadius => "joints.bend_radius",
            Self::KFactor => "joints.k_factor",
            Self::Lap => "joints.lap",
            Self::Gap => "joints.gap",
            Self::Headspace => "fill.headspace",
            Self::Target => "fill.target",
            Self::PickUp => "fill.pick_up",
            Self::PickUpAt => "fill.pick_up_at",
            Self::Neck => "fill.neck",
            Self::Pitch => "fill.pitch",
            Self::Roll => "fill.roll",
            Self::DipStep => "fill.dip_step",
            Self::DipVolume => "fill.dip_volume",
            Self::DipAt => "fill.dip_at",
            Self::FillTemperature => "fill.fill_temperature",
            Self::Hottest => "fill.hottest",
            Self::Liquid => "fill.liquid",
            Self::Process => "arc.process",
            Self::Current => "arc.current",
            Self::Voltage => "arc.voltage",
            Self::Travel => "arc.travel",
            Self::Efficiency => "arc.efficiency",
            Self::StitchMax => "weld.stitch_max",
            Self::TackPitch => "weld.tack_pitch",
            Self::InterpassMax => "weld.interpass_max",
            Self::Ambient => "weld.ambient",
            Self::Emissivity => "weld.emissivity",
            Self::Moving => "weld.move",
            Self::UseTemperature => "use.temperature",
            Self::UsePressure => "use.pressure",
            Self::Acceleration(_) => "use.acceleration",
            Self::Mount(_) => "use.mounts",
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
            Self::EdgeTaken([a, b]) => write!(
                f,
                "the edge between {a} and {b} has its joint already: it is named twice, or it is a rounded corner, which is one sheet"
            ),
            Self::FoldOfTwoSheets([a, b]) => write!(
                f,
                "the edge between {a} and {b} cannot be folded: the two are of different thickness"
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
