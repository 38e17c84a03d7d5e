//! Fittings: where they sit, the holes and seams that they need, and the room that they take.

use core::f64::consts::PI;

use super::PlaceError;
use crate::blank::{Axes, Meeting, PanelPlan};
use crate::body::turned::{Head, Turned};
use crate::body::{ArcPath, Edge, Path};
use crate::geom::Vector;
use crate::input::{Face, FittingDraft};
use crate::units::{Angle, Length};

/// A hole's edge should stay this many thicknesses, and at least 10 mm, from a seam: common practice,
/// no source.
pub const MIN_TO_SEAM: (f64, Length) = (3.0, Length::from_metres(0.010));
/// A hole's edge should stay this many thicknesses and the bend radius from the inside of a bend:
/// common practice, no source.
pub const MIN_TO_BEND: f64 = 2.5;
/// Holes should stay this many thicknesses apart: common practice, no source.
pub const MIN_TO_HOLE: f64 = 2.0;

/// The wall of a fitting where only its bore is given: common practice, no source.
pub(super) const USUAL_WALL: Length = Length::from_metres(0.003);

/// What a hole comes near to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Near {
    /// The seam with this face.
    Seam(Face),
    /// The bend to this face.
    Bend(Face),
    /// Another fitting, counted from 1.
    Hole(u8),
}

/// How near a hole comes to something, and how near it should.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clearance {
    /// To what.
    pub to: Near,
    /// From the hole's edge; measured to the inside of a bend.
    pub distance: Length,
    /// What it should be at least.
    pub least: Length,
}

/// A fitting where it sits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fitting<'a> {
    draft: &'a FittingDraft,
    /// Its centre on the outside of the sheet.
    pub centre: Vector,
    /// Unit direction into the tank.
    pub inward: Vector,
    /// Thickness of the sheet that it is set into.
    pub sheet: Length,
    outer: f64,
}

/// What of a fitting stands within the tank: a tube.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Stub {
    pub(super) start: Vector,
    pub(super) inward: Vector,
    pub(super) length: f64,
    pub(super) outer: f64,
    pub(super) bore: f64,
}

impl Stub {
    pub(super) fn displaced(&self) -> f64 {
        0.25 * PI * (self.outer * self.outer - self.bore * self.bore) * self.length
    }

    pub(super) fn below(&self, up: Vector, level: f64) -> f64 {
        let along = up.dot(self.inward);
        let across = (up - self.inward * along).length();
        let own = level - up.dot(self.start);
        let reach = 0.5 * self.outer * across;
        let (one, other) = (0.0, along * self.length);
        // Mostly the level passes clear of a fitting; then nothing needs to be worked out.
        if own <= libm::fmin(one, other) - reach {
            return 0.0;
        }
        if own >= libm::fmax(one, other) + reach {
            return self.displaced();
        }
        let part = |diameter: f64| {
            Turned::new(0.5 * diameter, self.length, [Head::Flat; 2])
                .map_or(0.0, |tube| tube.below(along, across, own).0)
        };
        let bore = if self.bore > 0.0 {
            part(self.bore)
        } else {
            0.0
        };
        part(self.outer) - bore
    }
}

impl<'a> Fitting<'a> {
    /// Finds where a fitting sits; whether it has room there is [`Fitting::check_room`]'s.
    ///
    /// # Errors
    /// [`PlaceError`] where it does not fit there.
    pub(crate) fn place(plan: &PanelPlan<'_>, draft: &'a FittingDraft) -> Result<Self, PlaceError> {
        let outer = match draft.outer {
            Some(outer) => outer.si(),
            None if draft.bore.si() > 0.0 => draft.bore.si() + 2.0 * USUAL_WALL.si(),
            None => return Err(PlaceError::NoOuter),
        };
        let (centre, inward) = seat(plan, draft)?;
        Ok(Self {
            draft,
            centre,
            inward,
            sheet: plan.sheet.of(draft.face),
            outer,
        })
    }

    /// Looks whether its hole lies within its face.
    ///
    /// # Errors
    /// [`PlaceError`] where it runs over an edge, or into a bend.
    pub(crate) fn check_face(&self, plan: &PanelPlan<'_>) -> Result<(), PlaceError> {
        let off = |distance: f64| {
            if distance < 0.0 {
                return Err(PlaceError::OffFace {
                    face: self.draft.face,
                    by: Length::from_metres(-distance),
                });
            }
            Ok(())
        };
        self.each_side(plan, |_, distance| off(distance))?;
        // Round corners: of a corner that bulges the middle lies on the face.
        let radius = 0.5 * self.outer;
        let Some(view) = plan.body.outside.face(self.draft.face) else {
            return Ok(());
        };
        for (_, edge) in view.sides() {
            let Some(Path::Rounded(turns)) = edge.map(|edge| edge.path) else {
                continue;
            };
            for turn in turns.into_iter().flatten() {
                let from = self.centre - turn.centre;
                let angle = libm::atan2(from.dot(turn.towards), from.dot(turn.from));
                if !(angle >= 0.0 && angle <= turn.sweep) {
                    continue;
                }
                let within = turn.radius - from.length();
                let sense = if view.is_over(turn.centre) { 1.0 } else { -1.0 };
                off(sense * within - radius)?;
            }
        }
        Ok(())
    }

    /// The first of some fittings that its hole runs into, counted from 1.
    pub(crate) fn runs_into<'d>(
        &self,
        plan: &PanelPlan<'_>,
        others: impl Iterator<Item = &'d FittingDraft>,
    ) -> Option<u8> {
        for (other, number) in others.zip(1_u8..) {
            if other.face != self.draft.face {
                continue;
            }
            let Ok(other) = Fitting::place(plan, other) else {
                continue;
            };
            if (other.centre - self.centre).length() < 0.5 * (self.outer + other.outer) {
                return Some(number);
            }
        }
        None
    }

    /// What it is called.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.draft.name
    }

    /// The wall that it is set into.
    #[must_use]
    pub const fn face(&self) -> Face {
        self.draft.face
    }

    /// Across the hole.
    #[must_use]
    pub const fn hole(&self) -> Length {
        Length::from_metres(self.outer)
    }

    /// Across its passage.
    #[must_use]
    pub const fn bore(&self) -> Length {
        self.draft.bore
    }

    /// How far it stands in from the inner face of the sheet.
    #[must_use]
    pub const fn stand_in(&self) -> Length {
        self.draft.stand_in
    }

    /// Where its centre is given to be: to the right and up on its face.
    #[must_use]
    pub const fn at(&self) -> [Length; 2] {
        self.draft.at
    }

    /// What of it stands within the tank.
    pub(crate) fn stub(&self) -> Option<Stub> {
        let length = self.draft.stand_in.si();
        (length > 0.0).then(|| Stub {
            start: self.centre + self.inward * self.sheet.si(),
            inward: self.inward,
            length,
            outer: self.outer,
            bore: self.draft.bore.si(),
        })
    }

    /// The seam round it, as an edge between its wall and itself, its number counted from 1.
    pub(crate) fn edge(&self, number: u8) -> Edge {
        // Any direction across will do to start from: to the right where the wall has one.
        let reference = if libm::fabs(self.inward.z) > 0.9 {
            Vector::new(1.0, 0.0, 0.0)
        } else {
            Vector::new(0.0, 0.0, 1.0)
        };
        let from = (reference - self.inward * self.inward.dot(reference))
            .unit()
            .unwrap_or(reference);
        let turn = ArcPath {
            centre: self.centre,
            from,
            towards: from.cross(self.inward),
            radius: 0.5 * self.outer,
            sweep: 2.0 * PI,
        };
        Edge {
            faces: [self.draft.face, Face::Fitting(number)],
            ends: [turn.at(0.0); 2],
            dihedral: Angle::from_radians(0.5 * PI),
            path: Path::Round(turn),
            radius: Length::default(),
        }
    }

    /// Calls `see` with each edge of its wall and how far the hole's edge stays inside of it: of the
    /// outside edge of a seam, of the line where a bend begins.
    pub(super) fn each_side<E>(
        &self,
        plan: &PanelPlan<'_>,
        mut see: impl FnMut(&Edge, f64) -> Result<(), E>,
    ) -> Result<(), E> {
        let radius = 0.5 * self.outer;
        let Some(view) = plan.body.outside.face(self.draft.face) else {
            return Ok(());
        };
        let off_edge = |edge: &Edge| {
            let [a, b] = edge.straight();
            let length = (b - a).length();
            let along = (b - a).unit()?;
            let run = along.dot(self.centre - a);
            let foot = a + along * libm::fmin(libm::fmax(run, 0.0), length);
            Some((self.centre - foot).length())
        };
        // Off the face, beside a corner too, a hole is past its nearest edge: that tells by how much.
        let past = if view.is_over(self.centre) {
            None
        } else {
            let all = view.sides().filter_map(|(_, edge)| off_edge(&edge?));
            all.reduce(libm::fmin)
        };
        for (_, edge) in view.sides() {
            let Some(edge) = edge else { continue };
            let Some(off) = off_edge(&edge) else { continue };
            let away = past.map_or(off, |past| -past);
            let bend = match plan.joints.at(&edge) {
                Meeting::Folded => plan.setback(&edge),
                Meeting::Welded { .. } => 0.0,
            };
            see(&edge, away - radius - bend)?;
        }
        if let Some(edge) = plan.body.outside.edges().find(|edge| {
            matches!(edge.path, Path::Round(_)) && edge.faces.contains(&self.draft.face)
        }) && let Path::Round(turn) = edge.path
        {
            let axis = turn.from.cross(turn.towards);
            if self.draft.face == Face::Shell {
                for edge in plan.body.outside.edges() {
                    if let Path::Round(turn) = edge.path {
                        let apart = libm::fabs(axis.dot(self.centre - turn.centre));
                        see(&edge, apart - radius)?;
                    }
                }
            } else {
                let off = self.centre - turn.centre;
                let across = (off - axis * axis.dot(off)).length();
                see(&edge, turn.radius - across - radius)?;
            }
        }
        Ok(())
    }

    /// Calls `show` for everything on its wall that its hole comes nearer to than it should.
    pub(crate) fn each_close(
        &self,
        plan: &PanelPlan<'_>,
        others: impl Iterator<Item = (u8, &'a FittingDraft)>,
        mut show: impl FnMut(Clearance),
    ) {
        let sheet = self.sheet.si();
        let face = self.draft.face;
        let _: Result<(), ()> = self.each_side(plan, |edge, distance| {
            let [a, b] = edge.faces;
            let other = if a == face { b } else { a };
            let (to, distance, least) = match plan.joints.at(edge) {
                Meeting::Folded => {
                    // To the inside of the bend: past where it begins by what it is set back, less
                    // the sheet.
                    let inside = distance + plan.setback(edge) - sheet;
                    let radius = if edge.radius.si() > 0.0 {
                        libm::fmax(0.0, edge.radius.si() - sheet)
                    } else {
                        plan.joints.allow().bend_radius.si()
                    };
                    (Near::Bend(other), inside, MIN_TO_BEND * sheet + radius)
                }
                Meeting::Welded { .. } => {
                    let (times, least) = MIN_TO_SEAM;
                    (
                        Near::Seam(other),
                        distance,
                        libm::fmax(times * sheet, least.si()),
                    )
                }
            };
            if distance < least {
                show(Clearance {
                    to,
                    distance: Length::from_metres(distance),
                    least: Length::from_metres(least),
                });
            }
            Ok(())
        });
        for (number, other) in others {
            if other.face != face {
                continue;
            }
            let Ok(other) = Fitting::place(plan, other) else {
                continue;
            };
            let apart = (other.centre - self.centre).length() - 0.5 * (self.outer + other.outer);
            let least = MIN_TO_HOLE * sheet;
            if apart < least {
                show(Clearance {
                    to: Near::Hole(number),
                    distance: Length::from_metres(apart),
                    least: Length::from_metres(least),
                });
            }
        }
    }
}

/// Where a fitting's centre is on the outside, and which way is in.
fn seat(plan: &PanelPlan<'_>, draft: &FittingDraft) -> Result<(Vector, Vector), PlaceError> {
    let outside = &plan.body.outside;
    let [right, up] = draft.at.map(Length::si);
    let off = PlaceError::OffFace {
        face: draft.face,
        by: Length::default(),
    };
    let view = outside.face(draft.face).ok_or(off)?;
    let rim = outside
        .edges()
        .find(|edge| matches!(edge.path, Path::Round(_)) && edge.faces.contains(&draft.face));
    let Some(Path::Round(turn)) = rim.map(|edge| edge.path) else {
        let axes = Axes::of(view.normal(), view.outline());
        return Ok((axes.lift([right, up]), -view.normal()));
    };
    let axis = turn.from.cross(turn.towards);
    if draft.face == Face::Shell {
        let angle = up / turn.radius;
        let out = (turn.at(angle) - turn.centre) * (1.0 / turn.radius);
        return Ok((turn.at(angle) + axis * right, -out));
    }
    let normal = view.normal();
    let axes = Axes::of(normal, core::iter::once(turn.centre));
    let middle = [right - turn.radius, up - turn.radius];
    let flat = turn.centre + axes.right * middle[0] + axes.up * middle[1];
    if view.is_flat() {
        return Ok((flat, -normal));
    }
    let by = libm::hypot(middle[0], middle[1]);
    // Written in millimetres, a centre is met to a tenth of one.
    if by > 1e-4 {
        return Err(PlaceError::OffCentre {
            face: draft.face,
            by: Length::from_metres(by),
            centre: Length::from_metres(turn.radius),
        });
    }
    let (_, high) = outside.extent(normal);
    Ok((
        turn.centre + normal * (high - normal.dot(turn.centre)),
        -normal,
    ))
}
