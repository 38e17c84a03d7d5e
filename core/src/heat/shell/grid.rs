//! One sheet laid flat, and the grid on it.

use core::f64::consts::PI;

use super::clip::Outline;
use crate::blank::Axes;
use crate::geom::Vector;
use crate::input::{Axis, Face};

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
    /// A drum's end, flat or dished, drawn as a disc with true distances from its pole.
    End {
        axes: Axes,
        centre: Vector,
        /// Radius of the disc, which is the way from pole to rim along the sheet, over that of the rim.
        scale: f64,
        /// Whether it is the second end.
        second: bool,
    },
}

/// From where and which way round a disc is counted. A drum's wall is counted from its closing seam in the same way: were
/// the squares on the two sides of a rim not in line, heat that goes to and fro across it would spread along it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Turning {
    /// Direction of the closing seam on the disc laid flat, in radians from its right.
    start: f64,
    /// One where it is counted counter-clockwise, else minus one.
    sense: f64,
}

impl Turning {
    /// That of a disc in a drum, which lies flat along `right` and `up`.
    pub(super) fn of(axis: Axis, right: Vector, up: Vector) -> Self {
        let flat = |of: Vector| [right.dot(of), up.dot(of)];
        let [x, y] = flat(axis.to_seam());
        let [u, w] = flat(axis.along().cross(axis.to_seam()));
        Self {
            start: libm::atan2(y, x),
            sense: libm::copysign(1.0, x * w - y * u),
        }
    }
}

/// One sheet and its grid: squares, or on a disc rings that are parted into sectors, counted from the centre and from the
/// right.
#[derive(Clone, Debug)]
pub(super) struct Grid {
    /// How it is laid flat.
    pub(super) unrolled: Unrolled,
    /// The wall it is.
    pub(super) face: Face,
    /// Size of the box about the sheet laid flat, in m; one corner is the origin.
    pub(super) size: [f64; 2],
    /// Squares to the right and up; rings and sectors.
    pub(super) counts: [u16; 2],
    /// Where its sectors are counted from, if it is a disc, which fills its box.
    pub(super) disc: Option<Turning>,
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
        let size = if grid.disc.is_some() {
            let radius = grid.radius();
            [radius, 2.0 * PI * radius]
        } else {
            grid.size
        };
        for (size, count) in size.iter().zip(grid.counts) {
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
                ..
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
        if self.disc.is_some() {
            let [rings, sectors] = self.counts;
            let (radius, turn) = self.polar(at);
            let share = 0.5 + 0.5 * radius / self.radius();
            let ring = place_of(share, 2 * rings).saturating_sub(rings);
            return [ring, place_of(turn / (2.0 * PI), sectors)];
        }
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

    /// Lower left and upper right corner of a square, in m; on a disc its least and greatest radius in m and angle from
    /// the right in radians.
    pub(super) fn rectangle(&self, [right, up]: [u16; 2]) -> [[f64; 2]; 2] {
        let [across, high] = self.counts;
        if self.disc.is_some() {
            let [within, beyond] = lines(across + right, 2 * across);
            let radius = |share: f64| (2.0 * share - 1.0) * self.radius();
            let [from, to] = lines(up, high).map(|share| 2.0 * PI * share);
            return [[radius(within), from], [radius(beyond), to]];
        }
        let [left, beyond] = lines(right, across);
        let [below, above] = lines(up, high);
        [
            [self.size[0] * left, self.size[1] * below],
            [self.size[0] * beyond, self.size[1] * above],
        ]
    }

    /// From a place to the middle of the metal in a square, which lies `off` the square's own in widths of that, in m; on a
    /// disc as if rings and sectors were laid straight at the place.
    pub(super) fn from(&self, square: [u16; 2], off: [f64; 2], here: [f64; 2]) -> [f64; 2] {
        let [low, high] = self.rectangle(square);
        let middle = |low: f64, high: f64, off: f64| 0.5 * (low + high) + off * (high - low);
        let middle = [
            middle(low[0], high[0], off[0]),
            middle(low[1], high[1], off[1]),
        ];
        if self.disc.is_none() {
            return [middle[0] - here[0], middle[1] - here[1]];
        }
        let (radius, turn) = self.polar(here);
        let mut round = middle[1] - turn;
        round -= 2.0 * PI * libm::round(round / (2.0 * PI));
        let [cosine, sine] = self.out(here);
        let (out, along) = (middle[0] - radius, self.sense() * round * radius);
        [out * cosine - along * sine, out * sine + along * cosine]
    }

    /// How long a line in a direction of length one at a place goes through a square in its first and in its second
    /// direction, were the square endless in the other, in m.
    pub(super) fn spans(&self, square: [u16; 2], here: [f64; 2], ahead: [f64; 2]) -> [f64; 2] {
        let [low, high] = self.rectangle(square);
        let (mut wide, mut parts) = ([high[0] - low[0], high[1] - low[1]], ahead);
        if self.disc.is_some() {
            let (radius, _) = self.polar(here);
            let [cosine, sine] = self.out(here);
            wide[1] *= radius;
            parts = [
                ahead[0] * cosine + ahead[1] * sine,
                ahead[1] * cosine - ahead[0] * sine,
            ];
        }
        [
            wide[0] / libm::fmax(libm::fabs(parts[0]), 1e-6),
            wide[1] / libm::fmax(libm::fabs(parts[1]), 1e-6),
        ]
    }

    /// Of a disc, in m.
    fn radius(&self) -> f64 {
        0.5 * self.size[0]
    }

    /// Which way round a disc is counted.
    fn sense(&self) -> f64 {
        self.disc.map_or(1.0, |turning| turning.sense)
    }

    /// From the centre of a disc to a place, in m.
    fn off_centre(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        [x - 0.5 * self.size[0], y - 0.5 * self.size[1]]
    }

    /// The direction from the centre of a disc to a place, of length one.
    fn out(&self, at: [f64; 2]) -> [f64; 2] {
        let [x, y] = self.off_centre(at);
        let away = libm::hypot(x, y);
        if away > 0.0 {
            [x / away, y / away]
        } else {
            [1.0, 0.0]
        }
    }

    /// How far a place on a disc lies from its centre, in m, and in which direction, from 0 to 2π.
    fn polar(&self, at: [f64; 2]) -> (f64, f64) {
        let [x, y] = self.off_centre(at);
        let start = self.disc.map_or(0.0, |turning| turning.start);
        let turn = self.sense() * (libm::atan2(y, x) - start);
        let turn = turn - 2.0 * PI * libm::floor(turn / (2.0 * PI));
        (libm::hypot(x, y), turn)
    }

    /// What a metre along an edge of it is on the sheet laid flat: more than one where a dished end is drawn as a disc.
    pub(super) const fn stretch(&self) -> f64 {
        match self.unrolled {
            Unrolled::End { scale, .. } => scale,
            Unrolled::Plane(_) | Unrolled::Wall { .. } => 1.0,
        }
    }

    /// Divides it into squares of about `rim` metres at its rims.
    pub(super) fn divide_by(&mut self, rim: f64) {
        self.counts = self.size.map(|size| count_for(size, rim));
        if self.disc.is_some() {
            let [across, _] = self.counts;
            let round = 2.0 * PI * self.radius() / self.stretch();
            self.counts = [across.div_ceil(2), count_for(round, rim)];
        }
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
