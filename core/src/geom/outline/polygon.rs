//! Polygons without arcs: their area, the part below a line, the part on one side of a cut.

use heapless::Vec;

use super::cross;

/// The area of a polygon in square metres, above zero where it runs counter-clockwise: the shoelace
/// formula about the origin.
pub(crate) fn area(corners: &[[f64; 2]]) -> f64 {
    let next = corners.iter().skip(1).chain(corners.first());
    let twice: f64 = corners.iter().zip(next).map(|(a, b)| cross(*a, *b)).sum();
    0.5 * twice
}

/// The area of a polygon in square metres and its centre of area in metres, both counted about its first
/// corner, so that a small polygon far from the origin keeps its figures. The centre of one that encloses
/// nothing is the origin.
// A sum of its own: about another point the same area has other last bits than that of `area`.
pub(crate) fn area_and_centroid(corners: &[[f64; 2]]) -> (f64, [f64; 2]) {
    let Some(base) = corners.first().copied() else {
        return (0.0, [0.0; 2]);
    };
    let (mut area, mut moment) = (0.0, [0.0; 2]);
    let next = corners.iter().skip(1).chain(corners.first());
    for (from, to) in corners.iter().zip(next) {
        let a = [from[0] - base[0], from[1] - base[1]];
        let b = [to[0] - base[0], to[1] - base[1]];
        let twice = cross(a, b);
        area += 0.5 * twice;
        moment[0] += twice * (a[0] + b[0]) / 6.0;
        moment[1] += twice * (a[1] + b[1]) / 6.0;
    }
    if area > 0.0 {
        (
            area,
            [base[0] + moment[0] / area, base[1] + moment[1] / area],
        )
    } else {
        (area, [0.0; 2])
    }
}

/// The area of the part of a polygon below the line `dir · p = level` (unit `dir`), in square metres:
/// clipped as it is walked, counted about a point of the line, so that the cut itself adds nothing.
pub(crate) fn area_below(corners: &[[f64; 2]], dir: [f64; 2], level: f64) -> f64 {
    let origin = [dir[0] * level, dir[1] * level];
    let over = |p: [f64; 2]| dir[0] * p[0] + dir[1] * p[1] - level;
    let from = |p: [f64; 2]| [p[0] - origin[0], p[1] - origin[1]];
    let next = corners.iter().skip(1).chain(corners.first());
    let mut twice = 0.0;
    for (a, b) in corners.iter().zip(next) {
        let (ha, hb) = (over(*a), over(*b));
        if ha > 0.0 && hb > 0.0 {
            continue;
        }
        let cut = || {
            let share = ha / (ha - hb);
            [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share]
        };
        let (start, end) = match (ha > 0.0, hb > 0.0) {
            (true, _) => (cut(), *b),
            (_, true) => (*a, cut()),
            _ => (*a, *b),
        };
        twice += cross(from(start), from(end));
    }
    0.5 * twice
}

/// The part of a polygon on which `inside` is not below zero, for an `inside` that grows evenly along any
/// line: Sutherland and Hodgman, Comm. ACM 17 (1974), p. 32. Where it falls into pieces they stay joined
/// by edges along the cut that go there and back; signed sums see none of that. Corners past `N` are left
/// out: a cut adds at most one for each time the outline goes out and in again.
#[inline(never)]
pub(crate) fn kept<const N: usize>(
    polygon: &Vec<[f64; 2], N>,
    inside: impl Fn([f64; 2]) -> f64,
) -> Vec<[f64; 2], N> {
    let mut kept = Vec::new();
    let next = polygon.iter().skip(1).chain(polygon.first());
    for (from, to) in polygon.iter().zip(next) {
        let (a, b) = (inside(*from), inside(*to));
        if a >= 0.0 {
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
