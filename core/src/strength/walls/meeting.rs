//! Which edges of a tank's plates meet, and how the net joins them.

use heapless::Vec;

use super::super::plate::{Joint, Net, Place, PlateEdge};
use super::flat_wall::WallPlate;
use super::parts::{EDGES, Part, Walls};
use crate::geom::Vector;
use crate::input::Face;

/// How near to each other the ends of two edges lie that meet, in sheets.
pub(super) const NEAR: f64 = 4.0;
/// The cosine of the angle between an edge and the side of the rectangle that stands for it, at the least.
const FACING: f64 = 0.7;
/// The same of an edge that is parallel to that side.
const SQUARE: f64 = 1.0 - 1e-9;

/// An edge of a plate.
#[derive(Clone, Copy)]
pub(super) struct Rim {
    slab: usize,
    face: Face,
    ends: [Vector; 2],
    /// The middle of the plate.
    centre: Vector,
    /// The side of its rectangle that stands for it, and which way that is told.
    side: Option<(PlateEdge, Vector)>,
    /// It faces the same way to the last bit but a few.
    square: bool,
    /// It has been joined.
    used: bool,
}

/// Adds the edges of a plate, each with the side of its rectangle that faces the way it does; of two such the one that
/// faces just so has it, or else the longer. Whether there was room.
pub(super) fn edges(
    rims: &mut Vec<Rim, EDGES>,
    slab: usize,
    part: &Part,
    plate: &WallPlate,
) -> bool {
    let shape = &part.shape;
    let lift = |[u, v]: [f64; 2]| part.frame.u * u + part.frame.v * v;
    let centre = part.frame.origin + lift(shape.centre);
    let (across, along) = (lift(shape.across), lift(shape.along));
    let normal = part.frame.u.cross(part.frame.v);
    let first = rims.len();
    let count = plate.corners.len();
    for place in 0..count {
        let (Some(a), Some(b)) = (
            plate.corners.get(place).copied(),
            plate.corners.get((place + 1) % count).copied(),
        ) else {
            continue;
        };
        let run = b - a;
        let length = run.length();
        // Corners run round counter-clockwise as seen from the side that the normal points to.
        let out = run.cross(normal);
        let facing = |way: Vector| out.dot(way) / length;
        let side = [
            (PlateEdge::LongLow, -across, along),
            (PlateEdge::LongHigh, across, along),
            (PlateEdge::ShortLow, -along, across),
            (PlateEdge::ShortHigh, along, across),
        ]
        .into_iter()
        .find(|(_, way, _)| facing(*way) > FACING)
        .map(|(edge, way, told)| (edge, told, facing(way) > SQUARE));
        let square = side.is_some_and(|(.., square)| square);
        let side = side.map(|(edge, told, _)| (edge, told));
        let mut rim = Rim {
            slab,
            face: part.face,
            ends: [a, b],
            centre,
            side,
            square,
            used: false,
        };
        for old in rims.iter_mut().skip(first) {
            if let (Some((one, _)), Some((other, _))) = (old.side, rim.side)
                && one == other
            {
                let [from, to] = old.ends;
                if (old.square, (to - from).length()) < (square, length) {
                    old.side = None;
                } else {
                    rim.side = None;
                }
            }
        }
        if rims.push(rim).is_err() {
            return false;
        }
    }
    true
}

/// Joins all edges that meet; whether there was room.
pub(super) fn joined(tank: &mut Walls, rims: &mut Vec<Rim, EDGES>, near: f64) -> bool {
    let mut fits = true;
    for at in 0..rims.len() {
        let Some(first) = rims.get(at).copied() else {
            continue;
        };
        if first.used {
            continue;
        }
        let mut walls: Vec<Rim, 4> = Vec::new();
        let mut baffle = None;
        for rim in rims.iter_mut().skip(at) {
            if !first.meets(rim, near) {
                continue;
            }
            rim.used = true;
            if matches!(rim.face, Face::Baffle(_)) {
                baffle = Some(*rim);
            } else {
                fits &= walls.push(*rim).is_ok();
            }
        }
        fits &= match walls.as_slice() {
            [one, other] => {
                if one.side.is_none() || other.side.is_none() {
                    fits &= tank.lost.push([one.slab, other.slab]).is_ok();
                }
                both(&mut tank.net, one, other, baffle.as_ref())
            }
            others => others.iter().all(|rim| held(&mut tank.net, rim)),
        };
    }
    fits
}

/// Joins two walls, and the baffle that stands between them.
fn both(net: &mut Net, one: &Rim, other: &Rim, baffle: Option<&Rim>) -> bool {
    let (Some(a), Some(b)) = (one.place(one), other.place(one)) else {
        return held(net, one) && held(net, other);
    };
    let mut fits = net
        .join(Joint {
            ends: [Some(a), Some(b)],
        })
        .is_ok();
    if let Some(baffle) = baffle {
        // Its deflection is told along its axis: towards the wall that lies on that side.
        let [from, _] = baffle.ends;
        let ahead = baffle.normal();
        let lower = if ahead.dot(one.centre - from) < ahead.dot(other.centre - from) {
            one
        } else {
            other
        };
        if let (Some(a), Some(c)) = (lower.place(one), baffle.place(one)) {
            fits &= net
                .join(Joint {
                    ends: [Some(a), Some(c)],
                })
                .is_ok();
        }
    }
    fits
}

/// Holds an edge from turning.
fn held(net: &mut Net, rim: &Rim) -> bool {
    match rim.place(rim) {
        Some(place) => net
            .join(Joint {
                ends: [Some(place), None],
            })
            .is_ok(),
        None => true,
    }
}

impl Rim {
    /// Its place in the net, told the way that `first` is.
    fn place(&self, first: &Self) -> Option<Place> {
        let (edge, told) = self.side?;
        let (_, ahead) = first.side?;
        Some(Place {
            slab: self.slab,
            edge,
            back: told.dot(ahead) < 0.0,
        })
    }

    /// The way in which its plate's deflection is told.
    fn normal(&self) -> Vector {
        let [from, to] = self.ends;
        (self.centre - from)
            .cross(to - from)
            .unit()
            .map_or(Vector::ZERO, |way| -way)
    }

    /// Whether both its ends lie at those of another.
    fn meets(&self, other: &Self, near: f64) -> bool {
        let ([a, b], [c, d]) = (self.ends, other.ends);
        let close = |p: Vector, q: Vector| (p - q).length() <= near;
        (close(a, c) && close(b, d)) || (close(a, d) && close(b, c))
    }
}
