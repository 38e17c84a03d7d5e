//! What each edge of the body takes from the two panels that meet there.
//!
//! A panel is first thought of as running to the sharp edges of the tank's outside. At a welded edge the
//! [`joint`](super::joint) says by how much it falls short, at a folded one the setback of the
//! [`bend`](super::bend).

use core::f64::consts::PI;

use super::bend::{Bend, BendFace, MOST_SETBACK_TURN};
use super::error::BlankError;
use super::joint::{EdgeFit, JointError, Meeting, SheetCorner};
use super::plan::PanelPlan;
use crate::body::Edge;
use crate::input::{Face, Joint};
use crate::units::{Angle, Length};

/// What an edge takes from one of its two faces.
#[derive(Clone, Copy)]
pub(super) struct Taken {
    /// How far the flat piece of the face falls short of the sharp outside edge, in metres; below zero
    /// where it runs past.
    pub(super) deduct: f64,
    /// The face beyond the bend; `None` where the edge is welded.
    pub(super) beyond: Option<Face>,
    /// How far in from the edge the bend line of a flange lies; zero where there is none.
    pub(super) flange: Length,
}

/// What an edge takes from `face`.
pub(super) fn taken_at(plan: &PanelPlan<'_>, face: Face, edge: &Edge) -> Result<Taken, BlankError> {
    let [first, second] = edge.faces;
    match plan.joints.at(edge) {
        Meeting::Folded => Ok(Taken {
            deduct: setback(&bend_at(plan, edge)?, edge),
            beyond: Some(if first == face { second } else { first }),
            flange: Length::default(),
        }),
        Meeting::Welded { .. } => {
            let fit = fit_at(plan, face, edge)?;
            Ok(Taken {
                deduct: fit.deduct.si(),
                beyond: None,
                flange: fit.flange,
            })
        }
    }
}

/// A flange of a flanged lap: what is bent over to lie on the panel that runs through.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tab {
    /// Its bend.
    pub(super) bend: Bend,
    /// From the corner of its outer faces to its free edge, in metres.
    pub(super) lap: f64,
    /// In the flat, from the line of that corner to its free edge, in metres.
    pub(super) reach: f64,
    /// From the line of that corner back to where the bend begins, in metres.
    pub(super) setback: f64,
    /// How far a plain edge beside it falls short of the sharp outside edge, in metres: at a sharp corner its
    /// inner arris comes first to the panel that runs through.
    pub(super) short: f64,
    /// How far that is behind the line of the corner, in metres.
    pub(super) inset: f64,
    /// Whether it is bent towards someone who looks at the outside.
    pub(super) towards: bool,
}

impl Tab {
    /// In the flat, from a plain edge back to where the bend begins, in metres.
    pub(super) fn deep(&self) -> f64 {
        self.setback - self.inset
    }

    /// In the flat, from a plain edge to its free edge, in metres.
    pub(super) fn out(&self) -> f64 {
        self.reach + self.inset
    }
}

/// The flange with which `face` ends at an edge; `None` where it ends in none.
pub(super) fn tab_at(
    plan: &PanelPlan<'_>,
    face: Face,
    edge: &Edge,
) -> Result<Option<Tab>, BlankError> {
    let fit = fit_at(plan, face, edge)?;
    if !(fit.flange.si() > 0.0) {
        return Ok(None);
    }
    let allow = plan.joints.allow();
    let turn = Angle::from_radians(libm::fabs(PI - edge.dihedral.si()));
    let error = |error| BlankError::Bend {
        faces: edge.faces,
        error,
    };
    let bend =
        Bend::new(plan.sheet.of(face), allow.bend_radius, turn, allow.rule).map_err(error)?;
    let setback = bend.setback_on(BendFace::Outer).si();
    let more = plan.larger_at(edge.faces);
    let lap = allow.lap.si() + more;
    let reach = lap - 2.0 * setback + bend.allowance().si();
    let (sine, cosine) = libm::sincos(edge.dihedral.si());
    let inset = libm::fmax(0.0, bend.thickness().si() * cosine / libm::fabs(sine));
    Ok(Some(Tab {
        bend,
        lap,
        reach,
        setback,
        short: fit.deduct.si() + reach + inset,
        inset,
        towards: is_towards(edge),
    }))
}

/// Whether a fold turns towards someone who looks at the tank from outside: at an inside corner of the
/// body.
pub(super) fn is_towards(edge: &Edge) -> bool {
    edge.dihedral.si() > PI
}

/// How far from the sharp outside edge the bend begins, in metres. Panels are drawn by the outside of the
/// tank, which is the inner face of a bend that turns towards the looker.
fn setback(bend: &Bend, edge: &Edge) -> f64 {
    let drawn = if is_towards(edge) {
        BendFace::Inner
    } else {
        BendFace::Outer
    };
    bend.setback_on(drawn).si()
}

/// The bend at a folded edge.
pub(super) fn bend_at(plan: &PanelPlan<'_>, edge: &Edge) -> Result<Bend, BlankError> {
    let [first, second] = edge.faces;
    let thickness = plan.sheet.of(first);
    let turn = Angle::from_radians(libm::fabs(PI - edge.dihedral.si()));
    let allow = plan.joints.allow();
    let radius = if edge.radius.si() > 0.0 {
        // A rounded corner has its radius outside; what is inside of the bend is the smaller one.
        if is_towards(edge) {
            edge.radius
        } else {
            Length::from_metres(libm::fmax(0.0, edge.radius.si() - thickness.si()))
        }
    } else {
        allow.bend_radius
    };
    Bend::new(thickness, radius, turn, allow.rule).map_err(|error| BlankError::Bend {
        faces: [first, second],
        error,
    })
}

/// What a welded edge's joint leaves of the panel that makes `face`.
pub(super) fn fit_at(plan: &PanelPlan<'_>, face: Face, edge: &Edge) -> Result<EdgeFit, BlankError> {
    let Meeting::Welded { joint, swapped } = plan.joints.at(edge) else {
        return Ok(EdgeFit::default());
    };
    let [first, second] = edge.faces;
    let (through, gives_way) = if swapped {
        (second, first)
    } else {
        (first, second)
    };
    let corner = SheetCorner {
        dihedral: edge.dihedral,
        sheets: [through, gives_way].map(|face| plan.sheet.of(face)),
    };
    let fit = joint
        .fit(corner, plan.joints.allow())
        .map_err(|error| BlankError::Joint {
            faces: edge.faces,
            error,
        })?;
    let [one, other] = fit.sides;
    let mut own = if face == through { one } else { other };
    own.deduct = Length::from_metres(own.deduct.si() - plan.larger_at(edge.faces));
    Ok(own)
}

impl PanelPlan<'_> {
    /// What the joint at a welded edge leaves of the panel that makes `face`; nothing is given up at a
    /// fold, or where the joint cannot be made.
    #[must_use]
    pub fn edge_fit(&self, face: Face, edge: &Edge) -> EdgeFit {
        fit_at(self, face, edge).unwrap_or_default()
    }

    /// The bend at a folded edge.
    pub(crate) fn bend(&self, edge: &Edge) -> Result<Bend, BlankError> {
        bend_at(self, edge)
    }

    /// How far from the sharp outside edge a fold's bend begins, in metres; nothing for a bend that
    /// cannot be made.
    pub(crate) fn setback(&self, edge: &Edge) -> f64 {
        bend_at(self, edge).map_or(0.0, |bend| setback(&bend, edge))
    }

    /// Whether the joint or the bend at an edge can be made.
    ///
    /// # Errors
    /// [`BlankError`] says why not.
    pub fn check(&self, edge: &Edge) -> Result<(), BlankError> {
        match self.joints.at(edge) {
            Meeting::Folded => {
                let bend = bend_at(self, edge)?;
                if bend.turn() < MOST_SETBACK_TURN {
                    return Ok(());
                }
                Err(BlankError::Sharp {
                    faces: edge.faces,
                    turn: bend.turn(),
                    most: MOST_SETBACK_TURN,
                })
            }
            Meeting::Welded {
                joint: Joint::FlangedLap,
                ..
            } if edge.faces.contains(&Face::Shell) => Err(BlankError::Joint {
                faces: edge.faces,
                error: JointError::Round,
            }),
            Meeting::Welded { .. } => fit_at(self, edge.faces[0], edge).map(|_| ()),
        }
    }
}
