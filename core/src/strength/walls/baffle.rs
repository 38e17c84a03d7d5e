//! Baffles, with the liquid all on one side.

use heapless::Vec;

use super::super::error::StrengthError;
use super::super::load::Load;
use super::super::panel::{FlatPanel, RoundPanel};
use super::bearing::{Bearing, Cure, WallForm};
use super::flat_wall::{Corners, gathered, laid};
use super::judge::{HAIR, Judge};
use crate::body::{FlatForm, MAX_VERTICES, Solid};
use crate::fitting::Baffle;
use crate::geom::Vector;
use crate::input::Face;
use crate::units::{Length, Pressure};

/// Corners of an inside and of a baffle together, of those on one side of it.
const MOST: usize = 2 * MAX_VERTICES;

/// The corners of a baffle in the tank, nothing cut off it; those of rounded corners are the sharp ones. A
/// disc has none.
pub(super) fn corners(baffle: &Baffle, inside: &Solid) -> Corners {
    let lift = |at: [f64; 2]| baffle.frame(at)[0];
    match &baffle.uncut(inside) {
        FlatForm::Corners(corners) => gathered(corners.iter().map(|at| lift(*at))),
        FlatForm::Outline(section) => {
            gathered((0..section.len()).map(|place| lift(section.at(place))))
        }
        FlatForm::Disc { .. } => Corners::new(),
    }
}

impl Judge<'_> {
    /// Whether an edge of the baffle at a place of the list is held by nothing, or by a flange beside its plane.
    pub(super) fn has_free_edge(&self, place: usize, baffle: &Baffle) -> bool {
        let draft = self.tank.job().baffles().get(place);
        baffle.is_open() || baffle.is_flanged() || draft.is_some_and(|draft| !draft.free.is_empty())
    }

    pub(super) fn baffle(&self, number: u8) -> Option<Result<Bearing, StrengthError>> {
        let place = usize::from(number.checked_sub(1)?);
        let baffle = self.tank.inner.baffles().get(place)?;
        if self.has_free_edge(place, baffle) {
            return Some(self.strip_bearing(number, (place, baffle)));
        }
        if let FlatForm::Disc { centre, radius } = baffle.uncut(&self.tank.body.inside) {
            return Some(self.disc(number, baffle, centre, radius));
        }
        Some(self.baffle_panel(place, baffle).and_then(|panel| {
            let mut bearing = self.plate(Face::Baffle(number), WallForm::Baffle, &panel)?;
            bearing.cure = self.cure(&bearing, &panel)?;
            Ok(bearing)
        }))
    }

    /// A baffle across a drum.
    fn disc(
        &self,
        number: u8,
        baffle: &Baffle,
        centre: [f64; 2],
        radius: f64,
    ) -> Result<Bearing, StrengthError> {
        let panel = self.disc_panel(baffle, centre, radius)?;
        let strength = panel.strength();
        let free = libm::fmax(strength.eased_supported.si(), strength.stress_held.si());
        let wanted = self.trial.wanted();
        let cure = if strength.reserve >= wanted {
            None
        } else {
            Some(Cure {
                thickness: panel.mend(wanted)?,
                spacing: None,
            })
        };
        Ok(Bearing {
            face: Face::Baffle(number),
            form: WallForm::Baffle,
            thickness: baffle.thickness(),
            pressure: panel.most(),
            joined: None,
            joined_bulge: None,
            at_most: false,
            stress: [strength.eased_clamped, Pressure::from_pascals(free)],
            bulge: Some([strength.bulge_clamped, strength.bulge_supported]),
            bulge_held: Some([
                Length::from_metres(strength.held_clamped.bulge),
                Length::from_metres(strength.held_supported.bulge),
            ]),
            elastic: None,
            wide_hole: false,
            reserve: strength.reserve,
            takes: None,
            inside_corner: false,
            may_wrinkle: false,
            cure,
        })
    }

    /// A disc across a drum under the liquid of the worse of its two sides, that one full to its own brim.
    pub(super) fn disc_panel(
        &self,
        baffle: &Baffle,
        centre: [f64; 2],
        radius: f64,
    ) -> Result<RoundPanel, StrengthError> {
        let [middle, first, second] = baffle.frame(centre);
        let normal = first.cross(second);
        let inside = &self.tank.body.inside;
        let hair = Pressure::from_pascals(HAIR);
        let (mut mean, mut rise, mut most) = (0.0, 0.0, f64::NEG_INFINITY);
        let mut failed = None;
        self.sway.each(|felt| {
            let Some(down) = felt.unit() else { return };
            let aside = (down - normal * normal.dot(down)).length() * radius;
            // The side towards which the tank rises holds the highest point of the whole.
            let (brim, _) = inside.extent(down);
            match Load::liquid(self.density, felt, hair, &[down * brim]) {
                Ok(load) => {
                    let here = load.at(middle).si();
                    let more = self.density * felt.length() * aside;
                    // As much as each counts at a held edge.
                    let rank = here + more / 3.0;
                    if rank > most {
                        (mean, rise, most) = (here, more, rank);
                    }
                }
                Err(error) => failed = Some(error),
            }
        });
        if let Some(error) = failed {
            return Err(error.into());
        }
        let metal = self.metal(baffle.thickness())?;
        let [mean, rise] = [mean, rise].map(Pressure::from_pascals);
        let radius = Length::from_metres(radius);
        Ok(RoundPanel::new(
            radius,
            baffle.thickness(),
            metal,
            mean,
            rise,
        )?)
    }

    /// A baffle with corners under the worse of the two sides' liquid.
    pub(super) fn baffle_panel(
        &self,
        place: usize,
        baffle: &Baffle,
    ) -> Result<FlatPanel, StrengthError> {
        if self.has_free_edge(place, baffle) {
            return Err(StrengthError::FreeEdge);
        }
        let plate = corners(baffle, &self.tank.body.inside);
        let [at, first, second] = baffle.frame([0.0; 2]);
        let normal = first.cross(second);
        let level = normal.dot(at);
        let (frame, flat) = laid(&plate, normal).ok_or(StrengthError::Unknown)?;
        let mut least: Option<(f64, FlatPanel)> = None;
        for side in [-1.0, 1.0] {
            let mut space: Vec<Vector, MOST> = Vec::new();
            for corner in self.tank.body.inside.vertices() {
                if side * (normal.dot(*corner) - level) > 0.0 {
                    let _ = space.push(*corner);
                }
            }
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
}
