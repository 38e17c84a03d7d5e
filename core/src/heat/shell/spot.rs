//! A place on an edge.

/// A place on an edge as it lies on one of the two sheets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct SheetPlace {
    /// Number of the sheet in the mesh.
    pub(super) sheet: u8,
    /// Where the place lies on the sheet laid flat, in m.
    pub(super) here: [f32; 2],
    /// Direction of the edge there on the sheet laid flat, of length one.
    pub(super) ahead: [f32; 2],
}

/// Fixed-point scale of corner excesses (1/64).
pub(super) const EXCESS_SCALE: f64 = 64.0;

/// A place on an edge: which edge it is, and how far along it the place lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct EdgePlace {
    pub(super) sides: [SheetPlace; 2],
    /// Its point on the tank, in m.
    pub(super) place: [f32; 3],
    /// Distance from the edge's start along it, in m.
    pub(super) at: f64,
    /// Length of the edge, in m.
    pub(super) whole: f64,
    /// Mean thickness of the two sheets, in m.
    pub(super) thickness: f32,
    /// Whether the edge is straight.
    pub(super) straight: bool,
    /// Whether it is a rim, which ends where it starts.
    pub(super) closed: bool,
    /// Excesses of the corners of the tank at its two ends (`corner`), in parts of [`EXCESS_SCALE`]; `None` where the
    /// edge ends at no corner.
    pub(super) corners: Option<[i8; 2]>,
}

/// The cells about a place on an edge of one sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct CellsAbout {
    /// The cell beside the place, the next to it along the edge on one side, and on the other; and of each the
    /// one behind it, further from the edge, or across the edge where that runs within the sheet.
    pub(super) cells: [[u16; 2]; 3],
    /// Weight of the second of each pair in the temperature at the place: see [`Spot::read`].
    pub(super) second: f32,
    /// Weights of the three in the temperature at the place; they sum up to one.
    pub(super) shares: [f32; 3],
    /// Share of a heat put in at the place that the first of the three takes; the rest goes to its neighbour on the side
    /// on which the place lies of its middle.
    pub(super) keeps: f32,
    /// Whether that neighbour is the last of the three.
    pub(super) on: bool,
}

impl CellsAbout {
    /// Sets the weights of the three cells. `middles` are the distances of their middles from the place along the edge,
    /// in m, and `width` is that of the first. The value at the place is that of the parabola through the cells' means;
    /// at the end of a row, where the place lies between two cells, that of the straight line through both; and else
    /// the mean of the first alone.
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
    pub(super) about: [CellsAbout; 2],
    /// Share of a heat that the first side takes, in parts of 255: by thickness.
    pub(super) first: u8,
    pub(super) on_edge: EdgePlace,
    /// Whether its beads are tracked: those round a fitting are not.
    pub(super) tracked: bool,
}

impl Spot {
    /// The cell beside it on each side, with its share of a heat put in here: the sides share it by their thickness.
    pub(super) fn beside(&self) -> [(usize, f64); 2] {
        let [first, second] = self.about.map(|about| usize::from(about.cells[0][0]));
        let share = f64::from(self.first) / 255.0;
        [(first, share), (second, 1.0 - share)]
    }

    /// The cells among which a heat put in here is shared, each with its share: on either side the two between whose
    /// middles the place lies, so that the heat's centre along the edge is the place itself; within a sheet so across
    /// the edge too.
    pub(super) fn heat_shares(&self) -> impl Iterator<Item = (usize, f64)> + Clone {
        let first = f64::from(self.first) / 255.0;
        let both = self.about.into_iter().zip([first, 1.0 - first]);
        both.flat_map(|(about, share)| {
            let keeps = f64::from(about.keeps);
            let across = libm::fmax(f64::from(about.second), 0.0);
            let [own, before, after] = about.cells;
            let next = if about.on { after } else { before };
            [(own, share * keeps), (next, share * (1.0 - keeps))]
                .into_iter()
                .flat_map(move |([near, far], share)| {
                    [
                        (usize::from(near), share * (1.0 - across)),
                        (usize::from(far), share * across),
                    ]
                })
        })
        .filter(|(_, share)| *share > 0.0)
    }

    /// Temperature at the edge, in K over the surroundings, from the mean temperatures of cells, which `of` gives.
    ///
    /// A cell knows its mean. Across an edge that both sides are heated along, temperature is even; of the
    /// parabola through the means of the cell and of the one behind it, the value at the edge is the first
    /// mean and a sixth of the difference more. Where the edge runs within the sheet, it is that of the straight line
    /// between the cells on its two sides.
    /// Beside a steep rise a parabola dips where temperature does not: the value is no lower than that of the
    /// coldest of the cells.
    pub(super) fn read(&self, of: impl Fn(u16) -> f64) -> f64 {
        let (mut sum, mut least) = (0.0, f64::INFINITY);
        for about in &self.about {
            for (cells, share) in about.cells.iter().zip(about.shares) {
                let [near, far] = cells.map(&of);
                sum += 0.5 * f64::from(share) * (near + (far - near) * f64::from(about.second));
                least = libm::fmin(least, libm::fmin(near, far));
            }
        }
        libm::fmax(sum, least)
    }
}

impl EdgePlace {
    /// Distance of another place from this edge's start along it, in m; `None` where the other lies on another edge.
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

    /// Where another place lies from the start of this edge, in m: along the edge, and away from it on the sheet that the
    /// two edges share. `None` where they share none, or this edge is bent.
    pub(super) fn offset_to(&self, other: &Self) -> Option<[f64; 2]> {
        if let Some(along) = self.along(other) {
            return Some([along, 0.0]);
        }
        if !self.straight {
            return None;
        }
        self.offset_on(other, 0.0)
    }

    /// [`offset_to`](Self::offset_to) a place on another edge, `further` metres along that edge from `other`.
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

    /// The corners at which this edge and the other place's end, each with its excess: in m from the start of this edge,
    /// along it and away from it as [`offset_to`](Self::offset_to) measures.
    pub(super) fn corners_with(&self, other: &Self) -> [Option<([f64; 2], f64)>; 4] {
        let mut all = [None; 4];
        let [a, b, c, d] = &mut all;
        let excess = |round: i8| f64::from(round) / EXCESS_SCALE;
        if let Some([first, last]) = self.corners {
            *a = Some(([0.0, 0.0], excess(first)));
            *b = Some(([self.whole, 0.0], excess(last)));
        }
        let Some([first, last]) = other.corners else {
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
                *slot = Some(([x, y], excess(round)));
            }
        }
        all
    }

    /// Square of the straight distance between two places, in m².
    pub(super) fn apart(&self, other: &Self) -> f64 {
        let pairs = self.place.iter().zip(other.place);
        pairs
            .map(|(a, b)| f64::from(a - b) * f64::from(a - b))
            .sum()
    }
}
