//! Where a baffle stands on the walls, and what it leaves open.

use heapless::Vec;

use super::baffle::{Baffle, BaffleHole, OPEN, plate};
use super::cut::section_of;
use crate::body::{FlatForm, Solid};
use crate::geom::Vector;
use crate::geom::outline::dot;
use crate::geom::outline::section::{MAX_CORNERS, Section};
use crate::input::Face;
use crate::input::limits::{MAX_BAFFLE_HOLES, MAX_FACES};
use crate::units::Length;

/// Corners of what a baffle leaves open in one place.
pub const MAX_OPENING: usize = 2 * MAX_CORNERS;

/// The line on which a baffle stands on one wall, at the middle of its sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StandLine {
    /// The wall.
    pub wall: Face,
    /// Its ends on the inner face of that wall, in tank axes; on a drum's wall the ends of the turn, which
    /// are one point where it goes all the way round.
    pub ends: [Vector; 2],
}

/// What a baffle leaves open, in the coordinates of its plane.
#[derive(Clone, Debug, PartialEq)]
#[expect(
    clippy::large_enum_variant,
    reason = "without allocation an outline lives where it is listed"
)]
pub enum Opening {
    /// A hole.
    Round(BaffleHole),
    /// What was cut off or out of its rim, up to the walls: a notch, a corner, what is open below or above
    /// it. Corners counter-clockwise; rounded ones are the sharp ones.
    Rim(Vec<[f64; 2], MAX_OPENING>),
    /// A slit of this width between its rim and the walls, all round.
    Slit(Length),
}

/// As many openings as a baffle may have.
pub type Openings = Vec<Opening, { MAX_BAFFLE_HOLES + MAX_CORNERS + 1 }>;

/// How far round an outline the point of it is that is nearest to a point: the number of its side, and how
/// far along that.
fn round(outline: &Section, point: [f64; 2]) -> f64 {
    let (mut nearest, mut least) = (0.0, f64::INFINITY);
    for (place, number) in (0..outline.len()).zip(0_u8..) {
        let (start, length) = (outline.at(place), outline.sharp_length(place));
        let along = outline.direction(place);
        let from = [point[0] - start[0], point[1] - start[1]];
        let run = libm::fmin(libm::fmax(dot(along, from), 0.0), length);
        let off = libm::hypot(from[0] - along[0] * run, from[1] - along[1] * run);
        if off < least {
            least = off;
            nearest = f64::from(number) + run / length;
        }
    }
    nearest
}

/// The point of an outline at such a place.
fn at_round(outline: &Section, place: f64) -> [f64; 2] {
    let whole = libm::floor(place);
    // Outlines have twelve sides at most.
    let side = whole as usize;
    let run = (place - whole) * outline.sharp_length(side);
    let (start, along) = (outline.at(side), outline.direction(side));
    [start[0] + along[0] * run, start[1] + along[1] * run]
}

impl Baffle {
    /// Its plate before anything was cut off it.
    pub(crate) fn uncut(&self, inside: &Solid) -> FlatForm {
        let form = plate(inside, self.across(), self.at().si());
        form.unwrap_or_else(|_| self.plate().clone())
    }

    /// Whether something is left open below or above it.
    #[must_use]
    pub const fn is_open(&self) -> bool {
        self.free & OPEN != 0
    }

    /// The lines on which it stands, one for each wall that it meets: where to scribe it.
    #[must_use]
    pub fn stands_on(&self, inside: &Solid) -> Vec<StandLine, MAX_FACES> {
        let mut lines: Vec<StandLine, MAX_FACES> = Vec::new();
        for place in 0..self.seam_count() {
            let side = self.side_of(place);
            let Some(edge) = side.and_then(|side| self.rim_edge(inside, 1, side)) else {
                continue;
            };
            let wall = edge.faces[0];
            let plane = inside
                .face(wall)
                .filter(crate::body::FaceView::is_flat)
                .map(|view| view.plane());
            let onto = |point: Vector| {
                plane.map_or(point, |plane| point - plane.normal * plane.distance(point))
            };
            let ends = if plane.is_some() {
                edge.straight().map(onto)
            } else {
                edge.ends
            };
            let Some(known) = lines.iter_mut().find(|line| line.wall == wall) else {
                // A body has as many faces as there is room for.
                let _ = lines.push(StandLine { wall, ends });
                continue;
            };
            // A notch parts the seam, not the line: from its first end to its last.
            let all = [known.ends[0], known.ends[1], ends[0], ends[1]];
            let mut most = -1.0;
            for a in all {
                for b in all {
                    let apart = (b - a).length();
                    if apart > most && (b - a).dot(ends[1] - ends[0]) >= 0.0 {
                        most = apart;
                        known.ends = [a, b];
                    }
                }
            }
        }
        lines
    }

    /// What it leaves open between its two sides; none of a whole plate without holes.
    #[must_use]
    pub fn openings(&self, inside: &Solid) -> Openings {
        let mut all = Openings::new();
        for hole in self.holes() {
            let _ = all.push(Opening::Round(*hole));
        }
        if let (FlatForm::Disc { radius, .. }, FlatForm::Disc { radius: whole, .. }) =
            (self.plate(), self.uncut(inside))
        {
            if whole - radius > 1e-9 {
                let _ = all.push(Opening::Slit(Length::from_metres(whole - radius)));
            }
            return all;
        }
        let (FlatForm::Outline(rim), Some(whole)) = (self.plate(), section_of(&self.uncut(inside)))
        else {
            return all;
        };
        let count = rim.len().max(1);
        let is_free = |side: usize| self.free & (1 << super::cut::around(side, count)) != 0;
        for side in 0..count {
            if !is_free(side) || is_free(side + count - 1) {
                continue;
            }
            let mut corners: Vec<[f64; 2], MAX_OPENING> = Vec::new();
            let mut last = side;
            while is_free(last) && last < side + count {
                let _ = corners.push(rim.at(last));
                last += 1;
            }
            let _ = corners.push(rim.at(last));
            // Back along the walls.
            let (from, to) = (round(&whole, rim.at(side)), round(&whole, rim.at(last)));
            let sides = whole.len() as f64;
            let to = if to < from { to + sides } else { to };
            let wrap = |place: f64| if place >= sides { place - sides } else { place };
            let mut keep = |place: f64| {
                let point = at_round(&whole, wrap(place));
                let known = corners
                    .iter()
                    .any(|p| libm::hypot(p[0] - point[0], p[1] - point[1]) < 1e-9);
                if !known {
                    let _ = corners.push(point);
                }
            };
            keep(to);
            let mut corner = libm::floor(to);
            while corner > from {
                keep(corner);
                corner -= 1.0;
            }
            keep(from);
            corners.reverse();
            let _ = all.push(Opening::Rim(corners));
        }
        if let Some(side) = (0..count).find(|side| !is_free(*side)) {
            let [[u, w], [to_u, to_w]] = rim.straight(side);
            let slit = whole.inside([0.5 * (u + to_u), 0.5 * (w + to_w)]);
            if slit > 1e-9 {
                let _ = all.push(Opening::Slit(Length::from_metres(slit)));
            }
        }
        all
    }
}
