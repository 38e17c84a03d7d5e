//! The section of a profile in convex parts.

use heapless::Vec;

use super::TooManyPieces;
use crate::geom::outline::section::Section;

/// Corners of a section whose arcs are straight sides.
pub(super) const MAX_CORNERS: usize = 128;

/// A polygon.
pub(super) type Flat = Vec<[f64; 2], MAX_CORNERS>;

/// Sides that touch the arc of an outside corner, and of an inside corner.
const SIDES: [u8; 2] = [8, 3];

/// A corner that turns right by less, as the sine of its turn, is straight.
const LEAST_TURN: f64 = 1e-9;
/// Points nearer than this share of the outline's size are one.
const SAME: f64 = 1e-9;

/// The outline of a section, each arc as the sides that touch it at even steps; as if all corners were sharp at inside
/// corners where `coarse`.
pub(super) fn tangents(section: &Section, coarse: bool) -> Flat {
    let mut outline = Flat::new();
    for place in 0..section.len() {
        match section.arc(place) {
            Some(arc) if arc.left || !coarse => {
                let steps = if arc.left { SIDES[0] } else { SIDES[1] };
                let step = arc.sweep / f64::from(steps);
                let reach = 1.0 / libm::cos(0.5 * step);
                for n in 0..steps {
                    let on = arc.at((f64::from(n) + 0.5) * step);
                    let [u, w] = arc.centre;
                    // Twelve corners of eight sides are fewer than there is room for.
                    let _ = outline.push([u + (on[0] - u) * reach, w + (on[1] - w) * reach]);
                }
            }
            _ => _ = outline.push(section.at(place)),
        }
    }
    outline
}

fn cross(a: [f64; 2], b: [f64; 2]) -> f64 {
    a[0] * b[1] - a[1] * b[0]
}

fn from(a: [f64; 2], b: [f64; 2]) -> [f64; 2] {
    [b[0] - a[0], b[1] - a[1]]
}

fn at(outline: &Flat, place: usize) -> [f64; 2] {
    let place = place % outline.len().max(1);
    outline.get(place).copied().unwrap_or_default()
}

/// The first corner at which a counter-clockwise outline turns right.
fn inside_corner(outline: &Flat) -> Option<usize> {
    let count = outline.len();
    (0..count).find(|place| {
        let here = at(outline, *place);
        let before = from(at(outline, place + count - 1), here);
        let after = from(here, at(outline, place + 1));
        let [one, other] = [before, after].map(|v| libm::hypot(v[0], v[1]));
        cross(before, after) < -LEAST_TURN * one * other
    })
}

/// Parts an outline at an inside corner: the side before it goes on to the first side that it meets. What lies to the
/// right of it stays in `outline`, the other part is returned.
fn part(outline: &mut Flat, corner: usize) -> Option<Flat> {
    let count = outline.len();
    let here = at(outline, corner);
    let run = from(at(outline, corner + count - 1), here);
    let length = libm::hypot(run[0], run[1]);
    let size: f64 = outline
        .iter()
        .map(|p| libm::hypot(p[0] - here[0], p[1] - here[1]))
        .fold(0.0, libm::fmax);
    let ahead = [run[0] / length, run[1] / length];
    let mut nearest = f64::INFINITY;
    let mut met = None;
    // Every side but the two at the corner itself.
    for step in 1..count.saturating_sub(1) {
        let (a, b) = (at(outline, corner + step), at(outline, corner + step + 1));
        let (one, other) = (cross(ahead, from(here, a)), cross(ahead, from(here, b)));
        if (one > 0.0 && other > 0.0) || (one < 0.0 && other < 0.0) || one - other == 0.0 {
            continue;
        }
        let share = one / (one - other);
        let point = [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
        let off = from(here, point);
        let way = off[0] * ahead[0] + off[1] * ahead[1];
        if way > SAME * size && way < nearest {
            nearest = way;
            met = Some((step, point));
        }
    }
    let (step, point) = met?;
    let near = |p: [f64; 2]| libm::hypot(p[0] - point[0], p[1] - point[1]) <= SAME * size;
    let (mut kept, mut other) = (Flat::new(), Flat::new());
    for n in 0..=step {
        let _ = kept.push(at(outline, corner + n));
    }
    if !kept.last().is_some_and(|last| near(*last)) {
        let _ = kept.push(point);
    }
    let _ = other.push(point);
    for n in step + 1..=count {
        let next = at(outline, corner + n);
        if !(n == step + 1 && near(next)) {
            let _ = other.push(next);
        }
    }
    *outline = kept;
    Some(other)
}

/// Calls `show` with each convex part of an outline that runs counter-clockwise.
pub(super) fn each_convex_part(
    outline: Flat,
    mut show: impl FnMut(&Flat) -> Result<(), TooManyPieces>,
) -> Result<(), TooManyPieces> {
    // Twelve corners have at most nine inside corners of three sides each.
    let mut waiting: Vec<Flat, 28> = Vec::new();
    let mut own = outline;
    loop {
        while let Some(corner) = inside_corner(&own) {
            let other = part(&mut own, corner).ok_or(TooManyPieces)?;
            waiting.push(other).map_err(|_| TooManyPieces)?;
        }
        show(&own)?;
        match waiting.pop() {
            Some(next) => own = next,
            None => return Ok(()),
        }
    }
}
