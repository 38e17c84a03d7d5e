//! A closed outline in a plane, its corners sharp or rounded.
//!
//! The plane has u to the right and w up; for a profile these are x and z of the tank. All numbers are
//! plain `f64` in metres, square metres and radians. The outline is kept counter-clockwise, u to the
//! right and w up; side k runs from corner k to corner k + 1, both counted from 0.
//! [`Section::side_number`] and [`Section::corner_number`] give the maker's own numbers back.

mod check;
mod crossings;
mod cut;
mod error;
mod inside;
mod offset;
mod piece;
mod strip;
#[cfg(test)]
mod tests;

pub use cut::SectionBelow;
pub use error::SectionError;

pub(crate) use inside::{crosses, off};
pub(crate) use strip::Strip;

use piece::Piece;

use super::{cross, dot};
use crate::units::Length;

/// Corners that an outline may have.
pub const MAX_CORNERS: usize = 12;

/// No coordinate or radius may be past this, in metres: far beyond any tank, and far enough below the
/// largest double that no product overflows.
const FARTHEST: f64 = 1e6;
/// Points nearer than this, in metres, are one point, whatever the outline's size.
const NEAREST: f64 = 1e-9;
/// Corners that are nearer than this share of the outline's size are one: above the rounding of its corners.
const SAME_POINT: f64 = 1e-11;
/// A corner that turns by less, as the sine of its turn, is none.
const LEAST_TURN: f64 = 1e-9;
/// Arcs may pass the end of a side by this share of it: the rounding of two tangent lengths.
const ARC_SLACK: f64 = 1e-12;

/// One corner of an outline.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct SectionCorner {
    /// Where the two sides meet, as if the corner were sharp: u and w in metres.
    pub at: [f64; 2],
    /// Radius of the arc that rounds it, touching both sides, in metres; zero leaves it sharp.
    pub radius: f64,
}

/// The arc that rounds a corner, walked counter-clockwise round the outline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CornerArc {
    /// Its centre, in metres.
    pub centre: [f64; 2],
    /// Unit direction from the centre to where it starts.
    pub from: [f64; 2],
    /// Unit direction in which it leaves from there: that of the side before it.
    pub towards: [f64; 2],
    /// Its radius, in metres, above zero.
    pub radius: f64,
    /// How far it turns, in radians, above zero and below π.
    pub sweep: f64,
    /// Whether it turns left, as at an outside corner of the outline; false at an inside corner.
    pub left: bool,
}

impl CornerArc {
    /// The point after `angle` radians from its start.
    #[must_use]
    pub fn at(&self, angle: f64) -> [f64; 2] {
        let (sine, cosine) = libm::sincos(angle);
        let [[cu, cw], [fu, fw], [tu, tw]] = [self.centre, self.from, self.towards];
        [
            cu + self.radius * (fu * cosine + tu * sine),
            cw + self.radius * (fw * cosine + tw * sine),
        ]
    }

    /// The points where it touches the side before and the side after.
    #[must_use]
    pub fn ends(&self) -> [[f64; 2]; 2] {
        [self.at(0.0), self.at(self.sweep)]
    }

    /// Its length in metres.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.radius * self.sweep
    }
}

/// A closed outline of 3 to 12 corners that does not cross itself; about 300 bytes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    corners: [SectionCorner; MAX_CORNERS],
    count: u8,
    reversed: bool,
}

impl Section {
    /// The outline through `corners`, in either direction.
    ///
    /// Sides shorter than a nanometre (or 1e-11 of the outline's size) count as nothing, corners that
    /// turn by less than 1e-9 rad as straight. Arcs may share a side to its last bit: two of them with
    /// half its length each leave no straight part.
    ///
    /// # Errors
    /// [`SectionError`] names the corner or the sides at fault by their maker's numbers.
    pub fn new(corners: &[SectionCorner]) -> Result<Self, SectionError> {
        let given = u32::try_from(corners.len()).unwrap_or(u32::MAX);
        if corners.len() < 3 {
            return Err(SectionError::TooFew { corners: given });
        }
        let mut kept = [SectionCorner::default(); MAX_CORNERS];
        let Some(places) = kept.get_mut(..corners.len()) else {
            return Err(SectionError::TooMany { corners: given });
        };
        places.copy_from_slice(corners);
        let count = u8::try_from(corners.len()).unwrap_or(u8::MAX);
        let mut section = Self {
            corners: kept,
            count,
            reversed: false,
        };
        section.check_corners()?;
        if section.signed_area() < 0.0 {
            if let Some(places) = section.corners.get_mut(..corners.len()) {
                places.reverse();
            }
            section.reversed = true;
        }
        section.check_apart()?;
        if section.area() > 0.0 {
            Ok(section)
        } else {
            Err(SectionError::Flat)
        }
    }

    /// How many corners it has; as many sides.
    #[expect(clippy::len_without_is_empty, reason = "an outline is never empty")]
    #[must_use]
    pub const fn len(&self) -> usize {
        self.count as usize
    }

    /// Its corners, counter-clockwise.
    #[must_use]
    pub fn corners(&self) -> &[SectionCorner] {
        self.corners.get(..self.len()).unwrap_or_default()
    }

    /// Whether its maker gave it clockwise.
    #[must_use]
    pub const fn reversed(&self) -> bool {
        self.reversed
    }

    /// Whether any corner is rounded.
    #[must_use]
    pub fn is_rounded(&self) -> bool {
        self.corners().iter().any(|corner| corner.radius > 0.0)
    }

    /// The maker's number, from 1, of corner `place` (taken round the outline where it is past the last).
    #[must_use]
    pub fn corner_number(&self, place: usize) -> u8 {
        let place = (place % self.len().max(1)) as u8;
        if self.reversed {
            self.count - place
        } else {
            place + 1
        }
    }

    /// The maker's number, from 1, of side `place`: his side n runs from his corner n to the next.
    #[must_use]
    pub fn side_number(&self, place: usize) -> u8 {
        // Turned round, side k runs from the maker's corner count - k to the one before that.
        self.corner_number(if self.reversed { place + 1 } else { place })
    }

    /// Where the corner with the maker's number `number` is kept; `None` where there is none.
    #[must_use]
    pub fn corner_place(&self, number: u8) -> Option<usize> {
        (0..self.len()).find(|place| self.corner_number(*place) == number)
    }

    /// Where the side with the maker's number `number` is kept; `None` where there is none.
    #[must_use]
    pub fn side_place(&self, number: u8) -> Option<usize> {
        (0..self.len()).find(|place| self.side_number(*place) == number)
    }

    fn corner(&self, place: usize) -> SectionCorner {
        // Always there, since the count is checked; the default keeps the code free of panics.
        self.corners()
            .get(place % self.len().max(1))
            .copied()
            .unwrap_or_default()
    }

    /// Where corner `place` would be if it were sharp. Places past the last go on round the outline.
    #[must_use]
    pub fn at(&self, place: usize) -> [f64; 2] {
        self.corner(place).at
    }

    /// Radius of corner `place` in metres; zero where it is sharp.
    #[must_use]
    pub fn radius(&self, place: usize) -> f64 {
        self.corner(place).radius
    }

    /// Length of side `place` between its corners as if they were sharp, in metres.
    #[must_use]
    pub fn sharp_length(&self, place: usize) -> f64 {
        let ([u, w], [next_u, next_w]) = (self.at(place), self.at(place + 1));
        libm::hypot(next_u - u, next_w - w)
    }

    /// Unit direction of side `place`.
    #[must_use]
    pub fn direction(&self, place: usize) -> [f64; 2] {
        let ([u, w], [next_u, next_w]) = (self.at(place), self.at(place + 1));
        let length = self.sharp_length(place);
        [(next_u - u) / length, (next_w - w) / length]
    }

    /// Unit outward normal of side `place`.
    #[must_use]
    pub fn normal(&self, place: usize) -> [f64; 2] {
        let [u, w] = self.direction(place);
        [w, -u]
    }

    /// How far the outline turns to the left at corner `place`, in radians between -π and π; negative at
    /// an inside corner.
    #[must_use]
    pub fn turn(&self, place: usize) -> f64 {
        let (before, after) = (self.direction(self.before(place)), self.direction(place));
        libm::atan2(cross(before, after), dot(before, after))
    }

    /// The angle inside the outline at corner `place`, in radians between 0 and 2π; above π at an inside
    /// corner.
    #[must_use]
    pub fn interior_angle(&self, place: usize) -> f64 {
        core::f64::consts::PI - self.turn(place)
    }

    /// How much of each side beside it the arc of corner `place` takes, in metres; zero where it is
    /// sharp.
    #[must_use]
    pub fn tangent_length(&self, place: usize) -> f64 {
        self.radius(place) * self.tangent(place)
    }

    /// Tangent length for each unit of radius: tan(|turn| / 2), by the sine and cosine of the turn.
    fn tangent(&self, place: usize) -> f64 {
        let (before, after) = (self.direction(self.before(place)), self.direction(place));
        let (sine, cosine) = (libm::fabs(cross(before, after)), dot(before, after));
        // Of the two forms the one that does not cancel.
        if cosine >= 0.0 {
            sine / (1.0 + cosine)
        } else {
            (1.0 - cosine) / sine
        }
    }

    /// The arc of corner `place`; `None` where it is sharp.
    #[must_use]
    pub fn arc(&self, place: usize) -> Option<CornerArc> {
        let SectionCorner { at, radius } = self.corner(place);
        if !(radius > 0.0) {
            return None;
        }
        let towards = self.direction(self.before(place));
        let turn = self.turn(place);
        let side = if turn > 0.0 { 1.0 } else { -1.0 };
        let [tu, tw] = towards;
        // Left of the way at an outside corner, right of it at an inside one.
        let inward = [-tw * side, tu * side];
        let [iu, iw] = inward;
        let [u, w] = at;
        let reach = self.tangent_length(place);
        Some(CornerArc {
            centre: [u - tu * reach + iu * radius, w - tw * reach + iw * radius],
            from: [-iu, -iw],
            towards,
            radius,
            sweep: libm::fabs(turn),
            left: turn > 0.0,
        })
    }

    /// The ends of the straight part of side `place`, in the outline's sense. Where two arcs share the
    /// whole side they are one point, to the last bits.
    #[must_use]
    pub fn straight(&self, place: usize) -> [[f64; 2]; 2] {
        let [du, dw] = self.direction(place);
        let ([u, w], [next_u, next_w]) = (self.at(place), self.at(place + 1));
        let (start, end) = (self.tangent_length(place), self.tangent_length(place + 1));
        [
            [u + du * start, w + dw * start],
            [next_u - du * end, next_w - dw * end],
        ]
    }

    /// Length of the straight part of side `place`, in metres.
    #[must_use]
    pub fn straight_length(&self, place: usize) -> f64 {
        let arcs = self.tangent_length(place) + self.tangent_length(place + 1);
        libm::fmax(self.sharp_length(place) - arcs, 0.0)
    }

    /// Length of side `place` with half of the arc at each of its ends, in metres.
    #[must_use]
    pub fn side_length(&self, place: usize) -> f64 {
        let half = |place: usize| self.arc(place).map_or(0.0, |arc| 0.5 * arc.length());
        self.straight_length(place) + half(place) + half(place + 1)
    }

    /// Length of the whole outline, in metres.
    #[must_use]
    pub fn perimeter(&self) -> f64 {
        (0..self.len()).map(|place| self.side_length(place)).sum()
    }

    fn before(&self, place: usize) -> usize {
        (place + self.len() - 1) % self.len().max(1)
    }

    /// Corner, side, corner, side … as they are walked: the arc of each rounded corner, then the straight
    /// part of the side after it.
    fn pieces(&self) -> impl Iterator<Item = (usize, Piece)> + '_ {
        (0..self.len()).flat_map(|place| {
            let [start, end] = self.straight(place);
            self.arc(place)
                .map(|arc| (place, Piece::Arc(arc)))
                .into_iter()
                .chain(core::iter::once((place, Piece::Line([start, end]))))
        })
    }

    fn metres(value: f64) -> Length {
        Length::from_metres(value)
    }
}
