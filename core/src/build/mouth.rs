//! The openings of a tank that is not yet closed.

use heapless::Vec;

use crate::blank::Axes;
use crate::body::Solid;
use crate::geom::Vector;
use crate::geom::outline::polygon;
use crate::input::Face;
use crate::tank::Tank;

/// Corners of a face, with those that six cuts may add.
const MOST: usize = 40;

/// A range along each of the three axes.
pub(super) type Cell = [[f64; 2]; 3];

/// The part of a cell that a coordinate runs along, by the place of its axis.
pub(super) fn along(point: Vector, axis: usize) -> f64 {
    match axis {
        0 => point.x,
        1 => point.y,
        _ => point.z,
    }
}

/// Something that a hand and a torch may go through.
#[derive(Clone, Copy, Debug)]
pub(super) enum Mouth {
    /// The place of this plane face, which is not on yet.
    Plane(Face),
    /// A round one: the end of a drum, or the bore of a fitting.
    Round {
        /// Its middle.
        centre: Vector,
        /// Across it, of unit length.
        axis: Vector,
        /// In m.
        radius: f64,
    },
}

impl Mouth {
    /// The place of a face of a tank, or the bore of a fitting; `None` for the wall of a drum.
    pub(super) fn of(tank: &Tank, face: Face) -> Option<Self> {
        if let Face::Fitting(number) = face {
            let fitting = tank.fittings().nth(usize::from(number).checked_sub(1)?)?;
            return Some(Self::Round {
                centre: fitting.centre + fitting.inward * fitting.sheet.si(),
                axis: fitting.inward,
                radius: 0.5 * fitting.bore().si(),
            });
        }
        let inside = tank.inside();
        let Some((turned, start, axis)) = inside.turned() else {
            return Some(Self::Plane(face));
        };
        let along = axis.along();
        let far = inside.face(face)?.normal().dot(along) > 0.0;
        let centre = if far {
            start + along * turned.length()
        } else {
            start
        };
        (face != Face::Shell).then_some(Self::Round {
            centre,
            axis: along,
            radius: turned.radius(),
        })
    }

    /// How far it is from a point within a cell to what of this opening lies in that cell, in m; `None` where that is
    /// narrower than `clear` metres.
    #[inline(never)]
    pub(super) fn distance(
        &self,
        inside: &Solid,
        point: Vector,
        cell: &Cell,
        clear: f64,
    ) -> Option<f64> {
        match self {
            Self::Plane(face) => {
                let view = inside.face(*face)?;
                let axes = Axes::of(view.normal(), view.outline());
                let mut cut: Vec<[f64; 2], MOST> = Vec::new();
                for corner in view.outline() {
                    cut.push(axes.flat(corner)).ok()?;
                }
                for (axis, [low, high]) in (0..).zip(*cell) {
                    let at = |flat: [f64; 2]| along(axes.lift(flat), axis);
                    // A hair, so that a face in the plane of the cell's own end is not cut away.
                    if low.is_finite() {
                        cut = polygon::kept(&cut, |flat| at(flat) - low + 1e-9);
                    }
                    if high.is_finite() {
                        cut = polygon::kept(&cut, |flat| high - at(flat) + 1e-9);
                    }
                }
                if !(clear_width(&cut) >= clear) {
                    return None;
                }
                let flat = axes.flat(point);
                let off = (point - axes.lift(flat)).length();
                Some(libm::hypot(off, outside_by(&cut, flat)))
            }
            Self::Round {
                centre,
                axis,
                radius,
                ..
            } => {
                let within = (0..).zip(*cell).all(|(axis, [low, high])| {
                    let at = along(*centre, axis);
                    at > low - 1e-9 && at < high + 1e-9
                });
                if !within || !(2.0 * radius >= clear) {
                    return None;
                }
                let from = point - *centre;
                let off = axis.dot(from);
                let across = (from - *axis * off).length();
                Some(libm::hypot(off, libm::fmax(across - radius, 0.0)))
            }
        }
    }
}

/// How wide a polygon is where it is narrowest, in m. Of one with inside corners it is the mean chord of the same area and
/// outline, `2 A / P`, which is never more than its widest leg.
fn clear_width(corners: &[[f64; 2]]) -> f64 {
    let next = || corners.iter().cycle().skip(1);
    let sides = corners.iter().zip(next());
    let (mut width, mut round, mut inward) = (f64::INFINITY, 0.0, false);
    for (from, to) in sides {
        let side = [to[0] - from[0], to[1] - from[1]];
        let length = libm::hypot(side[0], side[1]);
        if !(length > 1e-9) {
            continue;
        }
        round += length;
        let off = |p: &[f64; 2]| (side[0] * (p[1] - from[1]) - side[1] * (p[0] - from[0])) / length;
        let (low, high) = corners
            .iter()
            .map(off)
            .fold((0.0, 0.0), |(low, high), off| {
                (libm::fmin(low, off), libm::fmax(high, off))
            });
        // Seen from a side of a convex polygon all else lies on one hand.
        inward |= low < -1e-9 && high > 1e-9;
        width = libm::fmin(width, high - low);
    }
    if !width.is_finite() || !(round > 0.0) {
        return 0.0;
    }
    if inward {
        2.0 * libm::fabs(polygon::area(corners)) / round
    } else {
        width
    }
}

/// How far outside a polygon a point of its plane lies, in m; 0 within.
fn outside_by(corners: &[[f64; 2]], point: [f64; 2]) -> f64 {
    let (mut odd, mut nearest) = (false, f64::INFINITY);
    let next = corners.iter().cycle().skip(1);
    for (from, to) in corners.iter().zip(next) {
        let side = [to[0] - from[0], to[1] - from[1]];
        let off = [point[0] - from[0], point[1] - from[1]];
        let square = side[0] * side[0] + side[1] * side[1];
        let share = if square > 0.0 {
            (side[0] * off[0] + side[1] * off[1]) / square
        } else {
            0.0
        };
        let share = libm::fmin(libm::fmax(share, 0.0), 1.0);
        let apart = libm::hypot(off[0] - share * side[0], off[1] - share * side[1]);
        nearest = libm::fmin(nearest, apart);
        if (from[1] > point[1]) != (to[1] > point[1]) {
            let cross = from[0] + side[0] * (point[1] - from[1]) / side[1];
            odd ^= cross > point[0];
        }
    }
    if odd { 0.0 } else { nearest }
}

/// Where a seam is looked at, as shares of its length: at both ends, and between.
pub(super) fn samples(round: bool) -> impl Iterator<Item = f64> {
    const STRAIGHT: u8 = 4;
    const ROUND: u8 = 8;
    let parts = if round { ROUND } else { STRAIGHT };
    let last = if round { parts - 1 } else { parts };
    (0..=last).map(move |n| f64::from(n) / f64::from(parts))
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARE: [[f64; 2]; 4] = [[0.0, 0.0], [0.3, 0.0], [0.3, 0.1], [0.0, 0.1]];

    /// By hand: a rectangle is as wide as its short side, an equilateral triangle as its height.
    #[test]
    fn the_clear_width_by_hand() {
        assert!((clear_width(&SQUARE) - 0.1).abs() < 1e-12);
        let height = 0.5 * libm::sqrt(3.0);
        let triangle = [[0.0, 0.0], [1.0, 0.0], [0.5, height]];
        assert!((clear_width(&triangle) - height).abs() < 1e-12);
        // An L of two legs 0.1 wide is told as no wider.
        let l = [
            [0.0, 0.0],
            [0.5, 0.0],
            [0.5, 0.1],
            [0.1, 0.1],
            [0.1, 0.5],
            [0.0, 0.5],
        ];
        let width = clear_width(&l);
        assert!(width > 0.05 && width <= 0.1, "{width}");
        assert!(!(clear_width(&[]) > 0.0));
    }

    #[test]
    fn how_far_outside_by_hand() {
        assert!(outside_by(&SQUARE, [0.1, 0.05]).abs() < 1e-15);
        assert!((outside_by(&SQUARE, [0.33, 0.14]) - 0.05).abs() < 1e-12);
        assert!((outside_by(&SQUARE, [0.1, -0.02]) - 0.02).abs() < 1e-12);
    }

    /// A drum's end 0.4 m across, seen from 0.3 m within and 0.4 m past its rim.
    #[test]
    fn a_round_mouth_by_hand() {
        let mouth = Mouth::Round {
            centre: Vector::ZERO,
            axis: Vector::new(1.0, 0.0, 0.0),
            radius: 0.2,
        };
        let all = [[f64::NEG_INFINITY, f64::INFINITY]; 3];
        let from = Vector::new(0.3, 0.0, 0.6);
        let distance = mouth.distance(&crate::body::Body::EMPTY.inside, from, &all, 0.12);
        assert!(distance.is_some_and(|distance| (distance - 0.5).abs() < 1e-12));
        assert_eq!(
            mouth.distance(&crate::body::Body::EMPTY.inside, from, &all, 0.41),
            None
        );
        let beyond = [[0.1, f64::INFINITY], all[1], all[2]];
        assert_eq!(
            mouth.distance(&crate::body::Body::EMPTY.inside, from, &beyond, 0.12),
            None
        );
    }
}
