//! Baffles, with the liquid all on one side.

use heapless::Vec;

use super::flat::{AXES, Corners, gathered, laid};
use super::{Bearing, Form, Judge, StrengthError};
use crate::body::{Face, MAX_VERTICES};
use crate::fixture::{Baffle, Plate};
use crate::geom::Vector;
use crate::proof::panel::Panel;

/// Corners of an inside and of a baffle together, of those on one side of it.
const MOST: usize = 2 * MAX_VERTICES;
/// The square round a disc stands for it: it encloses it.
const SQUARE: [[f64; 2]; 4] = [[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]];

/// The corners of a baffle in the tank. Those of rounded corners are the sharp ones, a disc has those of
/// the square round it.
fn corners(baffle: &Baffle) -> Corners {
    let lift = |at: [f64; 2]| baffle.frame(at)[0];
    match baffle.plate() {
        Plate::Corners(corners) => gathered(corners.iter().map(|at| lift(*at))),
        Plate::Outline(section) => {
            gathered((0..section.len()).map(|place| lift(section.at(place))))
        }
        Plate::Disc { centre, radius } => gathered(
            SQUARE
                .iter()
                .map(|[a, b]| lift([centre[0] + a * radius, centre[1] + b * radius])),
        ),
    }
}

impl Judge<'_> {
    pub(super) fn baffle(&self, number: u8) -> Option<Result<Bearing, StrengthError>> {
        let place = usize::from(number.checked_sub(1)?);
        let baffle = self.tank.inner.baffles().get(place)?;
        Some(self.baffle_panel(baffle).and_then(|panel| {
            let mut bearing = self.plate(Face::Baffle(number), Form::Baffle, &panel)?;
            bearing.cure = self.cure(&bearing, &panel)?;
            Ok(bearing)
        }))
    }

    /// A baffle under the worse of the two sides' liquid.
    pub(super) fn baffle_panel(&self, baffle: &Baffle) -> Result<Panel, StrengthError> {
        let plate = corners(baffle);
        let [at, first, second] = baffle.frame([0.0; 2]);
        let normal = first.cross(second);
        let level = normal.dot(at);
        let (frame, flat) = laid(&plate, normal).ok_or(StrengthError::Unknown)?;
        let mut least: Option<(f64, Panel)> = None;
        for side in [-1.0, 1.0] {
            let mut space: Vec<Vector, MOST> = Vec::new();
            self.each_corner(|corner| {
                if side * (normal.dot(corner) - level) > 0.0 {
                    let _ = space.push(corner);
                }
            });
            // The corners of a space and of a plate always fit.
            let _ = space.extend_from_slice(&plate);
            let load = self.liquid(&space, &plate)?;
            let panel = self.panel(&flat, baffle.thickness(), &frame, &load)?;
            let reserve = panel.strength().reserve;
            if least.as_ref().is_none_or(|(old, _)| reserve < *old) {
                least = Some((reserve, panel));
            }
        }
        least.map(|(_, panel)| panel).ok_or(StrengthError::Unknown)
    }

    /// Calls `each` with every corner of the inside; of a drum with those of the box about it.
    fn each_corner(&self, mut each: impl FnMut(Vector)) {
        let inside = &self.tank.body.inside;
        if inside.turned().is_none() {
            inside.vertices().iter().copied().for_each(each);
            return;
        }
        let [(x0, x1), (y0, y1), (z0, z1)] = AXES.map(|axis| inside.extent(axis));
        for x in [x0, x1] {
            for y in [y0, y1] {
                for z in [z0, z1] {
                    each(Vector::new(x, y, z));
                }
            }
        }
    }
}
