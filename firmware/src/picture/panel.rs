//! One panel of a tank picked out by what bounds it.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::input::Face;
use seamwright_core::tank::Tank;

use super::line::{Stroke, draw_all};
use super::view::{PIXEL, View};
use super::way;
use crate::ink;

/// Width of its outline towards the eye and away from it, in fractions of a pixel.
const WIDTH: [i32; 2] = [PIXEL * 5 / 2, PIXEL * 2];
/// Pixels on and off where it looks away.
const AWAY: (i32, i32) = (4, 2);

/// Draws the outline of a face of a tank, or of a baffle, over its picture.
///
/// # Errors
/// The target's own.
pub fn panel<D>(target: &mut D, tank: &Tank, view: &View, face: Face) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let solid = &tank.body().outside;
    let seen = match solid.face(face) {
        Some(of) => !of.is_flat() || view.is_seen(of.normal()),
        // A baffle stands within.
        None => false,
    };
    let [near, far] = WIDTH;
    let (width, dash) = if seen {
        (near, None)
    } else {
        (far, Some(AWAY))
    };
    draw_all(target, || {
        let own = solid.edges().filter(move |edge| edge.faces.contains(&face));
        let seams = tank
            .seams()
            .enumerate()
            .filter(move |(_, seam)| matches!(face, Face::Baffle(_)) && seam.faces.contains(&face))
            .filter_map(|(place, _)| tank.edge_of_seam(place));
        own.chain(seams).flat_map(move |edge| {
            way::steps(&edge).map(move |ends| Stroke {
                ends: ends.map(|end| view.spot(end)),
                width,
                grey: ink::BRIGHT,
                dash,
            })
        })
    })
}
