//! One sheet laid flat, and the grid on it.

use core::f64::consts::PI;

use super::clip::Outline;
use crate::blank::Axes;
use crate::geom::Vector;
use crate::input::Face;

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
/// and that four times: widths from the rim inwards, of that at the rim. Worked out here and not where they are
/// asked for, which is often.
const WIDTHS: [f64; 5] = [
    1.0,
    1.0 + WIDENING,
    1.0 + WIDENING * 2.0,
    1.0 + WIDENING * 3.0,
    WIDEST,
];
const WIDEST: f64 = 1.0 + WIDENING * 4.0;

/// Width of square `n` of `count`, of that at the rim.
fn width(n: u16, count: u16) -> f64 {
    let inward = n.min(count.saturating_sub(n + 1));
    WIDTHS.get(usize::from(inward)).copied().unwrap_or(WIDEST)
}

/// Where the grid's line `n` of `count + 1` stands, as a share of the whole, and where the next.
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
        let [left, beyond] = lines(right, across);
        let [below, above] = lines(up, high);
        [
            [self.size[0] * left, self.size[1] * below],
            [self.size[0] * beyond, self.size[1] * above],
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
