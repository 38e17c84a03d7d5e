//! The other surface of a sheet that follows an outline.

use super::super::{cross, dot};
use super::{ARC_SLACK, MAX_CORNERS, Section, SectionCorner, SectionError};

impl Section {
    /// The outline with each side moved inward by its own sheet, in metres, outward where that is
    /// negative: sharp corners mitred, arcs concentric.
    ///
    /// `sheets` stand in the order in which the sides are kept. An outside corner's radius r becomes r - t,
    /// an inside corner's r + t; r = t makes the other surface sharp.
    ///
    /// # Errors
    /// [`SectionError`] where the sheets leave nothing of a side or between two, or cannot follow a
    /// rounded corner; its numbers are the maker's.
    pub fn inward(&self, sheets: &[f64]) -> Result<Self, SectionError> {
        if sheets.len() != self.len() {
            return Err(SectionError::SheetCount {
                sides: u32::from(self.count),
                given: u32::try_from(sheets.len()).unwrap_or(u32::MAX),
            });
        }
        for (place, sheet) in sheets.iter().enumerate() {
            if !sheet.is_finite() {
                return Err(SectionError::SheetNotFinite {
                    side: self.side_number(place),
                });
            }
        }
        let sheet = |place: usize| {
            let sheet = sheets.get(place % self.len().max(1));
            sheet.copied().unwrap_or_default()
        };
        let mut corners = [SectionCorner::default(); MAX_CORNERS];
        for (place, slot) in corners.iter_mut().enumerate().take(self.len()) {
            *slot = self.moved_corner(place, [sheet(self.before(place)), sheet(place)])?;
        }
        let moved = Self { corners, ..*self };
        for place in 0..self.len() {
            // A side that has turned over, or whose arcs no longer fit on it, is gone.
            let ([u, w], [next_u, next_w]) = (moved.at(place), moved.at(place + 1));
            let left = dot(self.direction(place), [next_u - u, next_w - w]);
            let arcs = self.tangent(place) * moved.radius(place)
                + self.tangent(place + 1) * moved.radius(place + 1);
            let slack = ARC_SLACK * self.sharp_length(place);
            if !(left > slack && left + slack >= arcs) {
                return Err(SectionError::SideVanishes {
                    side: self.side_number(place),
                    length: Self::metres(self.sharp_length(place)),
                });
            }
        }
        match moved.touching() {
            Some(sides) => Err(SectionError::Thick {
                sides: sides.map(|side| self.side_number(side)),
                sheets: sides.map(|side| Self::metres(libm::fabs(sheet(side)))),
            }),
            None => Ok(moved),
        }
    }

    /// Where the moved sides before and after a corner meet, and the radius there.
    fn moved_corner(&self, place: usize, sheets: [f64; 2]) -> Result<SectionCorner, SectionError> {
        let [before, after] = sheets;
        let SectionCorner {
            at: [u, w],
            radius: drawn,
        } = self.corner(place);
        let (d, e) = (self.direction(self.before(place)), self.direction(place));
        let turn = cross(d, e);
        let mut radius = 0.0;
        if drawn > 0.0 {
            #[expect(clippy::float_cmp, reason = "the same input, not a computed value")]
            if before != after {
                return Err(SectionError::UnequalSheets {
                    corner: self.corner_number(place),
                    sheets: sheets.map(|sheet| Self::metres(libm::fabs(sheet))),
                });
            }
            radius = if turn > 0.0 {
                drawn - before
            } else {
                drawn + before
            };
            // What is left of rounding when one was computed from the other is a sharp corner.
            if libm::fabs(radius) <= ARC_SLACK * drawn {
                radius = 0.0;
            }
            if radius < 0.0 {
                return Err(SectionError::RadiusUnderSheet {
                    corner: self.corner_number(place),
                    radius: Self::metres(drawn),
                    sheet: Self::metres(libm::fabs(before)),
                });
            }
        }
        // The point whose distance inward is `before` from the one line and `after` from the other.
        let [[du, dw], [eu, ew]] = [d, e];
        Ok(SectionCorner {
            at: [
                u + (before * eu - after * du) / turn,
                w + (before * ew - after * dw) / turn,
            ],
            radius,
        })
    }
}
