//! Notches at the ends of a bend.

use super::Bend;
use crate::units::Length;

/// Width of a notch, in thicknesses: common practice, no source, asks for 1 to 1.5.
const WIDTH: f64 = 1.5;

/// A notch cut at the end of a bend that stops short of the edge of the sheet, so that the sheet beside
/// it neither tears nor is drawn along.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct BendNotch {
    /// Along the bend line, outside the bend's end.
    pub width: Length,
    /// Across it, into the sheet beyond the tangent where the bend begins.
    pub depth: Length,
}

/// The notch for `bend`: 1.5 thicknesses wide, and an inside radius and a thickness deep. Common
/// practice, no source.
#[must_use]
pub fn relief(bend: &Bend) -> BendNotch {
    let (t, r) = (bend.thickness().si(), bend.inside_radius().si());
    BendNotch {
        width: Length::from_metres(WIDTH * t),
        depth: Length::from_metres(r + t),
    }
}
