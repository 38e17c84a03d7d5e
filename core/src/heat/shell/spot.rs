//! A place on an edge.

/// One of the two sheets at a place on an edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Place {
    /// Which of the mesh's sheets.
    pub(super) sheet: u8,
    /// Where the place lies on the sheet laid flat, in m.
    pub(super) here: [f32; 2],
    /// The direction of the edge there.
    pub(super) ahead: [f32; 2],
}

/// Parts of one in which is kept what a corner adds.
pub(super) const ROUND: f64 = 64.0;

/// Where a place is: on which edge, and how far along it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Way {
    pub(super) sides: [Place; 2],
    /// Where it lies on the tank, in m.
    pub(super) place: [f32; 3],
    /// From the edge's start, in m.
    pub(super) at: f64,
    /// Length of the edge, in m.
    pub(super) whole: f64,
    /// Mean of the two sheets, in m.
    pub(super) thickness: f32,
    pub(super) straight: bool,
    /// Whether it is a rim, which ends where it starts.
    pub(super) closed: bool,
    /// What the corners of the tank at its two ends add to heat there (`corner`), in parts of [`ROUND`]; nothing
    /// where it ends at none.
    pub(super) rounds: Option<[i8; 2]>,
}

/// The cells about a place on an edge of one sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct About {
    /// The cell beside the place, the next to it along the edge on one side, and on the other; and of each the
    /// one behind it, further from the edge.
    pub(super) cells: [[u16; 2]; 3],
    /// How much each of the three counts.
    pub(super) shares: [f32; 3],
    /// The share of a heat that the first of the three takes; the rest goes to the next in the direction in which
    /// the place lies of its middle.
    pub(super) keeps: f32,
    /// Whether that is the last of the three.
    pub(super) on: bool,
}

impl About {
    /// Gives the three their shares: of cells this far from the place along the edge, in m, the first of them so
    /// wide, the value at the place of the parabola through their means; at the end of a row, where the place
    /// lies between two cells, of the straight line through both, and else the first alone.
    pub(super) fn weigh(&mut self, middles: [Option<f64>; 3], width: f64) {
        let [own, before, after] = middles;
        if let Some(own) = own {
            self.on = own < 0.0;
            let next = if self.on { after } else { before };
            // Along a slanting rim the middle of the next square may lie on the same side.
            self.keeps = match next {
                Some(next) if next * own < 0.0 => (next / (next - own)) as f32,
                _ => 1.0,
            };
        }
        self.shares = match middles {
            [Some(a), Some(b), Some(c)] => {
                // The mean of a parabola is above its middle by a twelfth of the width squared.
                let twelfth = width * width / 12.0;
                let share = |x: f64, y: f64, z: f64| (y * z - twelfth) / ((x - y) * (x - z));
                [share(a, b, c), share(b, c, a), share(c, a, b)].map(|share| share as f32)
            }
            [Some(a), Some(b), None] | [Some(a), None, Some(b)] if a * b < 0.0 => {
                let share = (a / (a - b)) as f32;
                let [_, second, _] = middles;
                if second.is_some() {
                    [1.0 - share, share, 0.0]
                } else {
                    [1.0 - share, 0.0, share]
                }
            }
            _ => [1.0, 0.0, 0.0],
        };
    }
}

/// A place on an edge: the cells about it on both of its sides.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    pub(super) about: [About; 2],
    /// Share of a heat that the first side takes, of 255: by thickness.
    pub(super) first: u8,
    pub(super) way: Way,
    /// Whether it is an edge of the tank itself, where two sheets end.
    pub(super) seam: bool,
}

impl Spot {
    /// The cells beside it, and their shares of a heat, which the first and the second side take by thickness.
    pub(super) fn beside(&self) -> [(usize, f64); 2] {
        let [first, second] = self.about.map(|about| usize::from(about.cells[0][0]));
        let share = f64::from(self.first) / 255.0;
        [(first, share), (second, 1.0 - share)]
    }

    /// The cells that a heat here goes to, and their shares of it: on either side the two between whose middles it
    /// lies, so that its centre along the edge stays where it is.
    pub(super) fn takes(&self) -> [(usize, f64); 4] {
        let [first, second] = self.beside();
        let [a, b] = &self.about;
        let split = |(cell, share): (usize, f64), about: &About| {
            let keeps = f64::from(about.keeps);
            let [_, before, after] = about.cells;
            let next = if about.on { after[0] } else { before[0] };
            [
                (cell, share * keeps),
                (usize::from(next), share * (1.0 - keeps)),
            ]
        };
        let ([a, b], [c, d]) = (split(first, a), split(second, b));
        [a, b, c, d]
    }

    /// Temperature at the edge, from those of cells.
    ///
    /// A cell knows its mean. Across an edge that both sides are heated along, temperature is even; of the
    /// parabola through the means of the cell and of the one behind it, the value at the edge is the first
    /// mean and a sixth of the difference more.
    /// Beside a steep rise a parabola dips where temperature does not: the value is no lower than that of the
    /// coldest of the cells.
    pub(super) fn read(&self, of: impl Fn(u16) -> f64) -> f64 {
        let (mut sum, mut least) = (0.0, f64::INFINITY);
        for about in &self.about {
            for (cells, share) in about.cells.iter().zip(about.shares) {
                let [near, far] = cells.map(&of);
                sum += 0.5 * f64::from(share) * (near + (near - far) / 6.0);
                least = libm::fmin(least, libm::fmin(near, far));
            }
        }
        libm::fmax(sum, least)
    }
}

impl Way {
    /// Where another place on this edge is, from the edge's start.
    pub(super) fn along(&self, other: &Self) -> Option<f64> {
        let sheets = |spot: &Self| spot.sides.map(|side| side.sheet);
        let same = sheets(self) == sheets(other) && libm::fabs(self.whole - other.whole) < 1e-9;
        if !same {
            return None;
        }
        // Round a rim, the nearer way.
        let round = if self.closed {
            self.whole * libm::round((other.at - self.at) / self.whole)
        } else {
            0.0
        };
        Some(other.at - round)
    }

    /// Where another place is from the start of this edge: along the edge, and away from it on the sheet that
    /// both have.
    pub(super) fn offset_to(&self, other: &Self) -> Option<[f64; 2]> {
        if let Some(along) = self.along(other) {
            return Some([along, 0.0]);
        }
        if !self.straight {
            return None;
        }
        self.offset_on(other, 0.0)
    }

    /// The same for a place so much further along the other's edge.
    fn offset_on(&self, other: &Self, further: f64) -> Option<[f64; 2]> {
        // A wall that meets itself has the edge on both sides: the nearer.
        let mut nearest: Option<[f64; 2]> = None;
        for own in &self.sides {
            for its in other.sides.iter().filter(|its| its.sheet == own.sheet) {
                let [ax, ay] = own.ahead.map(f64::from);
                let [bx, by] = its.ahead.map(f64::from);
                let [x, y] = own.here.map(f64::from);
                let [u, w] = its.here.map(f64::from);
                let (dx, dy) = (u + bx * further - x, w + by * further - y);
                let found = [self.at + dx * ax + dy * ay, dx * ay - dy * ax];
                if nearest.is_none_or(|[_, y]| libm::fabs(found[1]) < libm::fabs(y)) {
                    nearest = Some(found);
                }
            }
        }
        nearest
    }

    /// The corners at which the two edges end, from the start of this edge as in [`offset_to`](Self::offset_to), and
    /// what each adds.
    pub(super) fn corners_with(&self, other: &Self) -> [Option<([f64; 2], f64)>; 4] {
        let mut all = [None; 4];
        let [a, b, c, d] = &mut all;
        let adds = |round: i8| f64::from(round) / ROUND;
        if let Some([first, last]) = self.rounds {
            *a = Some(([0.0, 0.0], adds(first)));
            *b = Some(([self.whole, 0.0], adds(last)));
        }
        let Some([first, last]) = other.rounds else {
            return all;
        };
        if self.along(other).is_some() {
            return all;
        }
        let ends = [(-other.at, first), (other.whole - other.at, last)];
        for (slot, (along, round)) in [c, d].into_iter().zip(ends) {
            let Some([x, y]) = self.offset_on(other, along) else {
                continue;
            };
            let own = libm::fabs(y) < 1e-3
                && libm::fmin(libm::fabs(x), libm::fabs(x - self.whole)) < 1e-3;
            if !own {
                *slot = Some(([x, y], adds(round)));
            }
        }
        all
    }

    /// The square of how far two places are apart in a straight line, in m².
    pub(super) fn apart(&self, other: &Self) -> f64 {
        let pairs = self.place.iter().zip(other.place);
        pairs
            .map(|(a, b)| f64::from(a - b) * f64::from(a - b))
            .sum()
    }
}
