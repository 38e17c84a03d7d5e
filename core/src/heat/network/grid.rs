//! One sheet laid flat, and the grid on it.

use core::f64::consts::PI;

use super::clip::Outline;
use crate::body::Face;
use crate::geom::Vector;
use crate::panel::Axes;

/// How a place on the tank is found on a sheet laid flat.
#[derive(Clone, Copy, Debug)]
pub(super) enum Lie {
    /// A plane.
    Plane(Axes),
    /// A drum's wall: its axis to the right, round it up from the closing seam.
    Wall {
        start: Vector,
        along: Vector,
        seam: Vector,
        radius: f64,
    },
    /// A drum's end, flat or dished, drawn as the disc of the same area: what is so far from the axis by
    /// share is as far from the disc's middle.
    End {
        axes: Axes,
        centre: Vector,
        /// Radius of the disc over that of the rim.
        scale: f64,
    },
}

/// One sheet and its grid.
#[derive(Clone, Debug)]
pub(super) struct Grid {
    pub(super) lie: Lie,
    pub(super) face: Face,
    /// Box about the sheet laid flat: from the origin to here.
    pub(super) size: [f64; 2],
    /// Squares to the right and up.
    pub(super) counts: [u16; 2],
    /// Its first cell.
    pub(super) first: u16,
    pub(super) thickness: f64,
    /// True area over that of the outline.
    pub(super) swell: f64,
}

/// Each square is wider than its neighbour nearer to the rim by this share of the one at the rim,
const WIDENING: f64 = 0.3;
/// and that so many times.
const WIDENED: u16 = 4;

/// Width of square `n` of `count`, of that at the rim.
fn width(n: u16, count: u16) -> f64 {
    let inward = n.min(count.saturating_sub(n + 1)).min(WIDENED);
    1.0 + WIDENING * f64::from(inward)
}

/// Where the grid's line `n` of `count + 1` stands, as a share of the whole.
pub(super) fn line(n: u16, count: u16) -> f64 {
    let (mut sum, mut whole) = (0.0, 0.0);
    for place in 0..count {
        if place == n {
            sum = whole;
        }
        whole += width(place, count);
    }
    if n < count { sum / whole } else { 1.0 }
}

/// In which of `count` squares a share of the whole lies.
fn place_of(share: f64, count: u16) -> u16 {
    let whole: f64 = (0..count).map(|n| width(n, count)).sum();
    let mut rest = share * whole;
    for n in 0..count.saturating_sub(1) {
        rest -= width(n, count);
        if rest < 0.0 {
            return n;
        }
    }
    count.saturating_sub(1)
}

/// Squares along a length for a wanted width of those at the rim.
pub(super) fn count_for(length: f64, rim: f64) -> u16 {
    for count in 1..=200_u16 {
        if line(1, count) * length <= rim {
            return count;
        }
    }
    200
}

/// Mean width of the squares of all grids, in m.
pub(super) fn mean_width(grids: &[Grid]) -> f64 {
    let mut sums = [0.0, 0.0];
    for grid in grids {
        for (size, count) in grid.size.iter().zip(grid.counts) {
            sums[0] += size;
            sums[1] += f64::from(count);
        }
    }
    sums[0] / libm::fmax(sums[1], 1.0)
}

impl Grid {
    /// Where a point of the sheet lies when it is flat. On a wall, `far` takes the seam's upper side.
    pub(super) fn flat(&self, point: Vector, far: bool) -> [f64; 2] {
        match self.lie {
            Lie::Plane(axes) => axes.flat(point),
            Lie::Wall {
                start,
                along,
                seam,
                radius,
            } => {
                let from = point - start;
                let (up, side) = (from.dot(seam), from.dot(along.cross(seam)));
                let turn = libm::atan2(side, up);
                let round = if turn < -1e-9 || far {
                    turn + 2.0 * PI
                } else {
                    turn
                };
                [from.dot(along), round * radius]
            }
            Lie::End {
                axes,
                centre,
                scale,
            } => {
                let from = point - centre;
                [
                    0.5 * self.size[0] + scale * axes.right.dot(from),
                    0.5 * self.size[1] + scale * axes.up.dot(from),
                ]
            }
        }
    }

    /// The square in which a place lies; places off the box belong to the nearest.
    pub(super) fn square(&self, at: [f64; 2]) -> [u16; 2] {
        let mut found = [0; 2];
        for (axis, slot) in found.iter_mut().enumerate() {
            let of = |pair: &[f64; 2]| pair.get(axis).copied().unwrap_or_default();
            let count = self.counts.get(axis).copied().unwrap_or(1);
            *slot = place_of(of(&at) / of(&self.size), count);
        }
        found
    }

    pub(super) fn cell(&self, [right, up]: [u16; 2]) -> u16 {
        self.first + up * self.counts[0] + right
    }

    /// The rectangle of a square.
    pub(super) fn rectangle(&self, [right, up]: [u16; 2]) -> [[f64; 2]; 2] {
        let [across, high] = self.counts;
        [
            [
                self.size[0] * line(right, across),
                self.size[1] * line(up, high),
            ],
            [
                self.size[0] * line(right + 1, across),
                self.size[1] * line(up + 1, high),
            ],
        ]
    }

    pub(super) fn count(&self) -> u16 {
        let [right, up] = self.counts;
        right.saturating_mul(up)
    }
}

/// Box of an outline, which is moved so that its lower left is the origin.
pub(super) fn size_of(outline: &Outline) -> [f64; 2] {
    outline.iter().fold([0.0; 2], |[u, w], [x, y]| {
        [libm::fmax(u, *x), libm::fmax(w, *y)]
    })
}
