//! What of a polygon lies in an upright rectangle.

use heapless::Vec;

/// Corners of a sheet's outline.
pub(super) const MOST_CORNERS: usize = 40;
/// Each of four cuts adds at most one corner for each time the outline goes out and in again.
const MOST_CUT: usize = MOST_CORNERS + 24;

/// A polygon in metres.
pub(super) type Outline = Vec<[f64; 2], MOST_CORNERS>;

/// The part of a polygon that lies in one rectangle.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Within {
    /// Its area, in m².
    pub(super) area: f64,
    /// Its centroid, in m.
    pub(super) centroid: [f64; 2],
    /// Length of it along the rectangle's right and along its upper side, in m.
    pub(super) runs: [f64; 2],
}

/// Cuts a polygon, counter-clockwise, to the rectangle from `low` to `high`: Sutherland and Hodgman, Comm.
/// ACM 17 (1974), p. 32. Where it falls into pieces they stay joined by edges along the cut that go there
/// and back; signed sums see none of that.
pub(super) fn within(outline: &Outline, low: [f64; 2], high: [f64; 2]) -> Within {
    let mut polygon: Vec<[f64; 2], MOST_CUT> = Vec::new();
    let _ = polygon.extend_from_slice(outline);
    for axis in 0..2 {
        let of = |from: &[f64; 2]| from.get(axis).copied().unwrap_or_default();
        polygon = half(&polygon, |point| point_axis(point, axis) - of(&low));
        polygon = half(&polygon, |point| of(&high) - point_axis(point, axis));
    }
    measure(&polygon, high)
}

/// The coordinate of a point along an axis, 0 or 1.
fn point_axis(point: [f64; 2], axis: usize) -> f64 {
    point.get(axis).copied().unwrap_or_default()
}

/// The part of a polygon on which `inside`, a linear function, is not below zero.
#[inline(never)]
fn half(
    polygon: &Vec<[f64; 2], MOST_CUT>,
    inside: impl Fn([f64; 2]) -> f64,
) -> Vec<[f64; 2], MOST_CUT> {
    let mut kept = Vec::new();
    let next = polygon.iter().skip(1).chain(polygon.first());
    for (from, to) in polygon.iter().zip(next) {
        let (a, b) = (inside(*from), inside(*to));
        if a >= 0.0 {
            // An outline of so few corners always fits.
            let _ = kept.push(*from);
        }
        if (a >= 0.0) != (b >= 0.0) {
            let share = a / (a - b);
            let _ = kept.push([
                from[0] + share * (to[0] - from[0]),
                from[1] + share * (to[1] - from[1]),
            ]);
        }
    }
    kept
}

/// Area, centroid and sides of a polygon cut to a rectangle whose upper right corner is `high`.
fn measure(polygon: &[[f64; 2]], high: [f64; 2]) -> Within {
    let mut within = Within::default();
    let Some(base) = polygon.first().copied() else {
        return within;
    };
    // A hair of the rectangle's own size, far above rounding.
    let near = |value: f64, limit: f64| libm::fabs(value - limit) <= 1e-9;
    let mut moment = [0.0; 2];
    let next = polygon.iter().skip(1).chain(polygon.first());
    for (from, to) in polygon.iter().zip(next) {
        let a = [from[0] - base[0], from[1] - base[1]];
        let b = [to[0] - base[0], to[1] - base[1]];
        let twice = a[0] * b[1] - b[0] * a[1];
        within.area += 0.5 * twice;
        moment[0] += twice * (a[0] + b[0]) / 6.0;
        moment[1] += twice * (a[1] + b[1]) / 6.0;
        if near(from[0], high[0]) && near(to[0], high[0]) {
            within.runs[0] += to[1] - from[1];
        }
        if near(from[1], high[1]) && near(to[1], high[1]) {
            within.runs[1] += from[0] - to[0];
        }
    }
    if within.area > 0.0 {
        within.centroid = [
            base[0] + moment[0] / within.area,
            base[1] + moment[1] / within.area,
        ];
    }
    within
}
