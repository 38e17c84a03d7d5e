//! Sheets laid flat: outlines, and how each stands.

use core::f64::consts::PI;

use super::clip::Outline;
use super::disc::Meridian;
use super::grid::{Grid, Unrolled, size_of};
use crate::blank::Axes;
use crate::body::{FaceView, FlatForm, Solid};
use crate::fitting::Baffle;
use crate::geom::Vector;
use crate::input::Face;

/// Lays a wall flat: writes its outline to `outline`, in m, and gives how it lies, its face and its size. That of a drum's end
/// is a disc of its area.
pub(super) fn wall(
    solid: &Solid,
    view: &FaceView<'_>,
    outline: &mut Outline,
) -> ((Unrolled, Face), [f64; 2]) {
    outline.clear();
    let face = view.face();
    let unrolled = if let Some((turned, start, axis)) = solid.turned() {
        let along = axis.along();
        if face == Face::Shell {
            let size = [turned.length(), 2.0 * PI * turned.radius()];
            let corners = [[0.0, 0.0], [size[0], 0.0], size, [0.0, size[1]]];
            let _ = outline.extend_from_slice(&corners);
            Unrolled::Wall {
                start,
                along,
                seam: axis.to_seam(),
                radius: turned.radius(),
            }
        } else {
            let disc = libm::sqrt(view.area().si() / PI);
            let normal = view.normal();
            let far = normal.dot(along) > 0.0;
            let centre = if far {
                start + along * turned.length()
            } else {
                start
            };
            const SIDES: u8 = 24;
            for n in 0..SIDES {
                let (sine, cosine) = libm::sincos(2.0 * PI * f64::from(n) / f64::from(SIDES));
                let _ = outline.push([disc * (1.0 + cosine), disc * (1.0 + sine)]);
            }
            let reach = Meridian::of(turned, usize::from(far)).length();
            let end = Unrolled::End {
                axes: Axes::of(normal, core::iter::once(Vector::ZERO)),
                centre,
                scale: reach / turned.radius(),
                second: far,
            };
            return ((end, face), [2.0 * reach; 2]);
        }
    } else {
        let axes = Axes::of(view.normal(), view.outline());
        for corner in view.outline() {
            let _ = outline.push(axes.flat(corner));
        }
        Unrolled::Plane(axes)
    };
    ((unrolled, face), size_of(outline))
}

/// Lays a baffle flat, as [`wall`] does a wall.
pub(super) fn plate(baffle: &Baffle, outline: &mut Outline) -> ((Unrolled, Face), [f64; 2]) {
    outline.clear();
    match baffle.plate() {
        FlatForm::Corners(corners) => {
            let _ = outline.extend_from_slice(corners);
        }
        FlatForm::Outline(section) => {
            for place in 0..section.len() {
                let _ = outline.push(section.at(place));
            }
        }
        FlatForm::Disc { centre, radius } => {
            const SIDES: u8 = 24;
            for n in 0..SIDES {
                let (sine, cosine) = libm::sincos(2.0 * PI * f64::from(n) / f64::from(SIDES));
                let _ = outline.push([centre[0] + radius * cosine, centre[1] + radius * sine]);
            }
        }
    }
    let low = outline.iter().fold([f64::INFINITY; 2], |[u, w], [x, y]| {
        [libm::fmin(u, *x), libm::fmin(w, *y)]
    });
    for point in outline.iter_mut() {
        *point = [point[0] - low[0], point[1] - low[1]];
    }
    if area(outline) < 0.0 {
        outline.reverse();
    }
    let [origin, right, up] = baffle.frame(low);
    let unrolled = Unrolled::Plane(Axes { origin, right, up });
    // Its number is its place among the baffles; it is asked for by that.
    ((unrolled, Face::Baffle(0)), size_of(outline))
}

/// The outward normal by which a wall loses heat: a drum's wall counts as upright where its axis is, and else as its
/// side is.
pub(super) fn normal(solid: &Solid, view: &FaceView<'_>) -> Vector {
    match solid.turned() {
        Some((_, _, axis)) if view.face() == Face::Shell => {
            let along = axis.along();
            // Across the axis and level.
            if along.z > 0.5 {
                Vector::new(0.0, 1.0, 0.0)
            } else {
                Vector::new(0.0, along.x, 0.0)
            }
        }
        _ => view.normal(),
    }
}

/// Area of an outline, in m²; below zero where it runs clockwise.
pub(super) fn area(outline: &Outline) -> f64 {
    let next = outline.iter().skip(1).chain(outline.first());
    outline
        .iter()
        .zip(next)
        .map(|(a, b)| 0.5 * (a[0] * b[1] - b[0] * a[1]))
        .sum()
}

/// Length round an outline, in m.
pub(super) fn perimeter(outline: &Outline) -> f64 {
    let next = outline.iter().skip(1).chain(outline.first());
    outline
        .iter()
        .zip(next)
        .map(|(a, b)| libm::hypot(b[0] - a[0], b[1] - a[1]))
        .sum()
}

/// Lowest and highest of a sheet that stands, along its own up, in m.
pub(super) fn solid_height(outline: &Outline, grid: &Grid) -> (f64, f64) {
    match grid.unrolled {
        // Round a lying drum the air rises over half its girth; along an upright one over its length.
        Unrolled::Wall { along, .. } => (
            0.0,
            if along.z > 0.5 {
                grid.size[0]
            } else {
                0.5 * grid.size[1]
            },
        ),
        Unrolled::Plane(_) | Unrolled::End { .. } => {
            outline.iter().fold((0.0, 0.0), |(low, high), [_, y]| {
                (libm::fmin(low, *y), libm::fmax(high, *y))
            })
        }
    }
}
