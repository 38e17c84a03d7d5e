//! Whether hand and torch reach the edge of a baffle.
//!
//! A seam inside is reached from one side of its baffle while, seen from every place along it, an opening of the cell there
//! is at least as wide as the job's opening for hand and torch, and no farther than its reach; or so wide that the welder
//! gets in. Cells lie between the planes
//! of the baffles that stand by then; holes in baffles, and plates that leave a part open, are counted on as no way through.

use heapless::Vec;

use super::mouth::{Cell, Mouth, along, samples};
use super::stage::PanelSet;
use crate::blank::{Groups, PanelMark};
use crate::body::{Edge, Path};
use crate::geom::Vector;
use crate::input::limits::{MAX_FACES, MAX_FITTINGS};
use crate::input::{Across, Face};
use crate::tank::Tank;
use crate::units::Length;

/// Openings that a tank may have while it is built: its faces, and its fittings.
const MOST: usize = MAX_FACES + MAX_FITTINGS;

/// Through an opening this wide a welder leans or climbs in, in m: a manway of 600 mm or 24 in, common practice, no source.
const WHOLE_BODY: f64 = 0.6;

/// The openings of a tank in some state of building: small, as a gauge's stack holds two of them.
#[derive(Debug)]
pub(super) struct Mouths {
    /// Faces that are not on yet, and fittings that let hand and torch through.
    all: Vec<Face, MOST>,
    /// Least width that lets hand and torch through, in m.
    clear: f64,
    /// How far they reach, in m.
    reach: f64,
}

impl Mouths {
    /// Those of a tank without these panels.
    #[inline(never)]
    pub(super) fn of(tank: &Tank, groups: &Groups, off: PanelSet) -> Self {
        let welding = tank.job().welding();
        let mut mouths = Self {
            all: Vec::new(),
            clear: welding.opening.si(),
            reach: welding.reach.si(),
        };
        for (view, place) in tank.body().outside.faces().zip(0_usize..) {
            let panel = groups.panel_of(place).map(PanelMark::at);
            if panel.is_some_and(|panel| off.has(panel)) {
                // There is room for all faces and all fittings.
                let _ = mouths.all.push(view.face());
            }
        }
        for (fitting, number) in tank.job().fittings().iter().zip(1_u8..) {
            if fitting.bore >= welding.opening {
                let _ = mouths.all.push(Face::Fitting(number));
            }
        }
        mouths
    }

    /// Through which opening hand and torch reach an edge of the baffle counted `number` from 1, while the baffles of `set`
    /// stand, one bit each; `None` where they do not.
    pub(super) fn to(&self, tank: &Tank, edge: &Edge, number: u8, set: u8) -> Option<Face> {
        let baffle = tank
            .inner()
            .baffles()
            .get(usize::from(number).saturating_sub(1));
        [false, true]
            .into_iter()
            // The free edge of a flange lies on one side of the plate.
            .filter(|far| baffle.is_none_or(|baffle| baffle.is_reached(edge, *far)))
            .find_map(|far| self.to_side(tank, edge, (number, far), set))
    }

    /// Whether an opening lets the welder in.
    fn lets_in(&self, tank: &Tank, mouth: &Mouth, point: Vector, cell: &Cell) -> bool {
        let clear = libm::fmax(self.clear, WHOLE_BODY);
        mouth.distance(tank.inside(), point, cell, clear).is_some()
    }

    /// Whether a seam that is reached through an opening is farther from it than hand and torch reach, so that the welder
    /// has to get in.
    pub(super) fn is_deep(&self, tank: &Tank, edge: &Edge, through: Face) -> bool {
        let whole = edge.length().si();
        let all = [[f64::NEG_INFINITY, f64::INFINITY]; 3];
        let Some(mouth) = Mouth::of(tank, through) else {
            return false;
        };
        let round = matches!(edge.path, Path::Round(_));
        samples(round).any(|share| {
            let point = edge.at(Length::from_metres(share * whole));
            let distance = mouth.distance(tank.inside(), point, &all, 0.0);
            !distance.is_some_and(|distance| distance <= self.reach)
        })
    }

    /// The same from one side of the baffle.
    #[inline(never)]
    fn to_side(&self, tank: &Tank, edge: &Edge, side: (u8, bool), set: u8) -> Option<Face> {
        let whole = edge.length().si();
        let round = matches!(edge.path, Path::Round(_));
        let mut through = None;
        for share in samples(round) {
            let point = edge.at(Length::from_metres(share * whole));
            let cell = cell(tank, along_axes(point), side, set);
            let mut nearest = None;
            let mut least = self.reach;
            for face in &self.all {
                let Some(mouth) = Mouth::of(tank, *face) else {
                    continue;
                };
                let Some(distance) = mouth.distance(tank.inside(), point, &cell, self.clear) else {
                    continue;
                };
                if distance <= least {
                    least = distance;
                    nearest = Some(*face);
                } else if nearest.is_none() && self.lets_in(tank, &mouth, point, &cell) {
                    nearest = Some(*face);
                }
            }
            let nearest = nearest?;
            // Most of a seam is told by its middle.
            if through.is_none() || share <= 0.5 {
                through = Some(nearest);
            }
        }
        through
    }
}

fn along_axes(point: Vector) -> [f64; 3] {
    [along(point, 0), along(point, 1), along(point, 2)]
}

/// The cell on one side of a baffle, at a place of its edge, while the baffles of `set` stand.
fn cell(tank: &Tank, point: [f64; 3], (own, far): (u8, bool), set: u8) -> Cell {
    let mut cell = [[f64::NEG_INFINITY, f64::INFINITY]; 3];
    for (baffle, number) in tank.inner().baffles().iter().zip(1_u8..) {
        let stands = number == own || set & bit(number) != 0;
        let axis = match baffle.across() {
            Across::Length => 0,
            Across::Width => 1,
            Across::Height => 2,
        };
        let (Some([low, high]), Some(place)) = (cell.get_mut(axis), point.get(axis)) else {
            continue;
        };
        if !stands {
            continue;
        }
        let at = baffle.at().si();
        let above = if number == own { !far } else { at > *place };
        if above {
            *high = libm::fmin(*high, at);
        } else {
            *low = libm::fmax(*low, at);
        }
    }
    cell
}

/// The bit of a baffle counted from 1 in a set of them.
pub(super) const fn bit(number: u8) -> u8 {
    match 1_u8.checked_shl(number.saturating_sub(1) as u32) {
        Some(bit) => bit,
        None => 0,
    }
}
