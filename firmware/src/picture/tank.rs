//! The tank as lines: visible edges whole, hidden edges dashed, one seam or its stitches picked out.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::body::{Edge, Path, Solid};
use seamwright_core::geom::Vector;
use seamwright_core::input::Face;
use seamwright_core::seam::Division;
use seamwright_core::units::Length;

use super::line::{Stroke, draw, draw_all};
use super::view::{PIXEL, View};
use super::{outline, way};
use crate::ink;

/// Width of what is picked out, in fractions of a pixel.
const CHOSEN: i32 = PIXEL * 5 / 2;
/// Width of the dot where a stitch starts.
const DOT: i32 = PIXEL * 5;
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

/// Draws the edges of `solid` and the outline of what is round about it; `chosen` is an edge to be picked
/// out, one of the solid's or the way of another seam.
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
    chosen: Option<&Edge>,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let stroke = |[from, to]: [Vector; 2], (width, grey, dash)| Stroke {
        ends: [view.spot(from), view.spot(to)],
        width,
        grey,
        dash,
    };
    let plain = move |seen: bool| match (seen, style) {
        (true, Style::Bold) => (PIXEL * 7 / 4, ink::BRIGHT, None),
        (true, Style::Ground) => (PIXEL, ink::PLAIN, None),
        (false, _) => (PIXEL, ink::DIM, Some(HIDDEN)),
    };
    draw_all(target, || {
        // A rounded corner is no line; its outline is drawn where it has one. A fold is drawn by its edge.
        let drawn = solid.rounded().is_some();
        let sharp = solid
            .edges()
            .filter(move |edge| !drawn || edge.radius.si() == 0.0);
        let lines = sharp.flat_map(move |edge| {
            way::steps(&edge)
                .map(move |step| stroke(step, plain(is_seen(solid, view, &edge, step))))
        });
        let round = outline::steps(solid, view).map(move |step| stroke(step, plain(true)));
        let picked = chosen.into_iter().flat_map(move |edge| {
            way::steps(edge).map(move |step| {
                let look = if is_seen(solid, view, edge, step) {
                    (CHOSEN, ink::BRIGHT, None)
                } else {
                    (2 * PIXEL, ink::BRIGHT, Some(HIDDEN_CHOSEN))
                };
                stroke(step, look)
            })
        });
        lines.chain(round).chain(picked)
    })
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
    let whole = edge.length().si();
    let mut pixels = 0.0;
    for [from, to] in way::steps(edge) {
        let (a, b) = (view.spot(from), view.spot(to));
        pixels += libm::hypot(f64::from(b.x - a.x), f64::from(b.y - a.y)) / f64::from(PIXEL);
    }
    for run in division.runs() {
        let [from, to] = run.map(Length::si);
        // Half of a gap; one shorter than a pixel would not be seen.
        let inset = libm::fmin(0.3 * (to - from), 1.25 * whole / libm::fmax(pixels, 1.0));
        for [from, to] in way::part(edge, from + inset, to - inset) {
            draw(
                target,
                &[Stroke {
                    ends: [view.spot(from), view.spot(to)],
                    width: CHOSEN,
                    grey: ink::BRIGHT,
                    dash: None,
                }],
            )?;
        }
    }
    Ok(())
}

/// Draws one stitch of an edge: thin where it is welded already; thick, with a dot where it starts, where its turn is
/// `now`.
///
/// # Errors
/// The target's own.
pub fn stretch<D>(
    target: &mut D,
    view: &View,
    edge: &Edge,
    ends: [Length; 2],
    now: bool,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let [from, to] = ends.map(Length::si);
    let (width, grey) = if now {
        (CHOSEN, ink::BRIGHT)
    } else {
        (2 * PIXEL, ink::PLAIN)
    };
    for [from, to] in way::part(edge, from, to) {
        let ends = [view.spot(from), view.spot(to)];
        let stroke = Stroke {
            ends,
            width,
            grey,
            dash: None,
        };
        draw(target, &[stroke])?;
    }
    if now {
        // A stroke no longer than a dot.
        let start = view.spot(edge.at(Length::from_metres(from)));
        let dot = Stroke {
            ends: [start; 2],
            width: DOT,
            grey,
            dash: None,
        };
        draw(target, &[dot])?;
    }
    Ok(())
}

/// Whether a step of an edge is towards the eye: one of its faces is, or there its wall is.
fn is_seen(solid: &Solid, view: &View, edge: &Edge, [from, to]: [Vector; 2]) -> bool {
    let towards = |face: &Face| {
        let view_of = solid.face(*face);
        view_of.is_some_and(|face| face.is_flat() && view.is_seen(face.normal()))
    };
    if edge.faces.iter().any(towards) {
        return true;
    }
    if !edge.faces.contains(&Face::Shell) {
        return false;
    }
    // On a round wall what counts is which way it looks at this place.
    let Some((_, start, axis)) = solid.turned() else {
        return false;
    };
    let middle = (from + to) * 0.5 - start;
    let along = axis.along();
    let out = middle - along * along.dot(middle);
    let out = out.unit().unwrap_or(along);
    match (edge.path, edge.faces[1]) {
        // A baffle's or a fitting's way lies within the wall's own reach.
        (Path::Round(_) | Path::Straight, Face::Baffle(_)) => false,
        _ => view.is_seen(out),
    }
}
