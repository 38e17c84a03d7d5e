//! Doors: where two pieces meet, and how high that is.

use super::{Compartments, Mouth, Range, TooManyPieces};
use crate::geom::Vector;

/// What joins two pieces.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum DoorKind {
    /// The open face that two pieces of one room share.
    Open,
    /// An opening in a baffle, counted from 1.
    Baffle(u8),
    /// A pipe outside the tank, counted from 1.
    Pipe(u8),
}

/// The form of a door: plane and convex.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Region {
    /// Corners.
    Polygon(Range),
    /// A disc, or what of it lies within a polygon where one is given.
    Disc {
        centre: Vector,
        radius: f64,
        axis: Vector,
        within: Range,
    },
}

/// A door between two pieces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Door {
    pub(super) between: [u8; 2],
    pub(super) kind: DoorKind,
    pub(super) region: Region,
    /// From the middle of the sheet that it goes through to one of its surfaces.
    pub(super) half: Vector,
}

/// A pipe from one fitting to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Pipe {
    pub(super) between: [u8; 2],
    pub(super) ends: [Mouth; 2],
}

impl Compartments {
    /// Joins two pieces by a pipe outside the tank.
    pub(crate) fn add_pipe(
        &mut self,
        pieces: [usize; 2],
        ends: [Mouth; 2],
    ) -> Result<(), TooManyPieces> {
        let [a, b] = pieces.map(|piece| u8::try_from(piece).map_err(|_| TooManyPieces));
        let pipe = Pipe {
            between: [a?, b?],
            ends,
        };
        self.pipes.push(pipe).map_err(|_| TooManyPieces)
    }

    /// How many doors there are, pipes counted after them.
    pub(super) fn door_count(&self) -> usize {
        self.doors.len() + self.pipes.len()
    }

    /// The two pieces of a door, and what it is.
    pub(super) fn door(&self, place: usize) -> Option<([usize; 2], DoorKind)> {
        if let Some(door) = self.doors.get(place) {
            return Some((door.between.map(usize::from), door.kind));
        }
        let number = place.checked_sub(self.doors.len())?;
        let pipe = self.pipes.get(number)?;
        let kind = DoorKind::Pipe(u8::try_from(number + 1).ok()?);
        Some((pipe.between.map(usize::from), kind))
    }

    /// How high liquid must stand on the higher side before it goes through a door, along up in metres from the
    /// origin: both rims of a hole through thick sheet, both ends of a pipe count.
    pub(super) fn sill(&self, place: usize, up: Vector) -> f64 {
        if let Some(door) = self.doors.get(place) {
            return self.least(&door.region, up) + libm::fabs(door.half.dot(up));
        }
        let pipe = place
            .checked_sub(self.doors.len())
            .and_then(|number| self.pipes.get(number));
        pipe.map_or(f64::INFINITY, |pipe| {
            let [one, other] = pipe.ends.map(|end| end.low(up));
            libm::fmax(one, other)
        })
    }

    /// The lowest point of a region along `up`.
    fn least(&self, region: &Region, up: Vector) -> f64 {
        let (centre, radius, axis, within) = match *region {
            Region::Polygon(range) => return lowest(range.of(&self.points), up),
            Region::Disc {
                centre,
                radius,
                axis,
                within,
            } => (centre, radius, axis, within),
        };
        let mouth = Mouth {
            at: centre,
            axis,
            radius,
        };
        let bottom = mouth.low(up);
        let corners = within.of(&self.points);
        if corners.is_empty() {
            return bottom;
        }
        // The lowest point of the disc where the polygon has it; else the lowest corner within the disc, or the lowest
        // point at which its rim crosses a side.
        let down = (axis * axis.dot(up) - up).unit();
        let point = centre + down.unwrap_or_default() * radius;
        if down.is_none() || holds(corners, axis, point) {
            return bottom;
        }
        let mut least = f64::INFINITY;
        each_side(corners, |a, b| {
            if (a - centre).length() <= radius {
                least = libm::fmin(least, a.dot(up));
            }
            let run = b - a;
            let (square, half) = (run.dot(run), (a - centre).dot(run));
            let rest = (a - centre).dot(a - centre) - radius * radius;
            let root = half * half - square * rest;
            if square > 0.0 && root >= 0.0 {
                for sense in [-1.0, 1.0] {
                    let share = (sense * libm::sqrt(root) - half) / square;
                    if (0.0..=1.0).contains(&share) {
                        least = libm::fmin(least, (a + run * share).dot(up));
                    }
                }
            }
        });
        least
    }
}

/// Calls `show` for each side of a closed outline.
pub(super) fn each_side(corners: &[Vector], mut show: impl FnMut(Vector, Vector)) {
    let next = corners.iter().skip(1).chain(corners.first());
    for (a, b) in corners.iter().zip(next) {
        show(*a, *b);
    }
}

/// The lowest of some points along `up`.
pub(super) fn lowest(points: &[Vector], up: Vector) -> f64 {
    points
        .iter()
        .map(|point| point.dot(up))
        .fold(f64::INFINITY, libm::fmin)
}

/// Whether a convex outline, either way round the axis of its plane, holds a point of the plane.
fn holds(corners: &[Vector], axis: Vector, point: Vector) -> bool {
    let (mut left, mut right) = (false, false);
    each_side(corners, |a, b| {
        let side = (b - a).cross(point - a).dot(axis);
        left |= side > 0.0;
        right |= side < 0.0;
    });
    !(left && right)
}
