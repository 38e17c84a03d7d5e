//! Fresh beads, finer than the grid can show them.
//!
//! A cell knows only its mean, and along a stitch just laid in a poor conductor temperature falls from its highest
//! to nothing within less than a cell. So of the last few beads the shell keeps, beside the temperatures of all,
//! what the grid makes of them alone (`fresh`); at a place near one that part is taken off again and what a line of
//! heat makes of a sheet is put in its place (H. Carslaw and J. Jaeger, Conduction of Heat in Solids,
//! 2nd ed., §10.3, from memory): `ΔT = Q'/(d ρ c √(4πat)) e^(−y²/4at) ½[erf((x − x₁)/√4at) − erf((x − x₂)/√4at)]`,
//! with x along the edge and y from it over the sheets laid flat. As the bead ages the two come together, and it
//! is forgotten. The heat itself is all in the cells throughout.
//!
//! At a corner of a tank less than a full turn of sheet is left to take the heat, or more: what comes round the
//! corners at the ends of the bead's edge and of the place's is added (`corner`).
//!
//! Radiation goes with the fourth power of temperature, so that a bead loses more than its cells at their means:
//! for some seconds several times as much, by some 4 % of the heat of a stitch on stainless steel of 2 mm. The line has
//! no highest temperature; what it radiates goes by the one that metal has with its heat (`hot`).

use super::corner::round_corner;
use super::spot::EdgePlace;
use core::f64::consts::PI;

/// 2π/Θ for three right angles.
const CORNER: f64 = 4.0 / 3.0;
/// A step of arc that starts no further than this from the last, in m, belongs to the same bead.
const APART: f64 = 0.03;
/// Pieces into which a bead is cut, each with its own age.
const PIECES: u8 = 4;
/// Widths of a mean square that the grid adds to a bead: across the edge and along it.
const ACROSS: f64 = 0.75;
const ALONG: f64 = 1.5;
/// Distance, in widths of a bead's bell √(4at), beyond which it makes nothing: there it has e^(−20) of its top.
const FAR: f64 = 4.5;

/// A bead laid lately.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bead {
    /// Where the middle of its first piece lay.
    first: EdgePlace,
    /// Where the middle of its last piece lay along the edge, in m.
    last: f64,
    /// When the first and the last piece were laid, in s of the shell's clock.
    times: [f64; 2],
    /// Heat of the first and of the last piece, in J.
    ends: [f32; 2],
    /// Heat of all pieces, in J.
    heat: f64,
    /// Share of that which is left, relative to what is left of its group.
    pub(super) left: f32,
    /// Number of its group.
    pub(super) group: u8,
    /// Whether it still radiates markedly more than its cells.
    pub(super) outshines_cells: bool,
}

/// The metal of the sheets, and the time.
#[derive(Clone, Copy, Debug)]
pub(super) struct MetalNow {
    /// The shell's clock, in s.
    pub(super) time: f64,
    /// Length of a step, in s.
    pub(super) step: f64,
    /// Diffusivity, in m²/s.
    pub(super) diffusivity: f64,
    /// Heat capacity by volume, in J/(m³ K).
    pub(super) capacity: f64,
}

/// From where to where, and from when to when, a bead was laid.
struct Span {
    /// Its ends along the edge, in m.
    from: f64,
    to: f64,
    /// When the arc stood there, in s.
    start: f64,
    end: f64,
}

impl Bead {
    pub(super) const fn new(spot: &EdgePlace, time: f64, heat: f64, group: u8) -> Self {
        Self {
            first: *spot,
            last: spot.at,
            times: [time; 2],
            ends: [heat as f32; 2],
            heat,
            left: 1.0,
            group,
            outshines_cells: true,
        }
    }

    /// When its last piece was laid, in s.
    pub(super) const fn laid(&self) -> f64 {
        self.times[1]
    }

    /// Numbers of the two sheets it joins.
    pub(super) fn sheets(&self) -> [u8; 2] {
        self.first.sides.map(|side| side.sheet)
    }

    /// Applies a loss of `loss` J/(m² K) to metal of `capacity` J/(m³ K).
    pub(super) fn apply_loss(&mut self, loss: f64, capacity: f64) {
        let share = loss / (f64::from(self.first.thickness) * capacity);
        self.left *= 1.0 - libm::fmin(share, 1.0) as f32;
    }

    /// The heat it was laid with, in J.
    pub(super) const fn heat(&self) -> f64 {
        self.heat
    }

    /// Heat that is left of it, in J, relative to what is left of its group.
    pub(super) fn heat_left(&self) -> f64 {
        self.heat * f64::from(self.left)
    }

    /// Adds a step of arc to this bead, and tells whether that could be: it must lie next to the last on the same edge,
    /// further on, and follow it at once. `time` and `step` are in s, `heat` in J.
    pub(super) fn extend(&mut self, spot: &EdgePlace, time: f64, step: f64, heat: f64) -> bool {
        let ahead = spot.at - self.last;
        let next = self.first.along(spot).is_some()
            && libm::fabs(ahead) <= APART
            && time - self.times[1] < 1.5 * step
            && ahead * (self.last - self.first.at) >= 0.0;
        if next {
            self.last = spot.at;
            self.times[1] = time;
            self.ends[1] = heat as f32;
            self.heat += heat;
        }
        next
    }

    /// Its ends in place and time, from the middles of its steps of arc: the arc moves and heats evenly, so that a step is
    /// as long as its heat, the last one shorter or longer than the others; but the first lasts a whole step.
    fn span(&self, step: f64) -> Span {
        let [first, last] = self.ends.map(f64::from);
        let between = self.heat - 0.5 * (first + last);
        let pace = if between > 0.0 {
            0.5 * (self.last - self.first.at) / between
        } else {
            0.0
        };
        let start = self.times[0] - 0.5 * step;
        Span {
            from: self.first.at - pace * first,
            to: self.last + pace * last,
            start,
            end: start + step * self.heat / libm::fmax(first, 1e-9),
        }
    }

    /// Temperature rise that it makes at a place, in K, had nothing been lost; `None` where it is not known how far the
    /// two are apart over the sheets.
    pub(super) fn at(&self, spot: &EdgePlace, now: &MetalNow) -> Option<f64> {
        let edge = &self.first;
        let place = edge.offset_to(spot)?;
        let corners = edge.corners_with(spot);
        let span = self.span(now.step);
        let (wide, lasted) = (span.to - span.from, span.end - span.start);
        let half = libm::fmax(0.5 * libm::fabs(wide) / f64::from(PIECES), 1e-4);
        let strength = self.heat / f64::from(PIECES) / (2.0 * half * self.areal_capacity(now));
        let mut sum = 0.0;
        for n in 0..PIECES {
            let share = (f64::from(n) + 0.5) / f64::from(PIECES);
            let centre = span.from + share * wide;
            let age = now.time - (span.start + share * lasted);
            let spread = libm::sqrt(4.0 * now.diffusivity * libm::fmax(age, 0.1));
            // Share of the bell at a place `x` along from the middle of the piece and `y` away from its line, in m.
            let line = |x: f64, y: f64| {
                let (x, y) = (libm::fabs(x) / spread, y / spread);
                let half = half / spread;
                let beyond = libm::fmax(x - half, 0.0);
                if beyond * beyond + y * y > FAR * FAR {
                    return 0.0;
                }
                0.5 * (libm::erf(x + half) - libm::erf(x - half)) * libm::exp(-y * y)
            };
            let mut shape = line(place[0] - centre, place[1]);
            for (corner, excess) in corners.into_iter().flatten() {
                let there = [corner[0] - centre, corner[1]];
                let back = [corner[0] - place[0], corner[1] - place[1]];
                let (to, from) = (length(there), length(back));
                if to + from - half > FAR * spread {
                    continue;
                }
                // Straight on beyond the corner, as far as the place is from it.
                let [x, y] = if to > 1e-6 {
                    there.map(|way| way * (1.0 + from / to))
                } else {
                    [from, 0.0]
                };
                let cosine =
                    (there[0] * back[0] + there[1] * back[1]) / libm::fmax(to * from, 1e-9);
                shape +=
                    round_corner(excess, cosine, 2.0 * to * from / (spread * spread)) * line(x, y);
            }
            sum += strength / (libm::sqrt(PI) * spread) * shape;
        }
        Some(sum)
    }

    /// Upper bound of the temperature rise that it makes at a place, in K, from their distance in a straight line.
    pub(super) fn upper_bound(&self, spot: &EdgePlace, now: &MetalNow) -> f64 {
        let age = libm::fmax(now.time - self.times[1], now.step);
        let square = 4.0 * now.diffusivity * age;
        let level = CORNER * self.heat / (PI * square * self.areal_capacity(now));
        level * libm::exp(-self.first.apart(spot) / square)
    }

    /// Heat capacity of the sheets by area, in J/(m² K).
    fn areal_capacity(&self, now: &MetalNow) -> f64 {
        f64::from(self.first.thickness) * now.capacity
    }

    /// How much the top of its bell is over the mean of a cell, on a grid whose squares are `square` metres wide in the
    /// mean, had nothing been lost: of what is lost it must not hang, or more heat could make colder metal.
    ///
    /// The top of a bell of which a cell's mean is a slice is √2 of that mean. Across the edge the grid begins with an
    /// even strip of a square of the rim, two thirds of a mean one, to either side; along it, with a strip that is
    /// longer than the bead by a square at either end. Both widen as the bead does.
    pub(super) fn crowd(&self, now: &MetalNow, square: f64) -> f64 {
        let span = self.span(now.step);
        // While it is laid its heat is as old as a step or two.
        let age = now.time - 0.5 * (span.start + span.end);
        let wide = libm::sqrt(4.0 * PI * now.diffusivity * libm::fmax(age, 2.0 * now.step));
        let long = length([span.to - span.from, wide]);
        let across = length([1.0, ACROSS * square / wide]);
        let along = length([1.0, ALONG * square / long]);
        libm::sqrt(2.0) * across * along
    }
}

fn length([x, y]: [f64; 2]) -> f64 {
    libm::sqrt(x * x + y * y)
}
