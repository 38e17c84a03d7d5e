//! Seams: where two panels meet and what joins them there.

mod division;
mod tack;

pub use division::Division;
pub use tack::{TACK_LENGTH, TACK_PITCH, Tacks};

use core::fmt;

use crate::blank::{Groups, Meeting, PanelMark, PanelPlan};
use crate::body::{Edge, MAX_EDGES, Path};
use crate::geom::Vector;
use crate::input::limits::{MAX_BAFFLES, MAX_FACES, MAX_FITTINGS};
use crate::input::{Face, Joint};
use crate::units::{Angle, Length};

/// The mark of a seam: the letters of the two panels that it joins, and a number where they meet more
/// than once.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct SeamMark {
    /// The two panels; the same twice where a panel is closed on itself, or bent.
    pub panels: [PanelMark; 2],
    /// Which of the edges between the two, counted from 1; 0 for the only one.
    pub number: u8,
}

impl fmt::Display for SeamMark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [a, b] = self.panels;
        write!(f, "{a}{b}")?;
        if self.number > 0 {
            write!(f, ".{}", self.number)?;
        }
        Ok(())
    }
}

/// One seam, or one fold.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Seam {
    /// Its mark.
    pub mark: SeamMark,
    /// The edge of the outside body that it follows; a face twice where a wall is closed on itself. The
    /// first one's panel runs through where the joint has one that does.
    pub faces: [Face; 2],
    /// Start and end, in metres from the outside corner of the tank; the same point for a circle.
    pub ends: [Vector; 2],
    /// How the panels are welded; `None` for a fold, and for an edge of a baffle that is left free.
    pub joint: Option<Joint>,
    /// Its length, along the outside edge.
    pub length: Length,
    /// The inside angle between the panels.
    pub dihedral: Angle,
    /// Whether it is welded (and not folded).
    pub welded: bool,
    /// The thinner of the two sheets.
    pub thinner: Length,
    /// The thicker of the two sheets.
    pub thicker: Length,
}

impl Seam {
    /// The words for how the edge is held together.
    #[must_use]
    pub const fn joint_name(&self) -> &'static str {
        match (self.joint, self.faces) {
            (Some(joint), _) => joint.name(),
            (None, [_, Face::Baffle(_)]) => "free edge",
            (None, _) => "fold",
        }
    }
}

/// Seams that a tank may have: its edges, the line that closes a wrapper, those of baffles and of fittings.
pub const MAX_SEAMS: usize = MAX_EDGES + 1 + MAX_BAFFLES * MAX_FACES + MAX_FITTINGS;

/// How many seams and folds the body has.
pub(crate) fn count(plan: &PanelPlan<'_>, groups: &Groups) -> usize {
    plan.body.outside.edge_count() + usize::from(groups.parted().is_some())
}

/// The way that a seam runs: its own edge, or the line along which a wrapper is closed.
pub(crate) fn edge_of(plan: &PanelPlan<'_>, groups: &Groups, place: usize) -> Option<Edge> {
    if let Some(edge) = plan.body.outside.edge_at(place) {
        return Some(edge);
    }
    let beyond = place - plan.body.outside.edge_count();
    if beyond > 0 {
        return None;
    }
    closing(plan, groups)
}

/// The line along which a wrapper that folds all the way round is closed.
fn closing(plan: &PanelPlan<'_>, groups: &Groups) -> Option<Edge> {
    let (face, ends) = plan.closing_line(groups)?;
    Some(Edge {
        faces: [face, face],
        ends,
        dihedral: Angle::from_radians(core::f64::consts::PI),
        path: Path::Straight,
        radius: Length::default(),
    })
}

impl<'a> PanelPlan<'a> {
    /// The seams and folds of the body, one for each outside edge and in the same order; the line along
    /// which a wrapper is closed comes last.
    pub fn seams(self) -> impl Iterator<Item = Seam> + use<'a> {
        let groups = self.groups();
        let edges = self.body.outside.edge_count();
        let all = edges + usize::from(groups.parted().is_some());
        (0..all).filter_map(move |place| {
            let edge = edge_of(&self, &groups, place)?;
            Some(self.seam(&groups, place, &edge))
        })
    }

    /// The seam or fold at a place, whose edge this is.
    pub(crate) fn seam(&self, groups: &Groups, place: usize, edge: &Edge) -> Seam {
        let meeting = if edge.faces[0] == edge.faces[1] && edge.faces[0] != Face::Shell {
            Meeting::Welded {
                joint: Joint::Butt,
                swapped: false,
            }
        } else {
            self.joints.at(edge)
        };
        let [first, second] = edge.faces;
        let (joint, faces) = match meeting {
            Meeting::Folded => (None, [first, second]),
            Meeting::Welded { joint, swapped } => (
                Some(joint),
                if swapped {
                    [second, first]
                } else {
                    [first, second]
                },
            ),
        };
        let [a, b] = edge.faces.map(|face| self.sheet.of(face).si());
        Seam {
            mark: self.mark(groups, place),
            faces,
            ends: edge.ends,
            joint,
            length: edge.length(),
            dihedral: edge.dihedral,
            welded: joint.is_some(),
            thinner: Length::from_metres(libm::fmin(a, b)),
            thicker: Length::from_metres(libm::fmax(a, b)),
        }
    }

    /// The two panels at a place in the list of seams, the earlier mark first.
    fn panels_at(&self, groups: &Groups, place: usize) -> Option<[u8; 2]> {
        let faces = match self.body.outside.faces_of_edge(place) {
            Some(faces) => faces,
            None => [groups.parted()?.face; 2],
        };
        let [a, b] = faces.map(|face| groups.panel_of(usize::from(face)).unwrap_or(0));
        Some([a.min(b), a.max(b)])
    }

    fn mark(&self, groups: &Groups, place: usize) -> SeamMark {
        let own = self.panels_at(groups, place).unwrap_or_default();
        let all = self.body.outside.edge_count() + usize::from(groups.parted().is_some());
        let alike = |range: core::ops::Range<usize>| {
            let count = range
                .filter(|other| self.panels_at(groups, *other) == Some(own))
                .count();
            u8::try_from(count).unwrap_or(u8::MAX)
        };
        let number = if alike(0..all) > 1 {
            alike(0..place).saturating_add(1)
        } else {
            0
        };
        SeamMark {
            panels: own.map(PanelMark::at),
            number,
        }
    }
}
