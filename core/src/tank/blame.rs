//! Which input to blame for a shape that makes no tank, or for what does not fit into one.

use crate::body::turned::TurnedError;
use crate::body::{BlockError, DrumError, ProfileError, ShapeError, TaperError};
use crate::fitting::{PlaceError, RoomError};
use crate::geom::outline::section::SectionError;
use crate::input::{Across, Axis, Face, Field, Shape};

pub(crate) fn shape(error: &ShapeError) -> Field {
    match error {
        ShapeError::Block(error) => block(error),
        ShapeError::Profile(error) => profile(error),
        ShapeError::Taper(error) => taper(error),
        ShapeError::Drum(error) => drum(error),
    }
}

fn block(error: &BlockError) -> Field {
    match *error {
        BlockError::Flat => Field::Shape,
        BlockError::SheetFillsBox { .. } => Field::Thickness,
        BlockError::Covered { face } => Field::FaceThickness(face),
        BlockError::NoSuchEdge { cut, .. }
        | BlockError::NoSuchCorner { cut }
        | BlockError::NoDirection { cut }
        | BlockError::RemovesNothing { cut, .. }
        | BlockError::RemovesAll { cut }
        | BlockError::Swallowed { cut, .. }
        | BlockError::SheetFillsCut { cut }
        | BlockError::TooComplex { cut } => Field::Cut(cut),
    }
}

fn profile(error: &ProfileError) -> Field {
    match error {
        ProfileError::Flat => Field::Width,
        ProfileError::SheetFillsWidth { .. } => Field::Thickness,
        ProfileError::TooComplex => Field::Shape,
        ProfileError::Outline(error) | ProfileError::Sheet(error) => section(error),
    }
}

fn section(error: &SectionError) -> Field {
    match *error {
        SectionError::NotFinite { corner }
        | SectionError::Straight { corner }
        | SectionError::TurnsBack { corner }
        | SectionError::Radius { corner, .. }
        | SectionError::RadiusUnderSheet { corner, .. }
        | SectionError::UnequalSheets { corner, .. } => Field::Point(corner),
        SectionError::ZeroSide {
            corners: [_, corner],
        } => Field::Point(corner),
        SectionError::Crossing { sides: [side, _] }
        | SectionError::Thick {
            sides: [side, _], ..
        } => Field::Point(side),
        SectionError::SideVanishes { side, .. } | SectionError::SheetNotFinite { side } => {
            Field::Point(side)
        }
        SectionError::TooFew { .. }
        | SectionError::TooMany { .. }
        | SectionError::Flat
        | SectionError::SheetCount { .. } => Field::Shape,
    }
}

fn taper(error: &TaperError) -> Field {
    match error {
        TaperError::Flat => Field::Shape,
        TaperError::SheetFillsHeight { .. } => Field::Thickness,
        TaperError::Closed { end, wall, .. } => {
            let axis = if *wall == Face::Front { 2 } else { 1 };
            if *end == Face::Bottom {
                Field::Base(axis)
            } else {
                Field::TopSize(axis)
            }
        }
    }
}

fn drum(error: &DrumError) -> Field {
    match error {
        DrumError::Turned(error) => match error {
            TurnedError::Crown { .. } => Field::Crown,
            TurnedError::Knuckle { .. } => Field::Knuckle,
            _ => Field::Diameter,
        },
        DrumError::SheetFills { .. } => Field::Thickness,
        DrumError::UnequalSheets { head, .. } => Field::FaceThickness(*head),
    }
}

/// The field that an error of a fitting is laid to; fittings count from 1.
pub(crate) const fn fitting(number: u8, error: &PlaceError) -> Field {
    match error {
        PlaceError::OffFace { .. }
        | PlaceError::OffCentre { .. }
        | PlaceError::Overlap { .. }
        | PlaceError::Room(RoomError::OnSeam { .. } | RoomError::OnFlange { .. }) => {
            Field::FittingAt(number)
        }
        PlaceError::NoOuter => Field::FittingBore(number),
        PlaceError::Room(_) => Field::FittingStandIn(number),
        _ => Field::Fitting(number),
    }
}

/// The field that an error of a baffle is laid to, counted from 1, across that size of that shape; its holes aside.
pub(crate) const fn baffle(number: u8, shape: &Shape, across: Across, error: &PlaceError) -> Field {
    match *error {
        PlaceError::Outside { .. } | PlaceError::Parted => Field::BaffleAt(number),
        // Across the axis, then within a dished end.
        PlaceError::NotAcrossDrum => match (shape, across) {
            (Shape::Drum(drum), across) if is_across(drum.axis, across) => Field::BaffleAt(number),
            _ => Field::BaffleAcross(number),
        },
        _ => Field::Baffle(number),
    }
}

/// Whether a baffle across that size stands across a drum's axis.
const fn is_across(axis: Axis, across: Across) -> bool {
    matches!(
        (axis, across),
        (Axis::Lying, Across::Length) | (Axis::Upright, Across::Height)
    )
}
