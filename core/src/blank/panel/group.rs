//! Which faces are one panel.

use super::super::joint::Meeting;
use super::super::plan::PanelPlan;
use crate::geom::Vector;
use crate::input::Face;
use crate::input::limits::MAX_FACES;

/// The panel of each face, and where a wrapper that folds all the way round is parted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Groups {
    panel: [u8; MAX_FACES],
    faces: u8,
    count: u8,
    parted: Option<u8>,
}

/// Where a wrapper that folds all the way round is parted: the middle of its longest side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Halves {
    /// The place of that side among the faces.
    pub face: u8,
}

const NONE: u8 = u8::MAX;

impl Groups {
    pub(super) fn of(plan: &PanelPlan<'_>) -> Self {
        let outside = &plan.body.outside;
        let faces = u8::try_from(outside.faces().len()).unwrap_or(0);
        // Each face starts as a group of its own; a fold makes the later group the earlier one.
        let mut root: [u8; MAX_FACES] = core::array::from_fn(|at| u8::try_from(at).unwrap_or(0));
        for (at, edge) in outside.sharp_edges_at() {
            if plan.joints.at(&edge) != Meeting::Folded {
                continue;
            }
            let of = |face: u8| root.get(usize::from(face)).copied().unwrap_or(face);
            let [a, b] = at.map(of);
            let (first, later) = (a.min(b), a.max(b));
            for slot in &mut root {
                if *slot == later {
                    *slot = first;
                }
            }
        }
        let mut panel = [NONE; MAX_FACES];
        let mut count = 0;
        for at in 0..faces {
            let of = root.get(usize::from(at)).copied().unwrap_or(at);
            let known = if of == at {
                count += 1;
                count - 1
            } else {
                panel.get(usize::from(of)).copied().unwrap_or(0)
            };
            if let Some(slot) = panel.get_mut(usize::from(at)) {
                *slot = known;
            }
        }
        let mut groups = Self {
            panel,
            faces,
            count,
            parted: None,
        };
        groups.parted = groups.find_parted(plan);
        groups
    }

    /// The longest side of a wrapper all of whose corners are folds.
    fn find_parted(&self, plan: &PanelPlan<'_>) -> Option<u8> {
        let outside = &plan.body.outside;
        let is_side = |face: Face| matches!(face, Face::Side(_));
        let sides = outside.faces().filter(|view| is_side(view.face())).count();
        let folded = outside
            .sharp_edges()
            .filter(|edge| {
                edge.faces.iter().all(|face| is_side(*face))
                    && plan.joints.at(edge) == Meeting::Folded
            })
            .count();
        if sides == 0 || folded < sides {
            return None;
        }
        let mut longest = None;
        let mut most = 0.0;
        for (view, at) in outside.faces().zip(0_u8..) {
            // By a margin, so that rounding does not choose between sides of one length.
            if is_side(view.face()) && view.area().si() > most * (1.0 + 1e-9) {
                most = view.area().si();
                longest = Some(at);
            }
        }
        longest
    }

    /// How many panels there are.
    #[must_use]
    pub const fn count(&self) -> u8 {
        self.count
    }

    /// The panel of the face at `place` among the body's faces.
    #[must_use]
    pub fn panel_of(&self, place: usize) -> Option<u8> {
        self.panel
            .get(place)
            .copied()
            .filter(|panel| *panel != NONE)
    }

    /// Where the wrapper is parted, if it folds all the way round.
    #[must_use]
    pub const fn parted(&self) -> Option<Halves> {
        match self.parted {
            Some(face) => Some(Halves { face }),
            None => None,
        }
    }

    /// Whether any fold lies within a panel.
    pub(in crate::blank) fn is_bent(&self, plan: &PanelPlan<'_>, panel: u8) -> bool {
        plan.body.outside.sharp_edges_at().any(|([a, b], edge)| {
            self.panel_of(usize::from(a)) == Some(panel)
                && self.panel_of(usize::from(b)) == Some(panel)
                && plan.joints.at(&edge) == Meeting::Folded
        })
    }
}

impl Halves {
    /// Whether the face at `place` is the one that is parted.
    #[must_use]
    pub(in crate::blank) const fn is(self, place: u8) -> bool {
        self.face == place
    }
}

impl PanelPlan<'_> {
    /// Which faces are one panel.
    #[must_use]
    pub fn groups(&self) -> Groups {
        Groups::of(self)
    }
}

impl PanelPlan<'_> {
    /// The side along whose middle a wrapper that folds all the way round is closed, and the ends of that
    /// line on the outside, front first.
    pub(crate) fn closing_line(&self, groups: &Groups) -> Option<(Face, [Vector; 2])> {
        let parted = groups.parted()?;
        let view = self.body.outside.faces().nth(usize::from(parted.face))?;
        let face = view.face();
        let middle = |other: Face| {
            let edge = self.body.outside.edge_between([other, face])?;
            let [a, b] = edge.straight();
            Some((a + b) * 0.5)
        };
        Some((face, [middle(Face::Front)?, middle(Face::Back)?]))
    }
}
