//! An outline carried from the front of the tank to its back: a folded or rolled wrapper between two
//! ends.

use core::fmt;

use heapless::Vec;

use super::clip::prism;
use super::solid::{Curve, Rounded};
use super::{Body, SheetPlan, Solid};
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

/// Whether two pairs of faces are the same, in either order.
fn is_pair(a: [Face; 2], [first, second]: [Face; 2]) -> bool {
    a == [first, second] || a == [second, first]
}

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

    /// The same outline with the corners that are folded rounded as the sheet is there, bent round an inside
    /// `radius`; `None` where none is. Corners that are drawn round stay as they are drawn, and so do those
    /// between sheets of two thicknesses, which cannot be folded. `sharp` is the outside without folds.
    pub(crate) fn folded(
        &self,
        folds: &[[Face; 2]],
        radius: Length,
        sheet: &SheetPlan,
        sharp: &Solid,
    ) -> Option<Self> {
        let mut bent = None;
        for fold in folds {
            let (Some(edge), [Face::Side(a), Face::Side(b)]) =
                (sharp.sharp_edge_between(*fold), *fold)
            else {
                continue;
            };
            // Side n ends at point n + 1, the last one at the first.
            let (near, far) = (a.min(b), a.max(b));
            let place = if far - near == 1 { near } else { 0 };
            let [before, after] = fold.map(|side| sheet.of(side).si());
            let point = self.outline.get(usize::from(place))?;
            if point.radius.si() > 0.0 || libm::fabs(before - after) > 0.0 {
                continue;
            }
            let bulges = edge.dihedral.si() < core::f64::consts::PI;
            let outer = bulges == (self.sized == Sized::Outside);
            let all = bent.get_or_insert_with(|| self.clone());
            if let Some(point) = all.outline.get_mut(usize::from(place)) {
                let more = if outer { before } else { 0.0 };
                point.radius = Length::from_metres(radius.si() + more);
            }
        }
        bent
    }

    /// Whether the corner between two sides is drawn round.
    pub(crate) fn is_round(&self, sides: [Face; 2]) -> bool {
        let count = u8::try_from(self.outline.len()).unwrap_or(0);
        (1..).zip(&self.outline).any(|(number, point)| {
            let before = if number == 1 { count } else { number - 1 };
            point.radius.si() > 0.0 && is_pair([Face::Side(before), Face::Side(number)], sides)
        })
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
