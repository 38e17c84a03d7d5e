//! A place on an edge.

/// One of the two sheets at a place on an edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Place {
    /// Which of the mesh's sheets.
    pub(super) sheet: u8,
    /// Where the place lies on the sheet laid flat, in m.
    pub(super) here: [f64; 2],
    /// The direction of the edge there.
    pub(super) ahead: [f64; 2],
}

/// A place on an edge: the cells on its two sides, and those behind them, further from the edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    pub(super) near: [u16; 2],
    pub(super) far: [u16; 2],
    /// The same of the next cells along the edge, on the side on which the place lies,
    pub(super) next: [[u16; 2]; 2],
    /// and how much each side's count.
    pub(super) shares_next: [f64; 2],
    /// Share of a heat that the first side takes, of 255: by thickness.
    pub(super) first: u8,
    pub(super) sides: [Place; 2],
    /// From the edge's start, in m.
    pub(super) at: f64,
    /// Length of the edge, in m.
    pub(super) whole: f64,
    /// Mean of the two sheets, in m.
    pub(super) thickness: f64,
    /// Whether it is an edge of the tank itself, where two sheets end.
    pub(super) seam: bool,
    pub(super) straight: bool,
    /// Whether it ends at corners of the tank, where three sheets meet.
    pub(super) cornered: bool,
}

impl Spot {
    /// Shares of a heat that the two sides take.
    pub(super) fn shares(&self) -> [f64; 2] {
        let first = f64::from(self.first) / 255.0;
        [first, 1.0 - first]
    }

    /// Temperature at the edge, from those of cells.
    ///
    /// A cell knows its mean. Across an edge that both sides are heated along, temperature is even; of the
    /// parabola through the means of the cell and of the one behind it, the value at the edge is the first
    /// mean and a sixth of the difference more.
    /// Along the edge a straight line joins two cells.
    pub(super) fn read(&self, of: impl Fn(u16) -> f64) -> f64 {
        let mut sum = 0.0;
        for side in 0..2 {
            let pick = |cells: &[u16; 2]| of(cells.get(side).copied().unwrap_or_default());
            let at = |near: &[u16; 2], far: &[u16; 2]| {
                let near = pick(near);
                near + (near - pick(far)) / 6.0
            };
            let share = self.shares_next.get(side).copied().unwrap_or_default();
            let [near, far] = &self.next;
            sum += 0.5 * (1.0 - share) * at(&self.near, &self.far);
            if share > 0.0 {
                sum += 0.5 * share * at(near, far);
            }
        }
        sum
    }

    /// Where another place on this edge is, from the edge's start.
    pub(super) fn along(&self, other: &Self) -> Option<f64> {
        let sheets = |spot: &Self| spot.sides.map(|side| side.sheet);
        let same = sheets(self) == sheets(other) && libm::fabs(self.whole - other.whole) < 1e-9;
        if !same {
            return None;
        }
        // Round a rim, the nearer way.
        let round = if self.straight || self.cornered {
            0.0
        } else {
            self.whole * libm::round((other.at - self.at) / self.whole)
        };
        Some(other.at - round)
    }

    /// Where another place is from the start of this edge: along the edge, and away from it on the sheet that
    /// both have.
    pub(super) fn from_start(&self, other: &Self) -> Option<[f64; 2]> {
        if let Some(along) = self.along(other) {
            return Some([along, 0.0]);
        }
        if !self.straight {
            return None;
        }
        for own in &self.sides {
            for its in other.sides.iter().filter(|its| its.sheet == own.sheet) {
                let [dx, dy] = [its.here[0] - own.here[0], its.here[1] - own.here[1]];
                let [ax, ay] = own.ahead;
                return Some([self.at + dx * ax + dy * ay, dx * ay - dy * ax]);
            }
        }
        None
    }
}
