//! Which edges are welded and how, which are folded.

use heapless::Vec;

use super::super::bend::BendRule;
use super::fit::{Allow, FLAT_WITHIN};
use crate::body::Edge;
use crate::input::limits::{MAX_FOLDS, MAX_OWN_JOINTS};
use crate::input::{Face, Joint, OwnJoint};
use crate::units::{Length, Ratio};

/// How the two faces of an edge are held together.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Meeting {
    /// Welded.
    Welded {
        /// How.
        joint: Joint,
        /// Whether the second face of the edge is the one that runs through.
        swapped: bool,
    },
    /// One sheet, bent.
    Folded,
}

/// The joints of a tank.
#[derive(Clone, Debug, PartialEq)]
pub struct Joints {
    pub(crate) default: Joint,
    pub(crate) own: Vec<OwnJoint, MAX_OWN_JOINTS>,
    pub(crate) folds: Vec<[Face; 2], MAX_FOLDS>,
    pub(crate) allow: Allow,
}

/// Whether two pairs of faces are the same edge.
pub(crate) fn is_same_edge(a: [Face; 2], b: [Face; 2]) -> bool {
    let [first, second] = b;
    a == b || a == [second, first]
}

impl Joints {
    /// A place for joints that are about to be checked.
    pub(crate) const EMPTY: Self = Self {
        default: Joint::OpenCorner,
        own: Vec::new(),
        folds: Vec::new(),
        allow: Allow {
            lap: Length::from_metres(0.0),
            gap: Length::from_metres(0.0),
            bend_radius: Length::from_metres(0.0),
            rule: BendRule::KFactor(Ratio::from_share(0.0)),
        },
    };

    /// One joint for every edge: no gap, nothing folded. A lap reaches 10 mm, a flange is bent at 2 mm.
    #[must_use]
    pub const fn of(joint: Joint) -> Self {
        Self {
            default: joint,
            allow: Allow {
                lap: Length::from_metres(0.010),
                gap: Length::from_metres(0.0),
                bend_radius: Length::from_metres(0.002),
                rule: BendRule::Din6935,
            },
            own: Vec::new(),
            folds: Vec::new(),
        }
    }

    /// What all joints have in common.
    #[must_use]
    pub const fn allow(&self) -> &Allow {
        &self.allow
    }

    /// The edges folded because the maker says so.
    #[must_use]
    pub fn folds(&self) -> &[[Face; 2]] {
        &self.folds
    }

    /// The edges with a joint of their own.
    #[must_use]
    pub fn own(&self) -> &[OwnJoint] {
        &self.own
    }

    /// How the faces of an edge are held together. Rounded corners are folds; panels in one plane are
    /// butted unless something else is asked for.
    #[must_use]
    pub fn at(&self, edge: &Edge) -> Meeting {
        if edge.radius.si() > 0.0
            || self
                .folds
                .iter()
                .any(|fold| is_same_edge(*fold, edge.faces))
        {
            return Meeting::Folded;
        }
        if let Some(own) = self
            .own
            .iter()
            .find(|own| is_same_edge(own.faces, edge.faces))
        {
            return Meeting::Welded {
                joint: own.joint,
                swapped: own.faces != edge.faces,
            };
        }
        let flat = libm::fabs(edge.dihedral.si() - core::f64::consts::PI) <= FLAT_WITHIN.si();
        let joint = match (flat, self.default.is_flat()) {
            (true, false) => Joint::Butt,
            _ => self.default,
        };
        let [first, second] = edge.faces;
        Meeting::Welded {
            joint,
            // A shop flanges the flat end plate, not the wrapper that is bent round it.
            swapped: joint == Joint::FlangedLap && self.wraps(second) && !self.wraps(first),
        }
    }

    /// Whether a face is bent round the ends of the tank: a side of a profile, or one that is folded.
    fn wraps(&self, face: Face) -> bool {
        matches!(face, Face::Side(_)) || self.folds.iter().any(|fold| fold.contains(&face))
    }
}
