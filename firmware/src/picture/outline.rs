//! The outline of what is round: where a wall turns away from the eye.

use seamwright_core::body::Solid;
use seamwright_core::geom::Vector;

use super::view::View;

/// Steps of the outline of a drum.
const STEPS: u16 = 40;

/// The steps of the outline; none for a body with plane faces and sharp corners.
pub(super) fn steps(solid: &Solid, view: &View) -> impl Iterator<Item = [Vector; 2]> {
    let drum = (0..STEPS).filter_map(move |n| {
        let at = |n: u16| drum_point(solid, view, n);
        Some([at(n)?, at((n + 1) % STEPS)?])
    });
    drum.chain(corner_lines(solid, view))
}

/// A point of a drum's outline: what reaches furthest across the display in one direction.
pub(super) fn drum_point(solid: &Solid, view: &View, n: u16) -> Option<Vector> {
    let (turned, start, axis) = solid.turned()?;
    let angle = core::f64::consts::TAU * (f64::from(n) + 0.5) / f64::from(STEPS);
    let direction = view.across(angle);
    let along = axis.along();
    let share = direction.dot(along);
    let out = direction - along * share;
    let across = out.length();
    let (place, radius) = turned.furthest(share, across);
    let out = out.unit().unwrap_or_default();
    Some(start + along * place + out * radius)
}

/// How many points a drum's outline has.
pub(super) const fn drum_points() -> u16 {
    STEPS
}

/// Lines along rounded corners where they turn away from the eye.
fn corner_lines(solid: &Solid, view: &View) -> impl Iterator<Item = [Vector; 2]> {
    let eye = view.toward();
    solid
        .rounded()
        .into_iter()
        .flat_map(move |(section, front, back)| {
            (0..section.len()).flat_map(move |corner| {
                [1.0, -1.0].into_iter().filter_map(move |sense| {
                    let arc = section.arc(corner)?;
                    // Square to the eye in the outline's plane.
                    let across = Vector::new(-eye.z * sense, 0.0, eye.x * sense).unit()?;
                    let (x, z) = (across.x, across.z);
                    let along = x * arc.from[0] + z * arc.from[1];
                    let ahead = x * arc.towards[0] + z * arc.towards[1];
                    let angle = libm::atan2(ahead, along);
                    if !(angle >= 0.0 && angle <= arc.sweep) {
                        return None;
                    }
                    let [px, pz] = arc.at(angle);
                    Some([Vector::new(px, front, pz), Vector::new(px, back, pz)])
                })
            })
        })
}
