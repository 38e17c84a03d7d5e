//! Liquid in profiles, whose ends need not be convex and whose corners may be round, and in drums.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use heapless::Vec;
use seamwright_core::body::Solid;
use seamwright_core::geom::Vector;
use seamwright_core::geom::sort::insertion;
use seamwright_core::input::Face;

use super::fill::{fill, height, rows, span};
use super::line::{Stroke, draw_all};
use super::outline::{drum_point, drum_points};
use super::view::{PIXEL, Spot, View};
use crate::ink;

/// Points of an outline: twelve corners, a rounded one of four points.
const MOST_POINTS: usize = 48;
/// Steps in a rounded corner.
const CORNER: u16 = 3;
/// Sides of an end that a plane has cut.
const MOST_SIDES: usize = MOST_POINTS + 4;
/// Points of a drum's surface and of its outline.
const SURFACE: u16 = 28;
const MOST_HULL: usize = 80;

type Sides = Vec<[Spot; 2], MOST_SIDES>;

/// The corners of a profile's inside at the front, rounded ones in steps, and where front and back are.
fn outline(inside: &Solid) -> Option<(Vec<[f64; 2], MOST_POINTS>, f64, f64)> {
    let mut points = Vec::new();
    if let Some((section, front, back)) = inside.rounded() {
        for corner in 0..section.len() {
            match section.arc(corner) {
                Some(arc) => {
                    for n in 0..=CORNER {
                        let angle = arc.sweep * f64::from(n) / f64::from(CORNER);
                        points.push(arc.at(angle)).ok()?;
                    }
                }
                None => points.push(section.at(corner)).ok()?,
            }
        }
        return Some((points, front, back));
    }
    let (front, back) = inside.extent(Vector::new(0.0, 1.0, 0.0));
    for corner in inside.face(Face::Front)?.outline() {
        points.push([corner.x, corner.z]).ok()?;
    }
    Some((points, front, back))
}

/// The liquid in a profile.
pub(super) fn profile<D>(
    target: &mut D,
    inside: &Solid,
    view: &View,
    up: Vector,
    level: f64,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let Some((points, front, back)) = outline(inside) else {
        return Ok(());
    };
    let lift = |[x, z]: [f64; 2], y: f64| Vector::new(x, y, z);
    let mut surface = Sides::new();
    for (y, normal) in [(back, 1.0), (front, -1.0)] {
        let corners = points.iter().map(|point| lift(*point, y));
        let seen = view.is_seen(Vector::new(0.0, normal, 0.0));
        let mut wetted = Sides::new();
        cut(corners, view, up, level, &mut wetted, &mut surface);
        if seen {
            fill_any(target, &wetted, ink::LIQUID)?;
        }
    }
    let next = points.iter().skip(1).chain(points.first());
    for (a, b) in points.iter().zip(next) {
        // An outline runs counter-clockwise, so outward is to the right of its way.
        let normal = Vector::new(b[1] - a[1], 0.0, a[0] - b[0]);
        let ring = [
            lift(*a, front),
            lift(*a, back),
            lift(*b, back),
            lift(*b, front),
        ];
        let mut wetted = Sides::new();
        cut(ring.into_iter(), view, up, level, &mut wetted, &mut surface);
        if view.is_seen(normal.unit().unwrap_or_default()) {
            fill_any(target, &wetted, ink::LIQUID)?;
        }
    }
    fill_any(target, &surface, ink::SURFACE)?;
    rim(target, &surface)
}

fn rim<D>(target: &mut D, sides: &[[Spot; 2]]) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    draw_all(target, || {
        sides.iter().map(|ends| Stroke {
            ends: *ends,
            width: PIXEL,
            grey: ink::WATERLINE,
            dash: None,
        })
    })
}

/// Clips a ring at the level: what is below goes to `wetted`, its waterlines to `surface`.
fn cut(
    corners: impl Iterator<Item = Vector> + Clone,
    view: &View,
    up: Vector,
    level: f64,
    wetted: &mut Sides,
    surface: &mut Sides,
) {
    let mut first = None;
    let mut last: Option<Spot> = None;
    let mut crossings: Vec<Spot, 16> = Vec::new();
    let next = corners.clone().skip(1).chain(corners.clone().take(1));
    let mut emit = |spot: Spot| {
        if let Some(last) = last {
            // A ring has no more sides than there is room for.
            let _ = wetted.push([last, spot]);
        }
        first.get_or_insert(spot);
        last = Some(spot);
    };
    for (here, next) in corners.zip(next) {
        // A corner in the surface counts as just below it, so that crossings come in pairs.
        let below = |point: Vector| height(up, level, point) <= 0.0;
        if below(here) {
            emit(view.spot(here));
        }
        if below(here) != below(next) {
            let (a, b) = (height(up, level, here), height(up, level, next));
            let crossing = view.spot(here).toward(view.spot(next), a / (a - b));
            emit(crossing);
            let _ = crossings.push(crossing);
        }
    }
    if let (Some(last), Some(first)) = (last, first) {
        let _ = wetted.push([last, first]);
    }
    // Along one line on the display, each two neighbours hold a stretch of the waterline.
    insertion(&mut crossings, |a, b| (a.x, a.y) < (b.x, b.y));
    for pair in crossings.chunks(2) {
        if let [a, b] = pair {
            let _ = surface.push([*a, *b]);
        }
    }
}

/// Fills any polygon: in each row, what lies between its first and second crossing, third and fourth …
fn fill_any<D>(target: &mut D, sides: &[[Spot; 2]], grey: Gray4) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    for row in rows(sides) {
        // A little off the middle of the pixel, where corners stand.
        let y = row * PIXEL + PIXEL / 2 - 1;
        let mut crossings: Vec<i32, 32> = Vec::new();
        for [a, b] in sides {
            if (a.y <= y) != (b.y <= y) {
                let run = i64::from(b.x - a.x) * i64::from(y - a.y) / i64::from(b.y - a.y);
                let _ = crossings.push(a.x + run as i32);
            }
        }
        insertion(&mut crossings, |a, b| a < b);
        for pair in crossings.chunks(2) {
            if let [left, right] = pair {
                span(target, row, [*left, *right], grey)?;
            }
        }
    }
    Ok(())
}

/// The liquid in a drum. A drum is convex, so what is wet shows as the hull of its surface and of what of
/// its outline lies below.
pub(super) fn drum<D>(
    target: &mut D,
    inside: &Solid,
    view: &View,
    up: Vector,
    level: f64,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let mut surface: Vec<Spot, MOST_HULL> = Vec::new();
    for n in 0..SURFACE {
        if let Some(point) = surface_point(inside, up, level, n) {
            let _ = surface.push(view.spot(point));
        }
    }
    let mut wet = surface.clone();
    for n in 0..drum_points() {
        if let Some(point) = drum_point(inside, view, n)
            && height(up, level, point) <= 0.0
        {
            let _ = wet.push(view.spot(point));
        }
    }
    let next = surface.iter().skip(1).chain(surface.first());
    let mut sides: Vec<[Spot; 2], MOST_HULL> = Vec::new();
    for (a, b) in surface.iter().zip(next) {
        let _ = sides.push([*a, *b]);
    }
    fill_hull(target, &mut wet, ink::LIQUID)?;
    fill_hull(target, &mut surface, ink::SURFACE)?;
    rim(target, &sides)
}

/// A point of the line round a drum's surface: as far from its middle as the drum goes.
fn surface_point(inside: &Solid, up: Vector, level: f64, n: u16) -> Option<Vector> {
    let (turned, start, axis) = inside.turned()?;
    let along = axis.along();
    let middle = start + along * (0.5 * turned.length());
    let (low, high) = inside.extent(up);
    if !(level > low && level < high) {
        return None;
    }
    // Some point of the surface within the drum: on the line between its lowest and highest places,
    // which by symmetry runs through its middle.
    let share = up.dot(along);
    let out = up - along * share;
    let (place, radius) = turned.furthest(share, out.length());
    let top = start + along * place + out.unit().unwrap_or_default() * radius;
    let rise = up.dot(top - middle);
    let from = middle + (top - middle) * ((level - up.dot(middle)) / rise);
    let across = up
        .cross(along)
        .unit()
        .or_else(|| up.cross(axis.to_seam()).unit())?;
    let ahead = across.cross(up);
    let angle = core::f64::consts::TAU * f64::from(n) / f64::from(SURFACE);
    let (sine, cosine) = libm::sincos(angle);
    let direction = across * cosine + ahead * sine;
    let within = |run: f64| {
        let from_start = from + direction * run - start;
        let place = along.dot(from_start);
        let off = (from_start - along * place).length();
        let limit = if place < 0.0 {
            if -place > turned.head_depth(0) {
                return false;
            }
            turned.head_radius_at(0, -place)
        } else if place > turned.length() {
            if place - turned.length() > turned.head_depth(1) {
                return false;
            }
            turned.head_radius_at(1, place - turned.length())
        } else {
            turned.radius()
        };
        off <= limit
    };
    let (mut inner, mut outer) = (0.0, high - low + turned.length() + 4.0 * turned.radius());
    // To a thousandth of the drum: far below a pixel.
    for _ in 0..14 {
        let between = 0.5 * (inner + outer);
        if within(between) {
            inner = between;
        } else {
            outer = between;
        }
    }
    Some(from + direction * inner)
}

/// Fills the convex hull of some points.
fn fill_hull<D>(target: &mut D, points: &mut [Spot], grey: Gray4) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    // Upper and lower chain (A. M. Andrew, Information Processing Letters 9, 1979).
    insertion(points, |a, b| (a.x, a.y) < (b.x, b.y));
    let turns = |a: Spot, b: Spot, c: Spot| {
        i64::from(b.x - a.x) * i64::from(c.y - a.y) - i64::from(b.y - a.y) * i64::from(c.x - a.x)
    };
    let mut sides: Vec<[Spot; 2], { 2 * MOST_HULL }> = Vec::new();
    for sense in [1, -1] {
        let mut chain: Vec<Spot, MOST_HULL> = Vec::new();
        for point in points.iter() {
            while let [.., a, b] = chain.as_slice() {
                if sense * turns(*a, *b, *point) > 0 {
                    break;
                }
                chain.pop();
            }
            let _ = chain.push(*point);
        }
        for (a, b) in chain.iter().zip(chain.iter().skip(1)) {
            let _ = sides.push([*a, *b]);
        }
    }
    fill(target, &sides, grey)
}
