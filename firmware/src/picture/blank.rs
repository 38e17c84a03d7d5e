//! A blank as it lies on the bench: its outline whole, its bend lines dashed.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use embedded_graphics::primitives::Rectangle;
use seamwright_core::blank::Blank;
use seamwright_core::geom::outline::Node;

use super::line::{Stroke, draw_all};
use super::view::{PIXEL, Spot};
use crate::ink;

/// Steps in an arc of the outline.
const ARC: u16 = 6;
/// Pixels left free round it.
const MARGIN: f64 = 2.0;
/// Pixels on and off in a bend line.
const BEND: (i32, i32) = (3, 2);

/// Draws a blank into the middle of `area`, as large as it goes.
///
/// # Errors
/// The target's own.
pub fn blank<D>(target: &mut D, blank: &Blank, area: Rectangle) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let [wide, tall] = blank.size();
    let room = |pixels: u32| f64::from(pixels) - 2.0 * MARGIN;
    let (across, down) = (room(area.size.width), room(area.size.height));
    let scale = libm::fmin(across / wide, down / tall);
    if !(scale.is_finite() && scale > 0.0) {
        return Ok(());
    }
    let left = f64::from(area.top_left.x) + MARGIN + 0.5 * (across - wide * scale);
    let foot = f64::from(area.top_left.y) + MARGIN + 0.5 * (down + tall * scale);
    let spot = move |[x, y]: [f64; 2]| {
        let fixed = |pixels: f64| libm::floor(pixels) as i32 * PIXEL + PIXEL / 2;
        Spot {
            x: fixed(left + x * scale),
            y: fixed(foot - y * scale),
        }
    };
    draw_all(target, || {
        let next = blank.outline().skip(1).chain(blank.outline().take(1));
        let rim = blank.outline().zip(next).flat_map(move |(a, b)| {
            let count = if a.bulge == 0.0 { 1 } else { ARC };
            (0..count).map(move |n| {
                let at = |n: u16| along(a, b, f64::from(n) / f64::from(count));
                Stroke {
                    ends: [spot(at(n)), spot(at(n + 1))],
                    width: PIXEL * 3 / 2,
                    grey: ink::BRIGHT,
                    dash: None,
                }
            })
        });
        let bends = blank.bends().map(move |bend| Stroke {
            ends: bend.ends.map(spot),
            width: PIXEL,
            grey: ink::PLAIN,
            dash: Some(BEND),
        });
        bends.chain(rim)
    })
}

/// A point of the side from one node to the next, at a share of its way.
fn along(a: Node, b: Node, share: f64) -> [f64; 2] {
    let chord = [b.x - a.x, b.y - a.y];
    if a.bulge == 0.0 {
        return [a.x + chord[0] * share, a.y + chord[1] * share];
    }
    // The bulge is the tangent of a quarter of the sweep; the centre lies off the chord's middle.
    let quarter = libm::atan(a.bulge);
    let off = 0.5 / libm::tan(2.0 * quarter);
    let centre = [
        a.x + 0.5 * chord[0] - off * chord[1],
        a.y + 0.5 * chord[1] + off * chord[0],
    ];
    let (sine, cosine) = libm::sincos(4.0 * quarter * share);
    let from = [a.x - centre[0], a.y - centre[1]];
    [
        centre[0] + from[0] * cosine - from[1] * sine,
        centre[1] + from[0] * sine + from[1] * cosine,
    ]
}
