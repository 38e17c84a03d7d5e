//! Filling what lies below a plane: rows of pixels between the sides of a convex polygon, and heights over a surface.

use core::ops::RangeInclusive;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{Point, Size};
use embedded_graphics::pixelcolor::Gray4;
use embedded_graphics::primitives::Rectangle;
use seamwright_core::geom::Vector;

use super::view::{PIXEL, Spot};

/// Nearer to the surface than this, in metres, a corner lies in it.
const IN_SURFACE: f64 = 1e-9;

/// Height of a point over the surface; exactly zero in it.
pub(super) fn height(up: Vector, level: f64, point: Vector) -> f64 {
    let above = up.dot(point) - level;
    if libm::fabs(above) < IN_SURFACE {
        0.0
    } else {
        above
    }
}

/// The rows of pixels that a polygon reaches; none of nothing.
pub(super) fn rows(sides: &[[Spot; 2]]) -> RangeInclusive<i32> {
    let heights = || sides.iter().flatten().map(|spot| spot.y);
    match (heights().min(), heights().max()) {
        (Some(top), Some(bottom)) => top.div_euclid(PIXEL)..=bottom.div_euclid(PIXEL),
        _ => RangeInclusive::new(1, 0),
    }
}

/// Fills a convex polygon: in each row, what lies between its outermost crossings.
pub(super) fn fill<D>(target: &mut D, sides: &[[Spot; 2]], grey: Gray4) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    for row in rows(sides) {
        let y = row * PIXEL + PIXEL / 2;
        let crossings = || sides.iter().filter_map(|side| crossing(side, y));
        let (Some(left), Some(right)) = (crossings().min(), crossings().max()) else {
            continue;
        };
        span(target, row, [left, right], grey)?;
    }
    Ok(())
}

/// Fills the pixels of a row whose centres lie between two crossings.
pub(super) fn span<D>(
    target: &mut D,
    row: i32,
    [left, right]: [i32; 2],
    grey: Gray4,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let first = (left + PIXEL / 2 - 1).div_euclid(PIXEL);
    let past = (right + PIXEL / 2).div_euclid(PIXEL);
    match u32::try_from(past - first) {
        Ok(width) => {
            let span = Rectangle::new(Point::new(first, row), Size::new(width, 1));
            target.fill_solid(&span, grey)
        }
        Err(_) => Ok(()),
    }
}

/// Where a side crosses the height `y`.
fn crossing([a, b]: &[Spot; 2], y: i32) -> Option<i32> {
    if a.y == b.y || y < a.y.min(b.y) || y > a.y.max(b.y) {
        return None;
    }
    let run = i64::from(b.x - a.x) * i64::from(y - a.y) / i64::from(b.y - a.y);
    Some(a.x + run as i32)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frame::Frame;
    use std::vec::Vec as Points;

    #[test]
    fn a_polygon_fills_its_area() {
        let spot = |x: f64, y: f64| Spot {
            x: (x * f64::from(PIXEL)) as i32,
            y: (y * f64::from(PIXEL)) as i32,
        };
        for corners in [3_u32, 4, 5, 6, 9] {
            for turn in 0..7 {
                let at = |n: u32| {
                    let angle = f64::from(n) / f64::from(corners) * core::f64::consts::TAU
                        + f64::from(turn) * 0.3;
                    (60.3 + 25.0 * angle.cos(), 31.8 + 25.0 * angle.sin())
                };
                let points: Points<_> = (0..corners).map(at).collect();
                let sides: Points<_> = (0..corners)
                    .map(|n| [at(n), at(n + 1)].map(|(x, y)| spot(x, y)))
                    .collect();
                let mut frame = Frame::new();
                let Ok(()) = fill(&mut frame, &sides, Gray4::new(7));
                let filled: u32 = frame
                    .rows()
                    .iter()
                    .flatten()
                    .map(|b| u32::from(*b >> 4 == 7) + u32::from(*b & 15 == 7))
                    .sum();
                // The shoelace formula.
                let ahead = points.iter().cycle().skip(1);
                let area: f64 = points
                    .iter()
                    .zip(ahead)
                    .map(|(a, b)| a.0 * b.1 - b.0 * a.1)
                    .sum::<f64>()
                    / 2.0;
                assert!(
                    (f64::from(filled) - area).abs() < 12.0,
                    "{corners} {turn}: {filled} for {area}"
                );
            }
        }
    }
}
