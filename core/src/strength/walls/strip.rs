//! Baffles with a free edge, taken as strips between two opposite walls that hold them.
//!
//! What else holds the plate is left out, and its ends are free to turn, so that it bears more than this says. A plate
//! held on two opposite sides and free on the others bends hardest in the middle of a free edge: at most 0.1335 times
//! the pressure and the square of the span, however long that edge is, and bulges at most 0.0159 `p b⁴/D`, for Poisson's
//! ratios up to 0.35 (Levy's solution; Timoshenko and Woinowsky-Krieger, article 48, have 0.1330 for 0.3, from memory).
//! A wall along its third side, from which the plate may be free to turn or not, brings neither higher.

use heapless::Vec;

use super::super::error::StrengthError;
use super::super::plate::stiffness;
use super::super::weld::{Along, EDGE_SHARE};
use super::bearing::{Bearing, WallForm};
use super::judge::Judge;
use crate::body::{MAX_VERTICES, Path};
use crate::fitting::Baffle;
use crate::geom::Vector;
use crate::input::Face;
use crate::input::limits::MAX_FACES;
use crate::units::{Length, Pressure};

/// The bending moment over pressure and span squared: see above.
pub const STRIP_MOMENT: f64 = 0.135;
/// The bulge over pressure, span to the fourth and one over the plate's stiffness.
pub const STRIP_BULGE: f64 = 0.016;
/// Walls this near to opposite, by the cosine of their normals, are.
const OPPOSITE: f64 = 1e-9;
/// Points nearer than this, in metres, are one.
const SAME: f64 = 1e-9;
/// Where less of the plate than this share is held on both sides it is no row of strips.
const LEAST_HELD: f64 = 0.5;

/// Corners of an inside.
type Space = Vec<Vector, { 2 * MAX_VERTICES }>;

/// The edges of a baffle along one wall.
#[derive(Clone, Copy)]
struct Held {
    /// Out of the inside.
    normal: Vector,
    /// A point of them.
    point: Vector,
    /// From where to where they are, along the wall.
    ends: [f64; 2],
    /// How much of that they are, in metres.
    length: f64,
}

/// A baffle as strips: plain numbers in SI units.
#[derive(Clone, Copy)]
pub(super) struct Strips {
    /// From wall to wall.
    span: f64,
    /// The load that a strip bears for each metre along the walls: the highest pressure, and what falls to it of strips
    /// that notches cut off.
    load: f64,
    /// The highest pressure.
    pressure: f64,
}

impl Strips {
    /// The highest bending moment of a metre.
    fn moment(&self) -> f64 {
        STRIP_MOMENT * self.load * self.span * self.span
    }

    /// What a seam of it bears where it also holds a wall that pulls so hard.
    pub(super) fn along(&self, pull: f64, moment: f64) -> Along {
        Along {
            pull,
            across: EDGE_SHARE * self.load * self.span,
            moment: libm::fmax(moment, self.moment()),
        }
    }
}

impl Judge<'_> {
    /// How a baffle bears as strips, where that is enough.
    pub(super) fn strip_bearing(
        &self,
        number: u8,
        (place, baffle): (usize, &Baffle),
    ) -> Result<Bearing, StrengthError> {
        let strips = self.strips(place, baffle)?;
        let (strength, sheet) = (self.strength(baffle.thickness())?, baffle.thickness().si());
        let stress = 6.0 * strips.moment() / (sheet * sheet);
        let reserve = strength.yield_strength.si() / stress;
        if reserve < self.trial.wanted() {
            return Err(StrengthError::FreeEdge);
        }
        let stiff = stiffness(self.modulus().si(), self.poisson(), sheet);
        let bulge = STRIP_BULGE * strips.load * libm::pow(strips.span, 4.0) / stiff;
        Ok(Bearing {
            face: Face::Baffle(number),
            form: WallForm::Strips,
            thickness: baffle.thickness(),
            pressure: Pressure::from_pascals(strips.pressure),
            joined: None,
            joined_bulge: None,
            at_most: false,
            stress: [Pressure::from_pascals(stress); 2],
            bulge: Some([Length::from_metres(bulge); 2]),
            bulge_held: None,
            elastic: None,
            wide_hole: false,
            reserve,
            takes: None,
            inside_corner: false,
            may_wrinkle: false,
            cure: None,
        })
    }

    /// A baffle as strips between the two walls that hold it which lie nearest to each other.
    pub(super) fn strips(&self, place: usize, baffle: &Baffle) -> Result<Strips, StrengthError> {
        let held = self.held(place, baffle);
        let mut best: Option<(f64, f64)> = None;
        for (at, (_, one)) in held.iter().enumerate() {
            for (_, other) in held.iter().skip(at + 1) {
                let Some((span, by)) = across(baffle, one, other) else {
                    continue;
                };
                let rank = by * span * span;
                if best.is_none_or(|(span, by)| rank < by * span * span) {
                    best = Some((span, by));
                }
            }
        }
        let (span, by) = best.ok_or(StrengthError::FreeEdge)?;
        let pressure = self.highest(baffle)?;
        Ok(Strips {
            span,
            load: pressure * by,
            pressure,
        })
    }

    /// The edges of a baffle that flat walls hold, wall by wall.
    fn held(&self, place: usize, baffle: &Baffle) -> Vec<(Face, Held), MAX_FACES> {
        let inside = &self.tank.body.inside;
        let free = self.tank.job().baffles().get(place).map(|draft| draft.free);
        let mut all: Vec<(Face, Held), MAX_FACES> = Vec::new();
        for side in (0..baffle.sides()).filter(|side| baffle.is_held(*side)) {
            let Some(edge) = baffle.rim_edge(inside, 1, side) else {
                continue;
            };
            let wall = edge.faces[0];
            let Some(view) = inside.face(wall).filter(crate::body::FaceView::is_flat) else {
                continue;
            };
            if edge.path != Path::Straight || free.is_some_and(|free| free.has(wall)) {
                continue;
            }
            let normal = view.normal();
            let along = baffle.axis().cross(normal);
            let ends = edge.ends.map(|end| along.dot(end));
            let ends = [libm::fmin(ends[0], ends[1]), libm::fmax(ends[0], ends[1])];
            let length = ends[1] - ends[0];
            match all.iter_mut().find(|(face, _)| *face == wall) {
                Some((_, known)) => {
                    known.ends = [
                        libm::fmin(known.ends[0], ends[0]),
                        libm::fmax(known.ends[1], ends[1]),
                    ];
                    known.length += length;
                }
                None => {
                    let held = Held {
                        normal,
                        point: edge.ends[0],
                        ends,
                        length,
                    };
                    // As many as there are faces.
                    let _ = all.push((wall, held));
                }
            }
        }
        all
    }

    /// The highest pressure on a baffle, liquid on one side of it only.
    fn highest(&self, baffle: &Baffle) -> Result<f64, StrengthError> {
        let inside = &self.tank.body.inside;
        let plate = super::baffle::corners(baffle, inside);
        let (axis, at) = (baffle.axis(), baffle.at().si());
        let mut highest = 0.0;
        for side in [-1.0, 1.0] {
            let mut space = Space::new();
            for corner in inside.vertices() {
                if side * (axis.dot(*corner) - at) > 0.0 {
                    let _ = space.push(*corner);
                }
            }
            // The corners of a space and of a plate always fit.
            let _ = space.extend_from_slice(&plate);
            let load = self.liquid(&space, &plate)?;
            for corner in &plate {
                highest = libm::fmax(highest, load.at(*corner).si());
            }
        }
        Ok(highest)
    }
}

/// The span between two walls and how many metres' load a metre of strip bears, where they are opposite and the plate
/// stands between them.
fn across(baffle: &Baffle, one: &Held, other: &Held) -> Option<(f64, f64)> {
    if one.normal.dot(other.normal) > OPPOSITE - 1.0 {
        return None;
    }
    let span = libm::fabs(one.normal.dot(one.point - other.point));
    let [_, right, ahead] = crate::fitting::axes(baffle.across());
    let in_plane = |way: Vector| [way.dot(right), way.dot(ahead)];
    let [low, high] = baffle.plate().span(in_plane(one.normal));
    if high - low > span + SAME {
        return None;
    }
    let along = baffle.axis().cross(one.normal);
    let [low, high] = baffle.plate().span(in_plane(along));
    // The other wall is looked at the other way round.
    let [from, to] = [-other.ends[1], -other.ends[0]];
    let both = libm::fmin(one.ends[1], to) - libm::fmax(one.ends[0], from);
    let gaps = |held: &Held| held.ends[1] - held.ends[0] - held.length;
    let held = both - gaps(one) - gaps(other);
    let by = (high - low) / held;
    (held > 0.0 && by * LEAST_HELD <= 1.0).then_some((span, libm::fmax(by, 1.0)))
}
