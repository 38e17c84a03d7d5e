//! Why a fitting or a baffle does not fit where it is put.

use core::fmt;

use crate::input::Face;
use crate::units::{Length, LengthUnit};

/// Why a fitting or a baffle does not fit where it is put.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum PlaceError {
    /// The hole runs over the edge, or into the bend, of its face.
    OffFace {
        /// The face.
        face: Face,
        /// How far past.
        by: Length,
    },
    /// On a dished end a hole is set at the centre only.
    OffCentre {
        /// The end.
        face: Face,
        /// How far off it is.
        by: Length,
        /// Where the centre is, both ways.
        centre: Length,
    },
    /// A fitting without a passage needs its outer diameter.
    NoOuter,
    /// Two holes run into each other.
    Overlap {
        /// The other fitting, counted from 1.
        other: u8,
    },
    /// The baffle stands outside the space within the sheet.
    Outside {
        /// Where that space begins on the baffle's axis.
        low: Length,
        /// Where it ends.
        high: Length,
    },
    /// The plane of the baffle meets the space within in more than one piece.
    Parted,
    /// In a drum a baffle stands across the axis, within the straight wall.
    NotAcrossDrum,
    /// A hole runs over the edge of its baffle.
    OffBaffle {
        /// How far past.
        by: Length,
    },
    /// There is no room for it. No gauge looks at that, so it stands in no reply of one.
    #[cfg_attr(feature = "serde", serde(skip))]
    Room(RoomError),
}

/// What of a cut does not fit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum CutFault {
    /// The clearance leaves nothing of it: it must be less.
    Clearance,
    /// A level baffle has no below and above.
    Level,
    /// The gaps together leave nothing: they must be less.
    Gaps,
    /// What the gaps leave is in more than one piece.
    Parted,
    /// The corner notches meet: they must be less.
    Corner,
    /// The corner notches end within a bend: they must be more.
    Bend,
    /// A round baffle has no corners.
    Round,
    /// A notch, counted from 1, is wider than its side: it must be less.
    Wide(u8),
    /// A notch, counted from 1, is deeper than the plate.
    Deep(u8),
    /// More than twelve corners.
    Corners,
    /// A flange is shorter than its bend takes: it must be more.
    FlangeShort,
    /// A flange at this wall is longer than there is room for: it may be this at most.
    FlangeLong(Face),
    /// A flange over an opening below or above is longer than there is room for.
    FlangeLongOpen,
    /// A flange at this wall runs into another baffle, counted from 1: it may be this at most.
    FlangeOnBaffle(Face, u8),
    /// A flange at this wall runs under a fitting, counted from 1: it may be this at most.
    FlangeOnFitting(Face, u8),
    /// The flange at this wall, or over an opening, finds no length between what its ends need.
    FlangeNarrow(Option<Face>),
    /// A hole, counted from 1, reaches into the bend of a flange by this.
    FlangeHole(u8),
    /// This wall does not stand square to the baffle, or is round.
    FlangeLeans(Face),
    /// The baffle has no straight edge at this wall.
    FlangeNowhere(Face),
    /// Nothing is left open below it, or above it where that is set.
    FlangeNoGap(bool),
    /// A wall that a flange lies along is not plug-welded to it here.
    FlangePlugged(Face),
    /// In a drum a baffle has no flanges here.
    FlangeRound,
    /// It does not meet a wall along a straight edge with room for a plug weld.
    Plugs(Face),
    /// It does not meet a wall through which it is to be plug-welded, or is to be left free of it as well.
    NoPlugs(Face),
    /// A plug weld lies nearer to a fitting, counted from 1, than its own diameter.
    PlugAtFitting(Face, u8),
}

/// What is in the way of a fitting or a baffle.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum RoomError {
    /// The hole lies across the line along which its wall is closed on itself.
    OnSeam {
        /// The wall.
        face: Face,
        /// How far over that line it reaches.
        by: Length,
    },
    /// What stands in runs into a wall.
    Through {
        /// That wall.
        wall: Face,
        /// How far in it may stand.
        most: Length,
    },
    /// What stands in runs into a baffle.
    IntoBaffle {
        /// The baffle, counted from 1.
        baffle: u8,
    },
    /// What stands in runs into that of another fitting.
    IntoTube {
        /// The other fitting, counted from 1.
        other: u8,
    },
    /// The hole lies over the flange of a flanged lap, or in its bend.
    OnFlange {
        /// The face beyond the edge at which the flange is.
        other: Face,
        /// How far it reaches over it.
        by: Length,
    },
    /// A baffle cannot be cut so.
    Cut {
        /// What of its cut does not fit.
        fault: CutFault,
        /// What it must stay below, or reach; zero where no limit helps.
        limit: Length,
    },
}

impl fmt::Display for RoomError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mm = |length: &Length| length.display(LengthUnit::Millimetre, 2);
        match self {
            Self::OnSeam { face, by } => write!(
                f,
                "the hole reaches {} over the seam that closes the {face}: move it by more than that, and rather by three thicknesses and 10 mm more",
                mm(by)
            ),
            Self::Through { wall, most } => write!(
                f,
                "it stands in so far that it runs into the {wall}: it may stand in {} at most there; shorten it, or move it",
                mm(most)
            ),
            Self::IntoBaffle { baffle } => write!(
                f,
                "it stands in so far that it runs into baffle {baffle}: shorten it, move it, or give the baffle a hole that lets it through"
            ),
            Self::IntoTube { other } => write!(
                f,
                "within the tank it runs into what stands in of fitting {other}: shorten or move one of them"
            ),
            Self::OnFlange { other, by } => write!(
                f,
                "the hole reaches {} over the flange at the edge with the {other}: move it, make the lap shorter, or weld that edge with another joint",
                mm(by)
            ),
            Self::Cut { fault, limit } => {
                write!(f, "the baffle cannot be cut so: {fault:?}, {}", mm(limit))
            }
        }
    }
}

impl core::error::Error for RoomError {}

impl fmt::Display for PlaceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mm = |length: &Length| length.display(LengthUnit::Millimetre, 2);
        match self {
            Self::OffFace { face, by } => write!(
                f,
                "the hole runs {} over the edge or into the bend of the {face}: move it, or make it smaller",
                mm(by)
            ),
            Self::OffCentre { face, by, centre } => write!(
                f,
                "on a dished end a fitting is set at the centre only, and this one is {} off that of the {face}: write {} both ways",
                mm(by),
                mm(centre)
            ),
            Self::NoOuter => f.write_str(
                "a fitting with no bore needs its outer diameter: what size is the hole that it is set into?",
            ),
            Self::Overlap { other } => {
                write!(f, "its hole runs into that of fitting {other}: move one of them")
            }
            Self::Outside { low, high } => write!(
                f,
                "the baffle stands outside the space within the sheet, which runs from {} to {} there",
                mm(low),
                mm(high)
            ),
            Self::Parted => f.write_str(
                "the inside is in more than one piece where this baffle stands: give each piece a panel of its own, or move the baffle",
            ),
            Self::NotAcrossDrum => f.write_str(
                "in a drum a baffle stands across the axis, within the straight wall",
            ),
            Self::OffBaffle { by } => write!(
                f,
                "the hole runs {} over the edge of its baffle: move it, or make it smaller",
                mm(by)
            ),
            // In a gauge's program there is no room for the words, which are [`RoomError`]'s.
            Self::Room(_) => f.write_str("no room for it there"),
        }
    }
}

impl core::error::Error for PlaceError {}
