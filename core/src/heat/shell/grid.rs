//! One sheet laid flat, and the grid on it.

use core::f64::consts::PI;

use super::clip::Outline;
use crate::blank::Axes;
use crate::geom::Vector;
use crate::input::Face;

/// How a sheet is laid flat: what finds a point of the tank on it.
#[derive(Clone, Copy, Debug)]
pub(super) enum Unrolled {
    /// A plane.
    Plane(Axes),
    /// A drum's wall: its axis to the right, round it up from the closing seam.
    Wall {
        /// Where the axis starts, in m.
        start: Vector,
        /// Direction of the axis.
        along: Vector,
        /// From the axis to the closing seam.
        seam: Vector,
        /// In m.
        radius: f64,
    },
    /// A drum's end, flat or dished, drawn as the disc of the same area: distances from the axis are scaled.
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
    /// How it is laid flat.
    pub(super) unrolled: Unrolled,
    /// The wall it is.
    pub(super) face: Face,
    /// Size of the box about the sheet laid flat, in m; one corner is the origin.
    pub(super) size: [f64; 2],
    /// Squares to the right and up.
    pub(super) counts: [u16; 2],
    /// Number of its first cell in the shell.
    pub(super) first: u16,
    /// In m.
    pub(super) thickness: f64,
    /// True area over that of the outline.
    pub(super) swell: f64,
}

/// How much wider each square is than its neighbour nearer to the rim, as a share of the width at the rim; from the fifth
/// square inwards all are alike.
const WIDENING: f64 = 0.3;
/// Widths of the squares from the rim inwards, as multiples of that at the rim: a table, because they are asked for often.
const WIDTHS: [f64; 5] = [
    1.0,
    1.0 + WIDENING,
    1.0 + WIDENING * 2.0,
    1.0 + WIDENING * 3.0,
    WIDEST,
];
const WIDEST: f64 = 1.0 + WIDENING * 4.0;

/// Width of square `n` of `count` in a row, as a multiple of that at the rim.
fn width(n: u16, count: u16) -> f64 {
    let inward = n.min(count.saturating_sub(n + 1));
    WIDTHS.get(usize::from(inward)).copied().unwrap_or(WIDEST)
}

/// Where the two lines about square `n` of `count` stand, as shares of the whole row.
pub(super) fn lines(n: u16, count: u16) -> [f64; 2] {
    let (mut sums, mut whole) = ([0.0; 2], 0.0);
    for place in 0..count {
        if place == n {
            sums[0] = whole;
        } else if place == n + 1 {
            sums[1] = whole;
        }
        whole += width(place, count);
    }
    [
        if n < count { sums[0] / whole } else { 1.0 },
        if n + 1 < count { sums[1] / whole } else { 1.0 },
    ]
}

/// Number of the square, of `count` in a row, in which a share of the whole row lies.
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

/// How many squares a row of `length` metres needs for those at the rim to be no wider than `rim` metres; 200 at most.
pub(super) fn count_for(length: f64, rim: f64) -> u16 {
    // Fewer than this many do not do, were they all of the widest; one less, for rounding.
    let least = length / (WIDEST * rim) - 1.0;
    // A conversion takes what is out of range to the range's end.
    for count in (least as u16).max(1)..=200 {
        let [_, first] = lines(0, count);
        if first * length <= rim {
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
    /// Where a point of the sheet lies on it laid flat, in m. On a drum's wall `far` takes the upper side of the closing
    /// seam.
    pub(super) fn flat(&self, point: Vector, far: bool) -> [f64; 2] {
        match self.unrolled {
            Unrolled::Plane(axes) => axes.flat(point),
            Unrolled::Wall {
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
            Unrolled::End {
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

    /// The square in which a place lies, in m on the sheet laid flat, as its numbers to the right and up; a place off the
    /// box belongs to the nearest.
    pub(super) fn square(&self, at: [f64; 2]) -> [u16; 2] {
        let mut found = [0; 2];
        for (axis, slot) in found.iter_mut().enumerate() {
            let of = |pair: &[f64; 2]| pair.get(axis).copied().unwrap_or_default();
            let count = self.counts.get(axis).copied().unwrap_or(1);
            *slot = place_of(of(&at) / of(&self.size), count);
        }
        found
    }

    /// Number of a square's cell in the shell.
    pub(super) fn cell(&self, [right, up]: [u16; 2]) -> u16 {
        self.first + up * self.counts[0] + right
    }

    /// Lower left and upper right corner of a square, in m.
    pub(super) fn rectangle(&self, [right, up]: [u16; 2]) -> [[f64; 2]; 2] {
        let [across, high] = self.counts;
        let [left, beyond] = lines(right, across);
        let [below, above] = lines(up, high);
        [
            [self.size[0] * left, self.size[1] * below],
            [self.size[0] * beyond, self.size[1] * above],
        ]
    }

    /// How many squares it has.
    pub(super) fn count(&self) -> u16 {
        let [right, up] = self.counts;
        right.saturating_mul(up)
    }
}

/// Upper right corner of the box about an outline whose lower left is the origin, in m.
pub(super) fn size_of(outline: &Outline) -> [f64; 2] {
    outline.iter().fold([0.0; 2], |[u, w], [x, y]| {
        [libm::fmax(u, *x), libm::fmax(w, *y)]
    })
}
