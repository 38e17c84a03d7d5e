//! One straight piece or one arc of an outline, and its share in the sums below a level.
//!
//! The sums are those of Green's theorem, counted from the level itself: with σ the height above the
//! level and t along it, the part of the outline below the level gives the length of the cut as ∫dt,
//! the area below as -∫σ dt and the second sum ∬-σ dA as ½∫σ² dt. The cut itself has σ = 0 and adds
//! nothing, so nothing cancels for a thin layer. An arc counts as its chord and the circular segment
//! beyond it.

use super::super::{cross, dot};
use super::CornerArc;

/// A part of an outline in the sense in which it is walked.
#[derive(Clone, Copy, Debug)]
pub(super) enum Piece {
    /// From a point to another.
    Line([[f64; 2]; 2]),
    /// Round a corner.
    Arc(CornerArc),
}

/// Sums over a part of the outline, from a level: see the module.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Sums {
    /// ∫dt, in metres.
    pub(super) run: f64,
    /// -∫σ dt, in square metres.
    pub(super) area: f64,
    /// ½∫σ² dt, in cubic metres.
    pub(super) second: f64,
}

impl Sums {
    pub(super) fn add(&mut self, other: Self) {
        self.run += other.run;
        self.area += other.area;
        self.second += other.second;
    }
}

/// A level in the plane of an outline: the line `up · p = height`, `up` a unit direction.
#[derive(Clone, Copy, Debug)]
pub(super) struct Level {
    pub(super) up: [f64; 2],
    pub(super) height: f64,
    /// A height under this is none: the rounding of the outline's corners.
    pub(super) slack: f64,
}

impl Level {
    fn above(&self, point: [f64; 2]) -> f64 {
        dot(self.up, point) - self.height
    }

    /// How far along the level `vector` runs.
    fn along(&self, vector: [f64; 2]) -> f64 {
        cross(vector, self.up)
    }
}

/// A part of a piece between two levels, or below or above both.
#[derive(Clone, Copy, Debug)]
pub(super) struct Part {
    /// Height above the level, well within it.
    pub(super) middle: f64,
    /// Its sums.
    pub(super) sums: Sums,
}

impl Piece {
    /// The piece cut where it meets the level and where it meets the parallel one `drop` below it: up to
    /// five parts. `drop` is not negative.
    pub(super) fn parts(&self, level: &Level, drop: f64) -> impl Iterator<Item = Part> {
        let (level, whole) = (*level, *self);
        let mut ends = Ends::new();
        match self {
            Self::Line([start, end]) => {
                let (a, b) = (level.above(*start), level.above(*end));
                for height in [0.0, -drop] {
                    let (a_over, b_over) = (a - height, b - height);
                    let along = libm::fmax(libm::fabs(a_over), libm::fabs(b_over)) <= level.slack;
                    if !along && a_over * b_over < 0.0 {
                        ends.add(a_over / (a - b));
                    }
                }
            }
            Self::Arc(arc) => {
                let rise = [dot(level.up, arc.from), dot(level.up, arc.towards)];
                let [cosine, sine] = rise;
                let steepest = libm::atan2(sine, cosine);
                for height in [0.0, -drop] {
                    // Where centre + radius cos(angle - steepest) = height.
                    let rest = height - level.above(arc.centre);
                    let (under, over) = (arc.radius + rest, arc.radius - rest);
                    if under > 0.0 && over > 0.0 {
                        let half = libm::atan2(libm::sqrt(under * over), rest);
                        for angle in [steepest - half, steepest + half] {
                            for angle in [angle, angle + 2.0 * core::f64::consts::PI] {
                                if angle > 0.0 && angle < arc.sweep {
                                    ends.add(angle);
                                }
                            }
                        }
                    }
                }
            }
        }
        ends.pairs(self.last())
            .map(move |[from, to]| whole.part(&level, from, to))
    }

    /// The sums over all of it.
    pub(super) fn whole(&self, level: &Level) -> Sums {
        self.part(level, 0.0, self.last()).sums
    }

    /// Its end, on the scale from 0 on which places within it are told.
    const fn last(&self) -> f64 {
        match self {
            Self::Line(_) => 1.0,
            Self::Arc(arc) => arc.sweep,
        }
    }

    fn part(&self, level: &Level, from: f64, to: f64) -> Part {
        match self {
            Self::Line([[u, w], [next_u, next_w]]) => {
                let step = [next_u - u, next_w - w];
                let start = level.above([*u, *w]);
                let (a, b) = (
                    start + from * dot(level.up, step),
                    start + to * dot(level.up, step),
                );
                Part {
                    middle: 0.5 * (a + b),
                    sums: line(a, b, (to - from) * level.along(step)),
                }
            }
            Self::Arc(arc) => {
                let half = 0.5 * (to - from);
                let (sine, cosine) = libm::sincos(half);
                let (mid_sine, mid_cosine) = libm::sincos(0.5 * (from + to));
                let [fu, fw] = arc.from;
                let [tu, tw] = arc.towards;
                let out = [
                    fu * mid_cosine + tu * mid_sine,
                    fw * mid_cosine + tw * mid_sine,
                ];
                let on = [
                    tu * mid_cosine - fu * mid_sine,
                    tw * mid_cosine - fw * mid_sine,
                ];
                let rise = dot(level.up, out);
                let centre = level.above(arc.centre);
                let chord = centre + arc.radius * cosine * rise;
                let slope = arc.radius * sine * dot(level.up, on);
                let mut sums = line(
                    chord - slope,
                    chord + slope,
                    2.0 * arc.radius * sine * level.along(on),
                );
                let side = if arc.left { 1.0 } else { -1.0 };
                let square = arc.radius * arc.radius;
                let beyond = square * segment(half);
                sums.area += side * beyond;
                sums.second -=
                    side * (beyond * chord + square * arc.radius * segment_moment(half) * rise);
                Part {
                    // Between arc and chord: the arc's own middle may only just touch a level.
                    middle: 0.5 * (chord + centre + arc.radius * rise),
                    sums,
                }
            }
        }
    }
}

/// The sums of a straight part from height `a` to height `b` that runs `run` along the level.
fn line(a: f64, b: f64, run: f64) -> Sums {
    Sums {
        run,
        area: -0.5 * (a + b) * run,
        second: run * (a * a + a * b + b * b) / 6.0,
    }
}

/// Below this half angle the closed forms of a circular segment lose digits.
const SMALL: f64 = 0.5;
/// Terms of the series there: the first one left out is under 1e-19 of the sum.
const TERMS: u32 = 12;

/// Area between an arc of unit radius and its chord, `half` the angle of half the arc:
/// x - sin x cos x (circular segment; CRC Standard Mathematical Tables, from memory).
fn segment(half: f64) -> f64 {
    if half >= SMALL {
        let (sine, cosine) = libm::sincos(half);
        return half - sine * cosine;
    }
    // x - ½ sin 2x = Σ (-1)ⁿ⁺¹ 4ⁿ x²ⁿ⁺¹ / (2n + 1)!, n from 1.
    let square = half * half;
    let mut power = half;
    let mut sum = 0.0;
    for n in 1..=TERMS {
        let two_n = f64::from(2 * n);
        power *= -4.0 * square / (two_n * (two_n + 1.0));
        sum -= power;
    }
    sum
}

/// First moment of the same area about the chord:
/// ⅔ sin³x - (x - sin x cos x) cos x, from the centroid of a segment (same source).
fn segment_moment(half: f64) -> f64 {
    if half >= SMALL {
        let (sine, cosine) = libm::sincos(half);
        return sine * sine * sine * (2.0 / 3.0) - (half - sine * cosine) * cosine;
    }
    // ¾ sin x + sin 3x / 12 - x cos x = Σ (-1)ⁿ (¾ + 9ⁿ/4 - 2n - 1) x²ⁿ⁺¹ / (2n + 1)!, n from 2.
    let square = half * half;
    let mut power = half;
    let mut nines = 1.0;
    let mut sum = 0.0;
    for n in 1..=TERMS {
        let two_n = f64::from(2 * n);
        power *= -square / (two_n * (two_n + 1.0));
        nines *= 9.0;
        sum += power * (0.75 + 0.25 * nines - two_n - 1.0);
    }
    sum
}

/// Up to four places within a piece, in order.
struct Ends {
    places: [f64; 4],
    count: usize,
}

impl Ends {
    const fn new() -> Self {
        Self {
            places: [f64::INFINITY; 4],
            count: 0,
        }
    }

    /// Puts one in, keeping the order; a fifth cannot be, since a level meets an arc twice at most.
    fn add(&mut self, place: f64) {
        let mut carried = place;
        for slot in &mut self.places {
            if carried < *slot {
                core::mem::swap(slot, &mut carried);
            }
        }
        self.count += 1;
    }

    /// From 0 to the first, on to the next, and so on to `last`.
    fn pairs(self, last: f64) -> impl Iterator<Item = [f64; 2]> {
        let mut from = 0.0;
        self.places
            .into_iter()
            .take(self.count)
            .chain(core::iter::once(last))
            .map(move |to| {
                let pair = [from, to];
                from = to;
                pair
            })
    }
}
