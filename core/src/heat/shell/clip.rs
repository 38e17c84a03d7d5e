//! What of a polygon lies in an upright rectangle.

use heapless::Vec;

use crate::geom::outline::polygon;

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

/// Cuts a polygon, counter-clockwise, to the rectangle from `low` to `high`; see [`polygon::kept`].
pub(super) fn within(outline: &Outline, low: [f64; 2], high: [f64; 2]) -> Within {
    let mut cut: Vec<[f64; 2], MOST_CUT> = Vec::new();
    // An outline of so few corners always fits.
    let _ = cut.extend_from_slice(outline);
    for axis in 0..2 {
        let of = |from: &[f64; 2]| from.get(axis).copied().unwrap_or_default();
        cut = polygon::kept(&cut, |point| point_axis(point, axis) - of(&low));
        cut = polygon::kept(&cut, |point| of(&high) - point_axis(point, axis));
    }
    measure(&cut, high)
}

/// The coordinate of a point along an axis, 0 or 1.
fn point_axis(point: [f64; 2], axis: usize) -> f64 {
    point.get(axis).copied().unwrap_or_default()
}

/// Area, centroid and sides of a polygon cut to a rectangle whose upper right corner is `high`.
fn measure(corners: &[[f64; 2]], high: [f64; 2]) -> Within {
    let (area, centroid) = polygon::area_and_centroid(corners);
    let mut within = Within {
        area,
        centroid,
        runs: [0.0; 2],
    };
    // A hair of the rectangle's own size, far above rounding.
    let near = |value: f64, limit: f64| libm::fabs(value - limit) <= 1e-9;
    let next = corners.iter().skip(1).chain(corners.first());
    for (from, to) in corners.iter().zip(next) {
        if near(from[0], high[0]) && near(to[0], high[0]) {
            within.runs[0] += to[1] - from[1];
        }
        if near(from[1], high[1]) && near(to[1], high[1]) {
            within.runs[1] += from[0] - to[0];
        }
    }
    within
}
