//! One convex piece: its reach, its volume below a plane, whether a point lies in it.

use super::door::{each_side, lowest};
use super::{Compartments, Range};
use crate::body::{PlacedDrum, clipped_area_vector};
use crate::geom::Vector;

/// A convex piece of the inside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Piece {
    /// Plane faces.
    Faces(Range),
    /// A convex section in x and z, counter-clockwise, from one y to another.
    Prism { section: Range, y: [f64; 2] },
    /// A stretch of a drum.
    Turned(PlacedDrum),
}

/// The two ends and the sides of a prism, each counter-clockwise as seen from outside.
fn each_wall<'a>(
    section: &'a [[f64; 2]],
    [front, back]: [f64; 2],
) -> (
    impl Iterator<Item = Vector> + Clone + 'a,
    impl Iterator<Item = Vector> + Clone + 'a,
    impl Iterator<Item = [Vector; 4]> + 'a,
) {
    let at = |y: f64| move |[x, z]: &[f64; 2]| Vector::new(*x, y, *z);
    let next = section.iter().skip(1).chain(section.first());
    let sides = section.iter().zip(next).map(move |(a, b)| {
        let (to_front, to_back) = (at(front), at(back));
        [to_front(a), to_back(a), to_back(b), to_front(b)]
    });
    (
        section.iter().map(at(front)),
        section.iter().rev().map(at(back)),
        sides,
    )
}

impl Compartments {
    /// The corners of a face.
    pub(super) fn face(&self, range: Range) -> &[Vector] {
        range.of(&self.points)
    }

    /// The lowest and the highest that a piece reaches along `up`.
    pub(crate) fn extent(&self, place: usize, up: Vector) -> [f64; 2] {
        match self.pieces.get(place) {
            Some(Piece::Faces(faces)) => {
                let all = faces.of(&self.faces).iter();
                all.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], face| {
                    let points = self.face(*face);
                    [
                        libm::fmin(low, lowest(points, up)),
                        libm::fmax(high, -lowest(points, -up)),
                    ]
                })
            }
            Some(Piece::Prism { section, y }) => {
                let section = section.of(&self.flat);
                let along = |sense: f64| {
                    let across = section
                        .iter()
                        .map(|[x, z]| sense * (up.x * x + up.z * z))
                        .fold(f64::INFINITY, libm::fmin);
                    let [front, back] = y.map(|y| sense * up.y * y);
                    across + libm::fmin(front, back)
                };
                [along(1.0), -along(-1.0)]
            }
            Some(Piece::Turned(drum)) => drum.extent(up).into(),
            None => [0.0; 2],
        }
    }

    /// The volume of a piece, in cubic metres.
    pub(crate) fn volume(&self, place: usize) -> f64 {
        let up = Vector::new(0.0, 0.0, 1.0);
        let [_, high] = self.extent(place, up);
        self.below(place, up, high)
    }

    /// The volume (m³) of what of a piece lies below the plane `up · p = level`, for a unit `up` and a level in metres.
    pub(crate) fn below(&self, place: usize, up: Vector, level: f64) -> f64 {
        let Some(piece) = self.pieces.get(place) else {
            return 0.0;
        };
        let [low, high] = self.extent(place, up);
        if level <= low {
            return 0.0;
        }
        // Whole at the brim, so that nothing is left to the last bits of a level.
        let level = libm::fmin(level, high);
        let on_plane = up * level;
        let mut six = 0.0;
        // As in `Solid::below`: about a point of the plane the cut surface adds nothing.
        let mut add = |point: Vector, area: Vector| six += (point - on_plane).dot(area);
        match piece {
            Piece::Faces(faces) => {
                for face in faces.of(&self.faces) {
                    let points = self.face(*face);
                    if let Some(first) = points.first() {
                        add(
                            *first,
                            clipped_area_vector(points.iter().copied(), up, level),
                        );
                    }
                }
            }
            Piece::Prism { section, y } => {
                let (front, back, sides) = each_wall(section.of(&self.flat), *y);
                if let Some(first) = front.clone().next() {
                    add(first, clipped_area_vector(front, up, level));
                }
                if let Some(first) = back.clone().next() {
                    add(first, clipped_area_vector(back, up, level));
                }
                for side in sides {
                    let area = clipped_area_vector(side.iter().copied(), up, level);
                    add(side[0], area);
                }
            }
            Piece::Turned(drum) => return drum.below(up, level).0,
        }
        libm::fmax(six / 3.0, 0.0)
    }

    /// How far a point lies outside a piece, in metres; zero or less within.
    pub(super) fn outside(&self, place: usize, point: Vector) -> f64 {
        match self.pieces.get(place) {
            Some(Piece::Faces(faces)) => {
                let mut most = f64::NEG_INFINITY;
                for face in faces.of(&self.faces) {
                    let points = self.face(*face);
                    let Some(first) = points.first() else {
                        continue;
                    };
                    let mut area = Vector::ZERO;
                    each_side(points, |a, b| {
                        area = area + (a - *first).cross(b - *first);
                    });
                    if let Some(normal) = area.unit() {
                        most = libm::fmax(most, normal.dot(point - *first));
                    }
                }
                most
            }
            Some(Piece::Prism { section, y }) => {
                let mut most = libm::fmax(y[0] - point.y, point.y - y[1]);
                let section = section.of(&self.flat);
                let next = section.iter().skip(1).chain(section.first());
                for (a, b) in section.iter().zip(next) {
                    let run = [b[0] - a[0], b[1] - a[1]];
                    let length = libm::hypot(run[0], run[1]);
                    if length > 0.0 {
                        let off = (run[1] * (point.x - a[0]) - run[0] * (point.z - a[1])) / length;
                        most = libm::fmax(most, off);
                    }
                }
                most
            }
            Some(Piece::Turned(drum)) => drum.outside(point),
            None => f64::INFINITY,
        }
    }

    /// The piece that holds a point of the tank, or one that it is off by no more than `slack`; `None` outside, and within
    /// the sheet of a baffle.
    #[must_use]
    pub fn piece_at(&self, point: Vector, slack: f64) -> Option<usize> {
        let mut found = None;
        let mut least = slack;
        for place in 0..self.pieces.len() {
            let off = self.outside(place, point);
            if off <= 0.0 {
                return Some(place);
            }
            if off <= least {
                least = off;
                found = Some(place);
            }
        }
        found
    }
}
