//! Areas of outlines in space.

use crate::geom::Vector;

/// The triangles of a fan over a closed outline.
pub(super) fn triangles(
    mut outline: impl Iterator<Item = Vector>,
) -> impl Iterator<Item = [Vector; 3]> {
    let first = outline.next().unwrap_or_default();
    let mut last = outline.next().unwrap_or_default();
    outline.map(move |next| {
        let triangle = [first, last, next];
        last = next;
        triangle
    })
}

/// Area of a closed outline times its unit normal.
pub(crate) fn area_vector(outline: impl Iterator<Item = Vector>) -> Vector {
    triangles(outline).fold(Vector::ZERO, |sum, [a, b, c]| {
        sum + (b - a).cross(c - a) * 0.5
    })
}

/// Area vector of that part of a closed outline which lies below a plane.
pub(crate) fn clipped_area_vector(
    outline: impl Iterator<Item = Vector> + Clone,
    up: Vector,
    level: f64,
) -> Vector {
    let mut sum = Vector::ZERO;
    let mut first: Option<Vector> = None;
    let mut last = Vector::ZERO;
    let mut emit = |point: Vector| {
        match first {
            None => first = Some(point),
            Some(first) => sum = sum + (last - first).cross(point - first) * 0.5,
        }
        last = point;
    };
    let mut start = outline.clone();
    let ahead = {
        let head = start.next();
        start.chain(head)
    };
    for (here, next) in outline.zip(ahead) {
        let (above_here, above_next) = (up.dot(here) - level, up.dot(next) - level);
        if above_here <= 0.0 {
            emit(here);
        }
        if (above_here < 0.0 && above_next > 0.0) || (above_here > 0.0 && above_next < 0.0) {
            emit(here + (next - here) * (above_here / (above_here - above_next)));
        }
    }
    sum
}
