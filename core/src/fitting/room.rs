//! Whether a fitting has the room that it takes: no closing seam and no flange under its hole, no wall, baffle
//! or other tube in the way of what stands in.
//!
//! Walls are met by trying points of the tube: its rim in 64 places, at 64 places along it. A wall that it
//! cuts by less than a thousandth of its radius may go unseen.

use core::f64::consts::PI;

use super::error::RoomError;
use super::set_in::{Clearance, Fitting, MIN_TO_SEAM, Near, Stub};
use super::{Baffle, Inner};
use crate::blank::{Axes, PanelPlan};
use crate::body::Solid;
use crate::geom::Vector;
use crate::input::Face;
use crate::units::Length;

/// Places round a tube that are tried.
const ROUND: u32 = 64;
/// Places along it.
const ALONG: u32 = 64;
/// A tube may touch what it stands against by this much, in metres: what is left of rounding.
const TOUCH: f64 = 1e-9;
/// Halvings on the way to how far a tube may stand in: past a nanometre in 20 m.
const HALVINGS: u32 = 36;

/// The box about a face in which places on it are counted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FaceBox {
    /// How far it reaches to the right and up; of a drum's wall, along its axis and all the way round.
    pub size: [Length; 2],
    /// Which way right and up are, along the axes of the tank that they follow most.
    pub ways: [&'static str; 2],
}

/// The axis of the tank that a direction follows most, with its sense.
fn way(direction: Vector) -> &'static str {
    let Vector { x, y, z } = direction;
    let [across, back, up] = [x, y, z].map(libm::fabs);
    let (at, [plus, minus]) = if across >= back && across >= up {
        (x, ["+x", "-x"])
    } else if back >= up {
        (y, ["+y", "-y"])
    } else {
        (z, ["+z", "-z"])
    };
    if at < 0.0 { minus } else { plus }
}

impl FaceBox {
    /// The box about a face of a body's outside; `None` where the body has no such face.
    #[must_use]
    pub fn of(outside: &Solid, face: Face) -> Option<Self> {
        let view = outside.face(face)?;
        if let Some((turned, _, axis)) = outside.turned() {
            let round = 2.0 * turned.radius();
            let across = Axes::of(view.normal(), core::iter::once(Vector::ZERO));
            return Some(if face == Face::Shell {
                Self {
                    size: [turned.length(), PI * round].map(Length::from_metres),
                    ways: [way(axis.along()), "round from the closing seam"],
                }
            } else {
                Self {
                    size: [Length::from_metres(round); 2],
                    ways: [way(across.right), way(across.up)],
                }
            });
        }
        let axes = Axes::of_face(&view);
        let far = view.outline().map(|corner| axes.flat(corner));
        let [right, up] = far.fold([0.0_f64; 2], |[u, w], [x, y]| {
            [libm::fmax(u, x), libm::fmax(w, y)]
        });
        Some(Self {
            size: [right, up].map(Length::from_metres),
            ways: [way(axes.right), way(axes.up)],
        })
    }
}

impl Stub {
    /// Points of its skin: where they start at the wall, round it, the middle last.
    fn rim(&self) -> impl Iterator<Item = Vector> + use<> {
        let (start, inward, radius) = (self.start, self.inward, 0.5 * self.outer);
        let reference = if libm::fabs(inward.z) > 0.9 {
            Vector::new(1.0, 0.0, 0.0)
        } else {
            Vector::new(0.0, 0.0, 1.0)
        };
        let right = inward.cross(reference).unit().unwrap_or(reference);
        let up = inward.cross(right);
        (0..ROUND)
            .map(move |n| {
                let angle = 2.0 * PI * f64::from(n) / f64::from(ROUND);
                let (sine, cosine) = libm::sincos(angle);
                start + (right * cosine + up * sine) * radius
            })
            .chain(core::iter::once(start))
    }

    /// Points along it from one of its rim, from just past the wall to its end.
    fn along(&self, from: Vector) -> impl Iterator<Item = Vector> + use<> {
        let (inward, length) = (self.inward, self.length);
        (1..=ALONG).map(move |n| from + inward * (length * f64::from(n) / f64::from(ALONG) - TOUCH))
    }

    /// Points of its skin and its middle line.
    fn points(&self) -> impl Iterator<Item = Vector> + use<> {
        let own = *self;
        self.rim().flat_map(move |from| own.along(from))
    }

    /// Whether a point lies within its outer skin.
    pub(crate) fn holds(&self, point: Vector) -> bool {
        let from = point - self.start;
        let along = self.inward.dot(from);
        let out = (from - self.inward * along).length();
        along > 0.0 && along < self.length && out < 0.5 * self.outer - TOUCH
    }

    /// How far in it may be before it meets a wall, and which: `None` where it meets none.
    fn wall_in_the_way(&self, inside: &Solid, own: Face) -> Option<(Face, f64)> {
        // Under a round wall a tube's skin begins within the sheet; that is no wall in its way.
        let curved = inside.face(own).is_some_and(|view| !view.is_flat());
        let meets = |length: f64| {
            let tried = Self { length, ..*self };
            self.rim().find_map(|from| {
                let mut entered = !curved;
                tried.along(from).find(|point| {
                    let held = inside.holds(*point);
                    let left = entered && !held;
                    entered |= held;
                    left
                })
            })
        };
        let mut met = meets(self.length)?;
        let (mut free, mut past) = (0.0, self.length);
        for _ in 0..HALVINGS {
            let half = 0.5 * (free + past);
            match meets(half) {
                Some(point) => {
                    past = half;
                    met = point;
                }
                None => free = half,
            }
        }
        Some((wall_at(inside, met, own), free))
    }

    /// Whether it runs into the sheet of a baffle: not where it stands clear of it, or through a hole.
    fn meets(&self, baffle: &Baffle) -> bool {
        self.points().any(|point| baffle.is_metal(point))
            // A sheet is thin beside the steps along a tube: where a line of the skin goes through its middle.
            || self.rim().any(|from| {
                let way = baffle.axis();
                let (off, rate) = (baffle.at().si() - way.dot(from), way.dot(self.inward));
                let along = off / rate;
                along > 0.0
                    && along < self.length
                    && baffle.is_metal(from + self.inward * along)
            })
    }

    fn runs_into(&self, other: &Self) -> bool {
        self.points().any(|point| other.holds(point))
            || other.points().any(|point| self.holds(point))
    }
}

/// The wall that a point is nearest to, but for the one that a tube comes from.
fn wall_at(inside: &Solid, point: Vector, own: Face) -> Face {
    if let Some((turned, start, axis)) = inside.turned() {
        let along = axis.along().dot(point - start);
        let [near, far] = axis.heads();
        return if along < 0.0 {
            near
        } else if along > turned.length() {
            far
        } else {
            let out = (point - start - axis.along() * along).length();
            let ends = libm::fmin(along, turned.length() - along);
            if turned.radius() - out <= ends {
                Face::Shell
            } else if along < 0.5 * turned.length() {
                near
            } else {
                far
            }
        };
    }
    let mut nearest = own;
    let mut least = f64::INFINITY;
    for view in inside.faces() {
        let off = libm::fabs(view.plane().distance(point));
        if off < least && view.face() != own {
            least = off;
            nearest = view.face();
        }
    }
    nearest
}

impl Fitting<'_> {
    /// Looks whether it has the room that it takes, `before` standing within the tank of the fittings before
    /// it, with their numbers.
    ///
    /// # Errors
    /// [`RoomError`] names what is in the way.
    pub(crate) fn check_room(
        &self,
        plan: &PanelPlan<'_>,
        inner: &Inner,
        before: impl Iterator<Item = (u8, Stub)>,
    ) -> Result<(), RoomError> {
        if let Some(by) = self.over_closing(plan).filter(|by| *by > TOUCH) {
            return Err(RoomError::OnSeam {
                face: self.face(),
                by: Length::from_metres(by),
            });
        }
        self.check_flanges(plan)?;
        let Some(stub) = self.stub() else {
            return Ok(());
        };
        if let Some((wall, most)) = stub.wall_in_the_way(&plan.body.inside, self.face()) {
            return Err(RoomError::Through {
                wall,
                most: Length::from_metres(most),
            });
        }
        for (baffle, number) in inner.baffles().iter().zip(1_u8..) {
            if stub.meets(baffle) {
                return Err(RoomError::IntoBaffle { baffle: number });
            }
        }
        for (other, own) in before {
            if stub.runs_into(&own) {
                return Err(RoomError::IntoTube { other });
            }
        }
        Ok(())
    }

    /// How far its hole reaches over the line along which its wall is closed on itself, in metres; below zero
    /// where it stays clear of it. `None` of a wall without one.
    fn over_closing(&self, plan: &PanelPlan<'_>) -> Option<f64> {
        let outside = &plan.body.outside;
        let [a, b] = if self.face() == Face::Shell {
            let mut edges = outside.edges();
            edges.find(|edge| edge.faces == [Face::Shell; 2])?.ends
        } else {
            let (face, ends) = plan.closing_line(&plan.groups())?;
            if face != self.face() {
                return None;
            }
            ends
        };
        let along = (b - a).unit()?;
        let from = self.centre - a;
        let across = from - along * along.dot(from);
        let radius = 0.5 * self.hole().si();
        // The line lies on the same side of a drum as the hole, or the hole cannot reach it.
        let depth = across.dot(self.inward);
        let beside = (across - self.inward * depth).length();
        let far = plan
            .body
            .outside
            .turned()
            .map_or(f64::INFINITY, |(turned, ..)| turned.radius());
        (libm::fabs(depth) < far).then_some(radius - beside)
    }

    /// How near its hole comes to the line along which its wall is closed on itself, where that is nearer
    /// than it should.
    pub(crate) fn near_closing(&self, plan: &PanelPlan<'_>) -> Option<Clearance> {
        let (times, least) = MIN_TO_SEAM;
        let least = libm::fmax(times * self.sheet.si(), least.si());
        let distance = -self.over_closing(plan)?;
        (distance < least).then_some(Clearance {
            to: Near::Seam(self.face()),
            distance: Length::from_metres(distance),
            least: Length::from_metres(least),
        })
    }

    /// Looks whether its hole stays clear of flanges that lie on its wall, and of the bends of its wall's own.
    fn check_flanges(&self, plan: &PanelPlan<'_>) -> Result<(), RoomError> {
        let face = self.face();
        let lap = plan.joints.allow().lap.si();
        self.each_side(plan, |edge, distance| {
            let [a, b] = edge.faces;
            let other = if a == face { b } else { a };
            let under = plan.edge_fit(other, edge).flange.si() > 0.0;
            let own = plan.edge_fit(face, edge).flange.si() > 0.0;
            let reach = if under {
                lap
            } else if own {
                plan.setback(edge) + plan.sheet.of(other).si()
            } else {
                return Ok(());
            };
            if distance < reach - TOUCH {
                return Err(RoomError::OnFlange {
                    other,
                    by: Length::from_metres(reach - distance),
                });
            }
            Ok(())
        })
    }
}
