//! An outline carried from the front of the tank to its back: a folded or rolled wrapper between two
//! ends.

use core::fmt;

use heapless::Vec;

use super::clip::prism;
use super::solid::{Curve, Rounded};
use super::{Body, SheetPlan};
use crate::geom::outline::section::{Section, SectionCorner, SectionError};
use crate::input::limits::MAX_SIDES;
use crate::input::{Face, Profile, Sized};
use crate::units::{Length, LengthUnit};

/// Why a profile with its sheet makes no tank.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum ProfileError {
    /// The width is not above zero.
    Flat,
    /// The two ends leave no space between them.
    SheetFillsWidth {
        /// The width outside.
        width: Length,
        /// The two sheets together.
        sheet: Length,
    },
    /// The outline as it is given.
    Outline(SectionError),
    /// The other surface of the sheet.
    Sheet(SectionError),
    /// More corners than a body may have.
    TooComplex,
}

impl fmt::Display for ProfileError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Flat => f.write_str("the width must be above zero"),
            Self::SheetFillsWidth { width, sheet } => write!(
                f,
                "the sheet eats the inside: {} from front to back, of which the two ends take {}; use a thinner sheet or a wider body",
                width.display(LengthUnit::Millimetre, 2),
                sheet.display(LengthUnit::Millimetre, 2)
            ),
            Self::Outline(error) | Self::Sheet(error) => error.fmt(f),
            Self::TooComplex => f.write_str("the outline has more corners than a body may have"),
        }
    }
}

impl core::error::Error for ProfileError {}

impl Profile {
    /// The outside and the inside of this profile in the given sheet: each side moved by its own
    /// thickness, sharp corners mitred, rounded ones kept concentric.
    ///
    /// # Errors
    /// [`ProfileError`] names the corner, the side or the size at fault.
    pub fn body(&self, sheet: &SheetPlan) -> Result<Body, ProfileError> {
        let mut body = Body::EMPTY;
        self.make(sheet, &mut body)?;
        Ok(body)
    }

    fn section(&self, shift: [f64; 2]) -> Result<Section, ProfileError> {
        let [dx, dz] = shift;
        let mut corners: Vec<SectionCorner, MAX_SIDES> = Vec::new();
        for point in &self.outline {
            let corner = SectionCorner {
                at: [point.x.si() + dx, point.z.si() + dz],
                radius: point.radius.si(),
            };
            corners.push(corner).map_err(|_| ProfileError::TooComplex)?;
        }
        Section::new(&corners).map_err(ProfileError::Outline)
    }

    #[inline(never)]
    pub(crate) fn make(&self, sheet: &SheetPlan, body: &mut Body) -> Result<(), ProfileError> {
        let width = self.width.si();
        if !(width > 0.0) {
            return Err(ProfileError::Flat);
        }
        let [front, back] = [Face::Front, Face::Back].map(|face| sheet.of(face).si());
        let mut drawn = self.section([0.0, 0.0])?;
        let sheets = |section: &Section, sense: f64| {
            let mut all = [0.0; MAX_SIDES];
            for (place, slot) in all.iter_mut().enumerate().take(section.len()) {
                *slot = sense * sheet.of(Face::Side(section.side_number(place))).si();
            }
            all
        };
        let sense = match self.sized {
            Sized::Outside => 1.0,
            Sized::Inside => -1.0,
        };
        let offset = |section: &Section| {
            let all = sheets(section, sense);
            let used = all.get(..section.len()).unwrap_or_default();
            section.inward(used).map_err(ProfileError::Sheet)
        };
        let mut other = offset(&drawn)?;
        if self.sized == Sized::Inside {
            // The outside's lowest left corner stands where the maker's outline has its own.
            let low =
                |section: &Section| [section.extent([1.0, 0.0]).0, section.extent([0.0, 1.0]).0];
            let ([x, z], [over_x, over_z]) = (low(&drawn), low(&other));
            drawn = self.section([x - over_x, z - over_z])?;
            other = offset(&drawn)?;
        }
        let ((outside, y_out, w_out), (inside, y_in, w_in)) = match self.sized {
            Sized::Outside => ((drawn, 0.0, width), (other, front, width - front - back)),
            Sized::Inside => ((other, 0.0, width + front + back), (drawn, front, width)),
        };
        if !(w_in > 0.0) {
            return Err(ProfileError::SheetFillsWidth {
                width: self.width,
                sheet: Length::from_metres(front + back),
            });
        }
        for (solid, section, y, w) in [
            (&mut body.outside, outside, y_out, w_out),
            (&mut body.inside, inside, y_in, w_in),
        ] {
            prism(solid, &section, y, y + w).ok_or(ProfileError::TooComplex)?;
            solid.curve = if section.is_rounded() {
                Curve::Rounded(Rounded {
                    section,
                    front: y,
                    width: w,
                })
            } else {
                Curve::None
            };
        }
        Ok(())
    }
}
