//! Why an outline, or the other surface of its sheet, does not make a section.

use core::fmt;

use crate::units::{Length, LengthUnit};

/// Why an outline makes no section. Corners and sides are numbered from 1 as their maker gave them.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum SectionError {
    /// Fewer than three corners.
    TooFew {
        /// How many there are.
        corners: u32,
    },
    /// More than twelve corners.
    TooMany {
        /// How many there are.
        corners: u32,
    },
    /// A coordinate or a radius is not a number, or past a thousand kilometres.
    NotFinite {
        /// Which corner.
        corner: u8,
    },
    /// Two corners that follow each other are the same point.
    ZeroSide {
        /// The two corners.
        corners: [u8; 2],
    },
    /// The outline runs straight on through a corner.
    Straight {
        /// Which corner.
        corner: u8,
    },
    /// The outline runs back along itself.
    TurnsBack {
        /// Which corner.
        corner: u8,
    },
    /// A radius is negative, or its arc does not fit on a side beside it.
    Radius {
        /// Which corner.
        corner: u8,
        /// Its radius.
        radius: Length,
        /// The largest that fits while the other corners stay as they are.
        most: Length,
    },
    /// The outline crosses or touches itself.
    Crossing {
        /// The two sides that meet, or whose rounded corners do.
        sides: [u8; 2],
    },
    /// The outline encloses nothing.
    Flat,
    /// Sheets are given for another number of sides.
    SheetCount {
        /// Sides that the outline has.
        sides: u32,
        /// Sheets that are given.
        given: u32,
    },
    /// A sheet thickness is not a number.
    SheetNotFinite {
        /// Which side.
        side: u8,
    },
    /// The sheet leaves nothing between two sides.
    Thick {
        /// The two sides.
        sides: [u8; 2],
        /// Their sheets.
        sheets: [Length; 2],
    },
    /// The sheets beside a side leave nothing of it.
    SideVanishes {
        /// Which side.
        side: u8,
        /// Its length as it is given, between its sharp corners.
        length: Length,
    },
    /// The radius of a rounded corner is less than the sheet bent round it.
    RadiusUnderSheet {
        /// Which corner.
        corner: u8,
        /// Its radius as it is given.
        radius: Length,
        /// The sheet.
        sheet: Length,
    },
    /// One sheet is bent round a rounded corner, so the two sides cannot differ in thickness.
    UnequalSheets {
        /// Which corner.
        corner: u8,
        /// The sheets of the side before it and of the side after it.
        sheets: [Length; 2],
    },
}

impl fmt::Display for SectionError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mm = |length: &Length| length.display(LengthUnit::Millimetre, 2);
        match self {
            Self::TooFew { corners } => {
                write!(f, "the outline has {corners} points; it needs at least 3")
            }
            Self::TooMany { corners } => {
                write!(
                    f,
                    "the outline has {corners} points; it may have at most 12"
                )
            }
            Self::NotFinite { corner } => write!(
                f,
                "point {corner}: its place and its radius must be numbers, and less than 1000 km"
            ),
            Self::ZeroSide { corners: [a, b] } => write!(
                f,
                "points {a} and {b} are the same point; leave one of them out"
            ),
            Self::Straight { corner } => write!(
                f,
                "the outline runs straight on through point {corner}; leave that point out"
            ),
            Self::TurnsBack { corner } => write!(
                f,
                "at point {corner} the outline runs back along itself; move that point"
            ),
            Self::Radius {
                corner,
                radius,
                most,
            } => {
                if radius.si() < 0.0 {
                    write!(
                        f,
                        "point {corner}: a radius of {} is negative; 0 leaves the corner sharp",
                        mm(radius)
                    )
                } else {
                    write!(
                        f,
                        "point {corner}: a radius of {} does not fit on the sides beside it, where at most {} does; use a smaller radius, or a smaller one at the points beside it",
                        mm(radius),
                        mm(most)
                    )
                }
            }
            Self::Crossing { sides: [a, b] } => write!(
                f,
                "side {a} and side {b} of the outline cross or touch; give the points in order round the outline"
            ),
            Self::Flat => f.write_str("the outline encloses no area"),
            Self::SheetCount { sides, given } => write!(
                f,
                "the outline has {sides} sides, but {given} sheet thicknesses are given"
            ),
            Self::SheetNotFinite { side } => {
                write!(f, "the sheet thickness of side {side} must be a number")
            }
            Self::Thick {
                sides: [a, b],
                sheets: [first, second],
            } => write!(
                f,
                "the sheet leaves nothing between side {a} ({} thick) and side {b} ({} thick); use thinner sheet or a larger outline",
                mm(first),
                mm(second)
            ),
            Self::SideVanishes { side, length } => write!(
                f,
                "the sheets beside it leave nothing of side {side}, which is {} long; use thinner sheet, or a longer side",
                mm(length)
            ),
            Self::RadiusUnderSheet {
                corner,
                radius,
                sheet,
            } => write!(
                f,
                "point {corner}: sheet {} thick cannot follow a radius of {}; use a radius of at least the thickness, or leave the corner sharp",
                mm(sheet),
                mm(radius)
            ),
            Self::UnequalSheets {
                corner,
                sheets: [before, after],
            } => write!(
                f,
                "point {corner}: one sheet is bent round a rounded corner, but the sides beside it are {} and {} thick; make them equal, or the corner sharp",
                mm(before),
                mm(after)
            ),
        }
    }
}

impl core::error::Error for SectionError {}
