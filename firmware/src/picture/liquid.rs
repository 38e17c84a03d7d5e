//! The liquid in a tank: its wetted sides and its surface.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use heapless::Vec;
use seamwright_core::body::Solid;
use seamwright_core::geom::Vector;
use seamwright_core::input::Face;
use seamwright_core::input::limits::MAX_FACES;

use super::fill::{fill, height};
use super::line::{Stroke, draw};
use super::round;
use super::view::{PIXEL, Spot, View};
use crate::ink;

/// Sides of a face that a plane has cut: a face of a convex body has at most one side for each other
/// face, and the cut adds one.
const MOST_SIDES: usize = MAX_FACES + 1;

/// Sides of a convex polygon on the display, in any order.
type Sides = Vec<[Spot; 2], MOST_SIDES>;

/// Draws what lies in `inside` below the plane `up · p = level`, seen in `view`: sides towards the
/// eye, then the surface over them with its outline. Nothing is drawn of an empty tank.
///
/// # Errors
/// The target's own.
pub fn liquid<D>(
    target: &mut D,
    inside: &Solid,
    view: &View,
    up: Vector,
    level: f64,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    if inside.turned().is_some() {
        return round::drum(target, inside, view, up, level);
    }
    if inside.face(Face::Side(1)).is_some() {
        return round::profile(target, inside, view, up, level);
    }
    let mut surface = Sides::new();
    for face in inside.faces() {
        let seen = view.is_seen(face.normal());
        let mut wetted = Sides::new();
        let mut waterline = Vec::<Spot, 2>::new();
        let mut lies_in_surface = false;
        let mut first = None;
        let mut last = None;
        let mut emit = |spot: Spot| {
            if let Some(last) = last {
                // A face has no more sides than there is room for.
                let _ = wetted.push([last, spot]);
            }
            first.get_or_insert(spot);
            last = Some(spot);
        };
        let ahead = face.outline().skip(1).chain(face.outline().take(1));
        for (here, next) in face.outline().zip(ahead) {
            let (above, above_next) = (height(up, level, here), height(up, level, next));
            if above <= 0.0 {
                emit(view.spot(here));
            }
            if above == 0.0 {
                lies_in_surface |= waterline.push(view.spot(here)).is_err();
            }
            if above * above_next < 0.0 {
                let share = above / (above - above_next);
                let crossing = view.spot(here).toward(view.spot(next), share);
                emit(crossing);
                lies_in_surface |= waterline.push(crossing).is_err();
            }
        }
        if let (Some(last), Some(first)) = (last, first) {
            let _ = wetted.push([last, first]);
        }
        if seen {
            fill(target, &wetted, ink::LIQUID)?;
        }
        if let ([a, b], false) = (waterline.as_slice(), lies_in_surface) {
            let _ = surface.push([*a, *b]);
        }
    }
    fill(target, &surface, ink::SURFACE)?;
    let outline: Vec<Stroke, MOST_SIDES> = surface
        .iter()
        .map(|ends| Stroke {
            ends: *ends,
            width: PIXEL,
            grey: ink::WATERLINE,
            dash: None,
        })
        .collect();
    draw(target, &outline)
}
