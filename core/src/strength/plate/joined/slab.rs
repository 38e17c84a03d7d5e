//! One plate of a net: what moments along its edges do to their slopes, and what a pressure does.

use super::super::clamp::load_slope;
use super::super::wave::{Wave, first_fall, wave_number};
use super::super::{Part, Ramp, Sides};

/// Sine terms along each edge that are found together.
pub(super) const TERMS: usize = 8;
/// The last term of the tail, each of which is found by itself.
pub(super) const TAIL: usize = 24;
/// A longer plate has too few terms along its long edges.
pub(crate) const MOST_RATIO: f64 = 12.0;

/// The coefficients of one edge's sine terms, the first being 1.
pub(super) type Terms = [f64; TERMS];

/// The number of a term by its place.
pub(super) fn number(place: usize) -> u8 {
    u8::try_from(place + 1).unwrap_or(u8::MAX)
}

/// 1 for a term that is the same from both ends of its edge, −1 for one that is not.
pub(super) fn from_behind(place: usize) -> f64 {
    if place.is_multiple_of(2) { 1.0 } else { -1.0 }
}

/// An edge of a plate whose x runs across its short side and y along its long one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Edge {
    /// x = 0, told along y.
    LongLow,
    /// x = the short side.
    LongHigh,
    /// y = the lower end, told along x.
    ShortLow,
    /// y = the upper end.
    ShortHigh,
}

impl Edge {
    pub(crate) const ALL: [Self; 4] = [
        Self::LongLow,
        Self::LongHigh,
        Self::ShortLow,
        Self::ShortHigh,
    ];

    pub(super) const fn place(self) -> usize {
        match self {
            Self::LongLow => 0,
            Self::LongHigh => 1,
            Self::ShortLow => 2,
            Self::ShortHigh => 3,
        }
    }

    pub(super) const fn is_long(self) -> bool {
        matches!(self, Self::LongLow | Self::LongHigh)
    }

    pub(super) const fn is_high(self) -> bool {
        matches!(self, Self::LongHigh | Self::ShortHigh)
    }

    /// The edge across the plate, and the two beside it, the low one first.
    pub(super) const fn others(self) -> (Self, [Self; 2]) {
        let [long, short] = [
            [Self::LongLow, Self::LongHigh],
            [Self::ShortLow, Self::ShortHigh],
        ];
        match self {
            Self::LongLow => (Self::LongHigh, short),
            Self::LongHigh => (Self::LongLow, short),
            Self::ShortLow => (Self::ShortHigh, long),
            Self::ShortHigh => (Self::ShortLow, long),
        }
    }
}

/// A rectangular plate with a pressure, its stiffness, and the moments along its edges.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Slab {
    pub(super) sides: Sides,
    pub(super) ramp: Ramp,
    pub(super) stiffness: f64,
    /// Of a unit moment along a long and a short edge: the slope at that edge and at the one across the plate, for D = 1.
    own: [[[f64; 2]; TERMS]; 2],
    /// `e^(−2 β)` of the first term along a long and a short edge.
    falls: [f64; 2],
    /// `k g / (k² + g²)²` of each term along the long edges (rows) and the short ones.
    cross: [Terms; TERMS],
    /// The moments along [`Edge::ALL`].
    pub(super) moments: [Terms; 4],
}

impl Slab {
    /// A plate without moments, for a stiffness D in N·m.
    pub(crate) fn new(sides: Sides, ramp: Ramp, stiffness: f64) -> Self {
        let falls = [
            first_fall(sides.long(), sides.short()),
            first_fall(sides.short(), sides.long()),
        ];
        let mut own = [[[0.0; 2]; TERMS]; 2];
        for (pair, long) in own.iter_mut().zip([true, false]) {
            for (place, both) in pair.iter_mut().enumerate() {
                *both = own_slopes(&wave(sides, falls, long, number(place)));
            }
        }
        let mut cross = [[0.0; TERMS]; TERMS];
        for (row, terms) in cross.iter_mut().enumerate() {
            for (column, term) in terms.iter_mut().enumerate() {
                *term = meeting(sides, number(row), number(column));
            }
        }
        Self {
            sides,
            ramp,
            stiffness,
            own,
            falls,
            cross,
            moments: [[0.0; TERMS]; 4],
        }
    }

    /// How long an edge is.
    pub(super) fn length(&self, edge: Edge) -> f64 {
        if edge.is_long() {
            self.sides.long()
        } else {
            self.sides.short()
        }
    }

    pub(super) fn of(&self, edge: Edge) -> &Terms {
        let [a, b, c, d] = &self.moments;
        match edge {
            Edge::LongLow => a,
            Edge::LongHigh => b,
            Edge::ShortLow => c,
            Edge::ShortHigh => d,
        }
    }

    pub(super) fn add(&mut self, edge: Edge, place: usize, moment: f64) {
        let terms = self.moments.get_mut(edge.place());
        if let Some(term) = terms.and_then(|terms| terms.get_mut(place)) {
            *term += moment;
        }
    }

    /// The slope inward that a unit moment of a term along an edge gives to that edge.
    pub(super) fn gives(&self, edge: Edge, place: usize) -> f64 {
        let [own, _] = self.pair(edge, place);
        own / self.stiffness
    }

    fn pair(&self, edge: Edge, place: usize) -> [f64; 2] {
        let [long, short] = &self.own;
        let pair = if edge.is_long() { long } else { short };
        pair.get(place).copied().unwrap_or([0.0; 2])
    }

    /// The slope inward that the pressure gives to an edge, for a term along it.
    pub(super) fn load_slope(&self, edge: Edge, number: u8) -> f64 {
        let wave = wave(self.sides, self.falls, edge.is_long(), number);
        let (even_along, even_across) = (!number.is_multiple_of(2), true);
        let mut slope = 0.0;
        for (part, strength) in self.ramp.parts() {
            let (along, odd) = match part {
                Part::Even => (even_along, !even_across),
                Part::Across if edge.is_long() => (even_along, even_across),
                Part::Along if edge.is_long() => (!even_along, !even_across),
                Part::Across => (!even_along, !even_across),
                Part::Along => (even_along, even_across),
            };
            if along && strength != 0.0 {
                let sign = if odd && edge.is_high() { -1.0 } else { 1.0 };
                slope += sign * strength * load_slope(number, odd, &wave);
            }
        }
        slope / self.stiffness
    }

    /// The slope inward of an edge by the moments along all edges as they stand, for a term along it.
    pub(super) fn slope(&self, edge: Edge, place: usize) -> f64 {
        let (across, beside) = edge.others();
        let [own, far] = self.pair(edge, place);
        let here = |edge: Edge| self.of(edge).get(place).copied().unwrap_or(0.0);
        let sum = own * here(edge) + far * here(across);
        let times = 2.0 / self.length(edge);
        let long = edge.is_long();
        let mut met = 0.0;
        for (other, &[low, high]) in self.beside(beside, edge.is_high()).iter().enumerate() {
            let (row, column) = if long { (place, other) } else { (other, place) };
            let cross = self.cross.get(row).and_then(|terms| terms.get(column));
            met += (low + from_behind(place) * high) * cross.copied().unwrap_or(0.0);
        }
        (sum + times * met) / self.stiffness
    }

    /// The moments along the two edges beside one, as seen from its end.
    fn beside(&self, [low, high]: [Edge; 2], from_high: bool) -> [[f64; 2]; TERMS] {
        let mut both = [[0.0; 2]; TERMS];
        let terms = self.of(low).iter().zip(self.of(high));
        for (place, (both, (low, high))) in both.iter_mut().zip(terms).enumerate() {
            let sign = if from_high { from_behind(place) } else { 1.0 };
            *both = [sign * low, sign * high];
        }
        both
    }

    /// The slope of an edge for a term past those that are found together, by what stands along the edges beside it, and
    /// what a unit moment of that term gives.
    pub(super) fn tail(&self, edge: Edge, place: usize) -> [f64; 2] {
        let number = number(place);
        let (_, beside) = edge.others();
        let mut met = 0.0;
        for (other, &[low, high]) in self.beside(beside, edge.is_high()).iter().enumerate() {
            let other = self::number(other);
            let cross = if edge.is_long() {
                meeting(self.sides, number, other)
            } else {
                meeting(self.sides, other, number)
            };
            met += (low + from_behind(place) * high) * cross;
        }
        let [own, _] = own_slopes(&wave(self.sides, self.falls, edge.is_long(), number));
        let slope =
            self.load_slope(edge, number) + 2.0 * met / (self.length(edge) * self.stiffness);
        [slope, own / self.stiffness]
    }
}

/// A term along a long or a short edge.
fn wave(sides: Sides, [along_long, along_short]: [f64; 2], long: bool, number: u8) -> Wave {
    if long {
        Wave::along(number, sides.long(), sides.short(), along_long)
    } else {
        Wave::along(number, sides.short(), sides.long(), along_short)
    }
}

/// The slopes at an edge and at the one across the plate by a unit moment along the first: half of what an even and an
/// odd pair of moments give (article 41), for D = 1.
fn own_slopes(wave: &Wave) -> [f64; 2] {
    let [even, odd] = [false, true].map(|odd| {
        let (edge, rest) = wave.at_edge(odd);
        edge + rest
    });
    [(even + odd) / (4.0 * wave.k), (even - odd) / (4.0 * wave.k)]
}

/// `k g / (k² + g²)²`, for a term along the long edges and one along the short ones.
fn meeting(sides: Sides, along: u8, across: u8) -> f64 {
    let (k, g) = (
        wave_number(along, sides.long()),
        wave_number(across, sides.short()),
    );
    let sum = k * k + g * g;
    k * g / (sum * sum)
}
