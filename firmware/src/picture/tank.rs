//! The tank as lines: visible edges whole, hidden edges dashed, one seam or its stitches picked out.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::body::{Edge, MAX_EDGES, Solid};
use seamwright_core::stitch::Division;

use super::line::{Stroke, draw};
use super::view::{PIXEL, View};
use crate::ink;

/// Width of what is picked out, in fractions of a pixel.
const CHOSEN: i32 = PIXEL * 5 / 2;
/// Pixels on and off in a hidden edge.
const HIDDEN: (i32, i32) = (2, 2);
/// Pixels on and off in a hidden edge that is picked out.
const HIDDEN_CHOSEN: (i32, i32) = (4, 2);

/// How strongly the edges are drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Style {
    /// The tank is the subject.
    Bold,
    /// The tank is the ground of a level, a seam or a stitch.
    Ground,
}

/// Draws the edges of `solid`; `chosen` is the place of an edge to be picked out.
///
/// An edge counts as hidden when neither of its faces is towards the eye, which is right for every
/// body without inside corners.
///
/// # Errors
/// The target's own.
pub fn edges<D>(
    target: &mut D,
    solid: &Solid,
    view: &View,
    style: Style,
    chosen: Option<usize>,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let strokes: heapless::Vec<Stroke, MAX_EDGES> = solid
        .edges()
        .enumerate()
        .map(|(place, edge)| {
            let seen = is_seen(solid, view, &edge);
            let (width, grey, dash) = match (chosen == Some(place), seen, style) {
                (true, true, _) => (CHOSEN, ink::BRIGHT, None),
                (true, false, _) => (2 * PIXEL, ink::BRIGHT, Some(HIDDEN_CHOSEN)),
                (false, true, Style::Bold) => (PIXEL * 7 / 4, ink::BRIGHT, None),
                (false, true, Style::Ground) => (PIXEL, ink::PLAIN, None),
                (false, false, _) => (PIXEL, ink::DIM, Some(HIDDEN)),
            };
            Stroke {
                ends: edge.ends.map(|end| view.spot(end)),
                width,
                grey,
                dash,
            }
        })
        .collect();
    draw(target, &strokes)
}

/// Draws the stitches of one edge over it, with a gap between each two.
///
/// # Errors
/// The target's own.
pub fn stitches<D>(
    target: &mut D,
    view: &View,
    edge: &Edge,
    division: Division,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let [start, end] = edge.ends.map(|end| view.spot(end));
    let across = f64::from(end.x - start.x);
    let down = f64::from(end.y - start.y);
    let pixels = libm::hypot(across, down) / f64::from(PIXEL);
    let whole = edge.length().si();
    for run in division.runs() {
        let [from, to] = run.map(|at| at.si() / whole);
        // Half of a gap; one shorter than a pixel would not be seen.
        let inset = libm::fmin(0.3 * (to - from), 1.25 / libm::fmax(pixels, 1.0));
        let ends = [from + inset, to - inset].map(|share| start.toward(end, share));
        draw(
            target,
            &[Stroke {
                ends,
                width: CHOSEN,
                grey: ink::BRIGHT,
                dash: None,
            }],
        )?;
    }
    Ok(())
}

/// Whether at least one of an edge's faces is towards the eye.
fn is_seen(solid: &Solid, view: &View, edge: &Edge) -> bool {
    edge.faces
        .iter()
        .filter_map(|face| solid.face(*face))
        .any(|face| view.is_seen(face.normal()))
}
