//! The inputs of a job by name.

use core::fmt;

use super::Face;

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
    /// A wall that a baffle is not welded to.
    BaffleFree(u8, Face),
    /// How long each weld of a baffle is that is welded here and there.
    BaffleWeldLength(u8),
    /// The gap from one of them to the next.
    BaffleWeldGap(u8),
    /// The least opening for hand and torch.
    Opening,
    /// How far they reach.
    Reach,
    /// What of the fill reaches the pick-ups.
    Reaches,
}

impl fmt::Display for Field {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Cut(n) => return numbered(f, "shape.cut", *n, ""),
            Self::CutLeg(n, leg) => return write!(f, "shape.cut {n} leg {leg}"),
            Self::CutThrough(n, axis) => return write!(f, "shape.cut {n} through {axis}"),
            Self::Point(n) => return numbered(f, "shape.outline", *n, ""),
            Self::Base(n) => return numbered(f, "shape.base", *n, ""),
            Self::TopSize(n) => return numbered(f, "shape.top", *n, ""),
            Self::Shift(n) => return numbered(f, "shape.shift", *n, ""),
            Self::FaceThickness(face) => return write!(f, "stock.faces.{face}"),
            Self::OwnJoint(n) => return numbered(f, "joints.edges", *n, ""),
            Self::Fold(n) => return numbered(f, "joints.folds", *n, ""),
            Self::Fitting(n) => return numbered(f, "fitting", *n, ""),
            Self::FittingFace(n) => return numbered(f, "fitting", *n, " face"),
            Self::FittingAt(n) => return numbered(f, "fitting", *n, " at"),
            Self::FittingBore(n) => return numbered(f, "fitting", *n, " bore"),
            Self::FittingOuter(n) => return numbered(f, "fitting", *n, " outer"),
            Self::FittingStandIn(n) => return numbered(f, "fitting", *n, " stand_in"),
            Self::Baffle(n) => return numbered(f, "baffle", *n, ""),
            Self::BaffleAcross(n) => return numbered(f, "baffle", *n, " across"),
            Self::BaffleAt(n) => return numbered(f, "baffle", *n, " at"),
            Self::BaffleThickness(n) => return numbered(f, "baffle", *n, " thickness"),
            Self::BaffleHoleAt(n, hole) => return write!(f, "baffle {n} hole {hole} at"),
            Self::BaffleHoleDiameter(n, hole) => {
                return write!(f, "baffle {n} hole {hole} diameter");
            }
            Self::BaffleFree(n, wall) => return write!(f, "baffle {n} free {wall}"),
            Self::BaffleWeldLength(n) => return numbered(f, "baffle", *n, " weld_length"),
            Self::BaffleWeldGap(n) => return numbered(f, "baffle", *n, " weld_gap"),
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
            Self::Reaches => "fill.reaches",
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
            Self::Opening => "weld.opening",
            Self::Reach => "weld.reach",
            Self::UseTemperature => "use.temperature",
            Self::UsePressure => "use.pressure",
            Self::Acceleration(_) => "use.acceleration",
            Self::Mount(_) => "use.mounts",
        })
    }
}

/// A numbered key: one place for all of them, as each costs a small gauge flash.
#[inline(never)]
fn numbered(f: &mut fmt::Formatter<'_>, before: &str, number: u8, after: &str) -> fmt::Result {
    write!(f, "{before} {number}{after}")
}
