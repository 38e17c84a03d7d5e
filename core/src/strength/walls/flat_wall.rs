//! Flat faces as plates, parted by the baffles that cross them.

use heapless::Vec;

use super::super::elastic::{ElasticPeak, ElasticPlace};
use super::super::error::StrengthError;
use super::super::load::{Frame, Load};
use super::super::panel::{FlatPanel, baffle_spacing};
use super::bearing::{Bearing, Cure, TEST_RESERVE, WallForm};
use super::judge::Judge;
use crate::body::{FaceView, MAX_VERTICES};
use crate::geom::Vector;
use crate::input::Face;
use crate::input::limits::MAX_BAFFLES;
use crate::tank::Tank;
use crate::units::{Length, Pressure};

/// Corners of a plate.
pub(super) type Corners = Vec<Vector, MAX_VERTICES>;

/// A part of a wall: its corners in the tank, its own plane, and its corners in that.
pub(super) struct WallPlate {
    pub(super) corners: Corners,
    pub(super) frame: Frame,
    pub(super) flat: Vec<[f64; 2], MAX_VERTICES>,
}

/// The axes that baffles stand across.
const AXES: [Vector; 3] = [
    Vector::new(1.0, 0.0, 0.0),
    Vector::new(0.0, 1.0, 0.0),
    Vector::new(0.0, 0.0, 1.0),
];

/// Where the space parts along one axis: the ends, and each baffle across it.
type Cuts = Vec<f64, { MAX_BAFFLES + 2 }>;

/// Where baffles hold a wall along each axis: at their plates, or at the free edges of their flanges.
fn cuts(tank: &Tank, wall: Face) -> [Cuts; 3] {
    let mut all = [Cuts::new(), Cuts::new(), Cuts::new()];
    for (cuts, axis) in all.iter_mut().zip(AXES) {
        // Ends and all baffles fit.
        let _ = cuts.push(f64::NEG_INFINITY);
        for baffle in tank.inner.baffles() {
            let [at, first, second] = baffle.frame([0.0; 2]);
            if libm::fabs(axis.dot(first.cross(second))) > 0.5 {
                let off = baffle.holds_at(&tank.body.inside, wall);
                let _ = cuts.push(axis.dot(at) + off);
            }
        }
        let _ = cuts.push(f64::INFINITY);
        crate::geom::sort::insertion(cuts, |a, b| a < b);
    }
    all
}

/// What of a plate lies between two planes across an axis; the plate whole, which is the safe side, where
/// there is no room for the corners of its part.
fn between(plate: &Corners, axis: Vector, low: f64, high: f64) -> Corners {
    let one = half(plate, axis, low);
    half(&one, -axis, -high)
}

/// What of a plate lies past a plane (Sutherland and Hodgman's way of clipping).
fn half(plate: &Corners, axis: Vector, from: f64) -> Corners {
    if from == f64::NEG_INFINITY {
        return plate.clone();
    }
    let mut kept = Corners::new();
    let mut full = false;
    let mut keep = |point: Vector| full |= kept.push(point).is_err();
    let next = plate.iter().skip(1).chain(plate.first());
    for (a, b) in plate.iter().zip(next) {
        let (ha, hb) = (axis.dot(*a) - from, axis.dot(*b) - from);
        if ha >= 0.0 {
            keep(*a);
        }
        if (ha < 0.0) != (hb < 0.0) {
            keep(*a + (*b - *a) * (ha / (ha - hb)));
        }
    }
    if full { plate.clone() } else { kept }
}

/// As many of some as there is room for: all, where they are corners of one body.
pub(super) fn gathered<T, const N: usize>(all: impl Iterator<Item = T>) -> Vec<T, N> {
    let mut some = Vec::new();
    for one in all {
        let _ = some.push(one);
    }
    some
}

/// A plate's own plane, and its corners in it; `None` where it has no side.
pub(super) fn laid(
    corners: &Corners,
    normal: Vector,
) -> Option<(Frame, Vec<[f64; 2], MAX_VERTICES>)> {
    let origin = *corners.first()?;
    let next = corners.iter().skip(1);
    let u = next
        .map(|corner| *corner - origin)
        .max_by(|a, b| a.length().total_cmp(&b.length()))?
        .unit()?;
    let v = normal.cross(u).unit()?;
    let frame = Frame { origin, u, v };
    let flat = gathered(
        corners
            .iter()
            .map(|corner| [u.dot(*corner - origin), v.dot(*corner - origin)]),
    );
    Some((frame, flat))
}

impl Judge<'_> {
    /// A flat face of the body: of its parts between baffles the one with the least reserve.
    pub(super) fn flat(&self, view: &FaceView<'_>) -> Result<Bearing, StrengthError> {
        let mut least: Option<(Bearing, FlatPanel)> = None;
        let mut takes: Option<Pressure> = None;
        self.each_part(view, |panel| {
            let bearing = self.plate(view.face(), WallForm::Plate, panel)?;
            if let Some(pressure) = bearing.takes
                && takes.is_none_or(|old| pressure < old)
            {
                takes = Some(pressure);
            }
            if least
                .as_ref()
                .is_none_or(|(old, _)| bearing.reserve < old.reserve)
            {
                least = Some((bearing, *panel));
            }
            Ok(())
        })?;
        let (mut bearing, panel) = least.ok_or(StrengthError::Unknown)?;
        bearing.takes = takes;
        if let Some(joined) = self.joined
            && let Some(share) = joined.shares.wall(view.face())
        {
            let strength = self.strength(bearing.thickness)?.yield_strength;
            bearing.joined = Some(Pressure::from_pascals(share.stress));
            bearing.reserve = strength.si() / share.stress;
            bearing.takes = Some(Pressure::from_pascals(share.takes));
            bearing.joined_bulge = Some(Length::from_metres(share.bulge));
            bearing.wide_hole = share.wide_hole;
            bearing.at_most = joined.shares.at_most;
            if share.hole > 0.0 {
                let peak = ElasticPeak {
                    stress: Pressure::from_pascals(share.hole),
                    place: ElasticPlace::Hole,
                };
                bearing.reserve =
                    libm::fmin(bearing.reserve, peak.reserve(strength, self.trial.wanted()));
                bearing.elastic = Some(peak);
            }
        }
        bearing.cure = self.cure(&bearing, &panel)?;
        Ok(bearing)
    }

    /// The part of a flat face that has the least reserve.
    pub(super) fn worst_part(&self, view: &FaceView<'_>) -> Result<FlatPanel, StrengthError> {
        let mut least: Option<(f64, FlatPanel)> = None;
        self.each_part(view, |panel| {
            let reserve = panel.strength().reserve;
            if least.as_ref().is_none_or(|(old, _)| reserve < *old) {
                least = Some((reserve, *panel));
            }
            Ok(())
        })?;
        least.map(|(_, panel)| panel).ok_or(StrengthError::Unknown)
    }

    /// Calls `each` with every part of a flat face between baffles, under its worst load.
    fn each_part(
        &self,
        view: &FaceView<'_>,
        mut each: impl FnMut(&FlatPanel) -> Result<(), StrengthError>,
    ) -> Result<(), StrengthError> {
        let inside = self.tank.body.inside.vertices();
        let thickness = self.tank.job.thickness_of(view.face());
        self.each_plate(view, |plate| {
            let load = self.load(inside, &plate.corners)?;
            match self.panel(&plate.flat, thickness, &plate.frame, &load) {
                Ok(panel) => each(&panel),
                // A sliver beside a baffle is no plate.
                Err(StrengthError::Panel(error)) if error.is_of_outline() => Ok(()),
                Err(error) => Err(error),
            }
        })
    }

    /// Calls `each` with every part of a flat face between baffles.
    pub(super) fn each_plate(
        &self,
        view: &FaceView<'_>,
        mut each: impl FnMut(&WallPlate) -> Result<(), StrengthError>,
    ) -> Result<(), StrengthError> {
        let thickness = self.tank.job.thickness_of(view.face());
        // The outline is that of the outside; the pressure is that on the inner face.
        let inward = view.normal() * -thickness.si();
        let whole: Corners = gathered(view.outline().map(|corner| corner + inward));
        let [x, y, z] = cuts(self.tank, view.face());
        let pairs = |cuts: &Cuts| {
            let next = cuts.clone().into_iter().skip(1);
            cuts.clone().into_iter().zip(next)
        };
        for (low, high) in pairs(&x) {
            let part = between(&whole, AXES[0], low, high);
            for (low, high) in pairs(&y) {
                let part = between(&part, AXES[1], low, high);
                for (low, high) in pairs(&z) {
                    let corners = between(&part, AXES[2], low, high);
                    if let Some((frame, flat)) = laid(&corners, view.normal()) {
                        each(&WallPlate {
                            corners,
                            frame,
                            flat,
                        })?;
                    }
                }
            }
        }
        Ok(())
    }

    pub(super) fn panel(
        &self,
        flat: &[[f64; 2]],
        thickness: Length,
        frame: &Frame,
        load: &Load,
    ) -> Result<FlatPanel, StrengthError> {
        let metal = self.metal(thickness)?;
        Ok(FlatPanel::new(
            flat,
            thickness,
            metal,
            load.pressing(frame),
        )?)
    }

    /// What a plate bears, without what would mend it.
    pub(super) fn plate(
        &self,
        face: Face,
        form: WallForm,
        panel: &FlatPanel,
    ) -> Result<Bearing, StrengthError> {
        let strength = panel.strength();
        // Whether its edges can pull inward is not known.
        let free = libm::fmax(strength.eased_supported.si(), strength.stress_held.si());
        Ok(Bearing {
            face,
            form,
            thickness: panel.thickness(),
            pressure: Pressure::from_pascals(panel.ramp.most()),
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
            takes: match form {
                WallForm::Baffle => None,
                _ => Some(panel.takes(TEST_RESERVE)?),
            },
            inside_corner: strength.inside_corner,
            may_wrinkle: false,
            cure: None,
        })
    }

    /// What would mend a plate.
    pub(super) fn cure(
        &self,
        bearing: &Bearing,
        panel: &FlatPanel,
    ) -> Result<Option<Cure>, StrengthError> {
        let wanted = self.trial.wanted();
        if bearing.reserve >= wanted {
            return Ok(None);
        }
        let spacing = baffle_spacing(
            Length::from_metres(panel.shape.sides.short()),
            bearing.thickness,
            self.metal(bearing.thickness)?,
            bearing.pressure,
            wanted,
        )?;
        let joined = self
            .joined
            .and_then(|joined| joined.shares.wall(bearing.face));
        let mended = joined.and_then(|share| share.mended);
        let thickness = match mended {
            Some(thickness) => thickness,
            None => panel.mend(wanted)?,
        };
        Ok(Some(Cure {
            thickness,
            spacing: Some(spacing),
        }))
    }
}
