//! Bends the edges of baffles over, where their flanges find room.

use super::{JobError, Problem, Tank};
use crate::blank::{Bend, BlankError, CutBlank};
use crate::fitting::{Baffle, BaffleCut, Bending, CutFault, Flanges, PlaceError, RoomError};
use crate::geom::Vector;
use crate::input::{Face, Field};
use crate::units::{Angle, AngleUnit, Length};

/// Halvings of a width: to a thousandth of a millimetre from the widest flange.
const HALVINGS: u8 = 20;
/// Places along a flange that are looked at, and out from the plate.
const ALONG: u32 = 16;
const OUT: u32 = 12;
/// A flange may touch what it lies against, by this in metres: what is left of rounding.
const TOUCH: f64 = 1e-6;

impl Tank {
    /// Bends the edges of the baffles over whose cuts say so.
    pub(super) fn bend_baffles(&mut self, cuts: &[BaffleCut]) -> Result<(), JobError> {
        for (cut, number) in cuts.iter().zip(1_u8..) {
            let place = usize::from(number - 1);
            let Some(baffle) = self.inner.baffles.get(place) else {
                continue;
            };
            let Some(wanted) = &cut.flange else { continue };
            let wrong = |(fault, limit): (CutFault, f64)| JobError {
                field: Field::Baffle(number),
                problem: Problem::Place(PlaceError::Room(RoomError::Cut {
                    fault,
                    limit: Length::from_metres(limit),
                })),
            };
            let bend = self.baffle_bend(number, baffle)?;
            let of = Bending {
                cut: wanted,
                bend: &bend,
                open: [cut.gap_below.si(), cut.gap_above.si()],
            };
            let flanges = baffle.flanged(&self.body.inside, &of).map_err(wrong)?;
            self.find_room(number, baffle, &flanges).map_err(wrong)?;
            let mut blank = CutBlank::new();
            self.lay_flanged((number, baffle), &flanges, &bend, &mut blank)
                .map_err(|error| JobError {
                    field: Field::Baffle(number),
                    problem: Problem::Blank(error),
                })?;
            let area = blank.area().si();
            if let Some(baffle) = self.inner.baffles.get_mut(place) {
                baffle.bend_over(flanges, area);
            }
        }
        Ok(())
    }

    /// The bend of a baffle's flanges.
    fn baffle_bend(&self, number: u8, baffle: &Baffle) -> Result<Bend, JobError> {
        let allow = self.job.joints.allow();
        let square = Angle::new(90.0, AngleUnit::Degree);
        Bend::new(baffle.thickness(), allow.bend_radius, square, allow.rule).map_err(|error| {
            JobError {
                field: Field::Baffle(number),
                problem: Problem::Blank(BlankError::Bend {
                    faces: [Face::Baffle(number); 2],
                    error,
                }),
            }
        })
    }

    /// The blank of a baffle with flanges.
    #[inline(never)]
    pub(crate) fn flanged_blank(&self, number: u8, blank: &mut CutBlank) -> Result<(), BlankError> {
        let face = Face::Baffle(number);
        let place = usize::from(number.saturating_sub(1));
        let Some((baffle, flanges)) =
            (self.inner.baffles.get(place)).and_then(|baffle| Some((baffle, baffle.flanges()?)))
        else {
            return Err(BlankError::TooComplex { face });
        };
        let bend = self
            .baffle_bend(number, baffle)
            .map_err(|_| BlankError::TooComplex { face })?;
        self.lay_flanged((number, baffle), flanges, &bend, blank)
    }

    fn lay_flanged(
        &self,
        (number, baffle): (u8, &Baffle),
        flanges: &Flanges,
        bend: &Bend,
        blank: &mut CutBlank,
    ) -> Result<(), BlankError> {
        let face = Face::Baffle(number);
        let plate = flanges.plate((number, baffle), &self.body.inside, bend);
        blank.lay_bent(&plate.ok_or(BlankError::TooComplex { face })?)
    }

    /// Looks whether the flanges of a baffle find room: along their sides, within the walls, beside what stands there.
    fn find_room(
        &self,
        number: u8,
        baffle: &Baffle,
        flanges: &Flanges,
    ) -> Result<(), (CutFault, f64)> {
        for side in (0..baffle.sides()).filter(|side| flanges.has(*side)) {
            let wall = baffle
                .is_held(side)
                .then(|| baffle.wall_of(self.inside(), side));
            let wall = wall.flatten();
            let [bend, edge] = flanges.lengths(baffle, side);
            let least = baffle.thickness().si();
            if !(bend > least && edge > least) {
                return Err((CutFault::FlangeNarrow(wall), least));
            }
            let Some(fault) = self.in_the_way(number, baffle, flanges, (side, wall)) else {
                continue;
            };
            let (mut fits, mut not) = (flanges.setback, flanges.width);
            for _ in 0..HALVINGS {
                let middle = 0.5 * (fits + not);
                let tried = flanges.with_width(middle);
                if self
                    .in_the_way(number, baffle, &tried, (side, wall))
                    .is_some()
                {
                    not = middle;
                } else {
                    fits = middle;
                }
            }
            return Err((fault, fits));
        }
        match baffle.hole_in_bend(flanges) {
            Some((hole, by)) => Err((CutFault::FlangeHole(hole), by)),
            None => Ok(()),
        }
    }

    /// What is in the way of a flange.
    fn in_the_way(
        &self,
        number: u8,
        baffle: &Baffle,
        flanges: &Flanges,
        (side, wall): (usize, Option<Face>),
    ) -> Option<CutFault> {
        let long = wall.map_or(CutFault::FlangeLongOpen, CutFault::FlangeLong);
        let sheet = baffle.thickness().si();
        let whole = flanges.width - 0.5 * sheet;
        for n in 0..=ALONG {
            let share = f64::from(n) / f64::from(ALONG);
            for m in 1..=OUT {
                let out = 0.5 * sheet + (whole - 0.5 * sheet) * f64::from(m) / f64::from(OUT);
                for deep in [TOUCH, sheet] {
                    let point = flanges.point(baffle, side, [share, deep, out])?;
                    if !self.inside().holds(point) {
                        return Some(long);
                    }
                    if let Some(fault) = self.met(number, point, wall) {
                        return Some(fault);
                    }
                    if self.in_lap(baffle, point, wall) {
                        return Some(long);
                    }
                }
            }
        }
        let passes = self.passes_baffle(number, baffle, flanges);
        if let (Some(other), Some(wall)) = (passes, wall) {
            return Some(CutFault::FlangeOnBaffle(wall, other));
        }
        let under = self.under_fitting(baffle, flanges, (side, wall));
        under.map(|(wall, fitting)| CutFault::FlangeOnFitting(wall, fitting))
    }

    /// What else that stands within a point of a flange lies in.
    fn met(&self, number: u8, point: Vector, wall: Option<Face>) -> Option<CutFault> {
        let wall = wall.unwrap_or(Face::Baffle(number));
        for (other, its) in self.inner.baffles.iter().zip(1_u8..) {
            if its != number && other.is_metal(point) {
                return Some(CutFault::FlangeOnBaffle(wall, its));
            }
        }
        for (fitting, its) in self.fittings().zip(1_u8..) {
            if fitting.stub().is_some_and(|stub| stub.holds(point)) {
                return Some(CutFault::FlangeOnFitting(wall, its));
            }
        }
        None
    }

    /// Whether a point of a flange lies where a flange of the tank's own walls comes to lie, or in its bend.
    fn in_lap(&self, baffle: &Baffle, point: Vector, wall: Option<Face>) -> bool {
        let plan = self.plan();
        let Some(view) = wall.and_then(|wall| self.body.outside.face(wall)) else {
            return false;
        };
        let axis = baffle.axis();
        view.sides().any(|(_, edge)| {
            let Some(edge) = edge else { return false };
            let [a, b] = edge.faces;
            let other = if a == view.face() { b } else { a };
            let Some(that) = self.body.outside.face(other) else {
                return false;
            };
            // Only what stands across the flange; what runs along it the plate itself meets first.
            if libm::fabs(that.normal().dot(axis)) < 0.5 {
                return false;
            }
            let reach = if plan.edge_fit(other, &edge).flange.si() > 0.0 {
                plan.joints.allow().lap.si()
            } else if plan.edge_fit(view.face(), &edge).flange.si() > 0.0 {
                plan.joints.allow().bend_radius.si()
                    + plan.sheet.of(other).si()
                    + plan.sheet.of(view.face()).si()
            } else {
                return false;
            };
            -that.plane().distance(point) < reach
        })
    }

    /// The first other baffle across the same axis whose plate or flanges are where its own flanges reach.
    fn passes_baffle(&self, number: u8, baffle: &Baffle, flanges: &Flanges) -> Option<u8> {
        let span = |of: &Baffle, flanges: Option<&Flanges>| {
            let (at, half) = (of.at().si(), 0.5 * of.thickness().si());
            let (low, high) = (at - half, at + half);
            match flanges {
                Some(flanges) if flanges.high => [low, low + flanges.width],
                Some(flanges) => [high - flanges.width, high],
                None => [low, high],
            }
        };
        let [low, high] = span(baffle, Some(flanges));
        let mut others = self.inner.baffles.iter().zip(1_u8..);
        others
            .find(|(other, its)| {
                let [from, to] = span(other, other.flanges());
                *its != number && other.across() == baffle.across() && from < high && to > low
            })
            .map(|(_, its)| its)
    }

    /// The first fitting whose hole is where a flange lies.
    fn under_fitting(
        &self,
        baffle: &Baffle,
        flanges: &Flanges,
        (side, wall): (usize, Option<Face>),
    ) -> Option<(Face, u8)> {
        let wall = wall?;
        let half = 0.5 * baffle.thickness().si();
        let corner = |share: f64, out: f64| flanges.point(baffle, side, [share, 0.0, out]);
        let (start, end) = (corner(0.0, -half)?, corner(1.0, -half)?);
        let free = corner(0.0, flanges.width - half)?;
        let (along, across) = ((end - start).unit()?, (free - start).unit()?);
        let sizes = [(end - start).length(), (free - start).length()];
        for (fitting, number) in self.fittings().zip(1_u8..) {
            if fitting.face() != wall {
                continue;
            }
            let from = fitting.centre - start;
            let at = [along.dot(from), across.dot(from)];
            let off = [0, 1].map(|axis: usize| {
                let (at, size) = (at.get(axis).copied(), sizes.get(axis).copied());
                let (at, size) = (at.unwrap_or(0.0), size.unwrap_or(0.0));
                libm::fmax(libm::fmax(-at, at - size), 0.0)
            });
            if libm::hypot(off[0], off[1]) < 0.5 * fitting.hole().si() {
                return Some((wall, number));
            }
        }
        None
    }
}
