//! Where a straight line enters and leaves a body, from nothing but how far the body reaches.
//!
//! A convex body is all that lies behind its supporting planes, so a line `p + t d` leaves it at the
//! smallest `t` at which it crosses one: with `h(u)` the body's reach along `u`, and `u = d + a e + b f`
//! for `e`, `f` across the line, `t = min over a, b of h(u) − u · p` (duality of a convex set and its
//! support function: R. T. Rockafellar, Convex Analysis, 1970, §13, from memory). That is a convex
//! function of `a` and `b`, so a golden section inside another finds its least. It knows no faces, so
//! it holds for round bodies as well; of a body with inside corners it finds the hull. A drum that is crossed
//! square to its axis is spared that: the line meets a circle.

use crate::body::Solid;
use crate::geom::Vector;

/// Steepest face met, as a slope against the line: 89.9°.
const STEEPEST: f64 = 500.0;
/// Steps of each golden section: 1000 wide down to 1e-13.
const STEPS: u32 = 76;
/// 2 over 3 + √5.
const GOLDEN: f64 = 0.381_966_011_250_105_1;

/// How far from `from` along the unit direction `along` a line leaves the body, in metres; negative
/// where the whole body lies behind `from`. About 6000 calls of [`Solid::extent`].
pub(super) fn leaves(solid: &Solid, from: Vector, along: Vector) -> f64 {
    if let Some(at) = leaves_round(solid, from, along) {
        return at;
    }
    let (e, f) = across(along);
    least(|a| {
        let tilted = along + e * a;
        least(|b| {
            let u = tilted + f * b;
            // Kept of unit length: round bodies ask for that.
            let length = u.length();
            let unit = u * (1.0 / length);
            let (_, reach) = solid.extent(unit);
            (reach - unit.dot(from)) * length
        })
    })
}

/// Where a line leaves a drum that it crosses square to its axis, as a dip rod of a lying drum does: the line
/// meets a circle. `None` where that is not so, or the line passes the circle by.
fn leaves_round(solid: &Solid, from: Vector, along: Vector) -> Option<f64> {
    let (turned, start, axis) = solid.turned()?;
    let axis = axis.along();
    if axis.dot(along) != 0.0 {
        return None;
    }
    let out = from - start;
    let place = axis.dot(out);
    let radius = turned.radius_at(place)?;
    let aside = out - axis * place;
    let ahead = aside.dot(along);
    let clear = aside.dot(aside) - ahead * ahead;
    let square = radius * radius - clear;
    (square > 0.0).then(|| libm::sqrt(square) - ahead)
}

/// Two unit directions at right angles to `along` and to each other.
fn across(along: Vector) -> (Vector, Vector) {
    // The axis that it follows least.
    let (x, y, z) = (
        libm::fabs(along.x),
        libm::fabs(along.y),
        libm::fabs(along.z),
    );
    let axis = if x <= y && x <= z {
        Vector::new(1.0, 0.0, 0.0)
    } else if y <= z {
        Vector::new(0.0, 1.0, 0.0)
    } else {
        Vector::new(0.0, 0.0, 1.0)
    };
    let e = axis.cross(along).unit().unwrap_or(axis);
    (e, along.cross(e))
}

/// The least of a convex function of a slope.
fn least(mut figure: impl FnMut(f64) -> f64) -> f64 {
    let (mut low, mut high) = (-STEEPEST, STEEPEST);
    let (mut a, mut b) = (low + GOLDEN * (high - low), high - GOLDEN * (high - low));
    // A level bottom is the usual case, and its kink at zero is found exactly only by asking there.
    let mut best = figure(0.0);
    let (mut at_a, mut at_b) = (figure(a), figure(b));
    for _ in 0..STEPS {
        best = libm::fmin(best, libm::fmin(at_a, at_b));
        if at_a <= at_b {
            (high, b, at_b) = (b, a, at_a);
            a = low + GOLDEN * (high - low);
            at_a = figure(a);
        } else {
            (low, a, at_a) = (a, b, at_b);
            b = high - GOLDEN * (high - low);
            at_b = figure(b);
        }
    }
    libm::fmin(best, libm::fmin(at_a, at_b))
}
