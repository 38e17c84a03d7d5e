//! Marking out: what is scribed on each panel, from one datum corner.
//!
//! All places are in metres on the panel's blank as it is cut, seen from outside: x from the leftmost of its
//! edges, y from its lowest, so that both are measured with a square from the lower left corner of the sheet
//! that it is cut from.
//!
//! - [`Marker`] gives the holes, the bend lines with both tangent lines, the lines on which baffles stand, the
//!   quarter lines of what is round, and the first end of each seam.
//! - [`BendOrder`]: in which order the bends are made, and whether each can be reached.

mod order;
mod spots;

pub use order::{BendOrder, BendStep};
pub use spots::{FirstEnd, HoleUse, MarkedBend, MarkedHole, Scribe, ScribeUse, SeamStart};

use crate::blank::{Allowance, CutBlank, Panel, PanelPlan};
use crate::tank::Tank;

/// What is marked on one panel.
#[derive(Clone, Copy, Debug)]
pub struct Marker<'a> {
    pub(in crate::marking) tank: &'a Tank,
    pub(in crate::marking) plan: PanelPlan<'a>,
    pub(in crate::marking) panel: &'a Panel,
    pub(in crate::marking) blank: &'a CutBlank,
}

impl Tank {
    /// What is marked on a panel whose blank, with some edges cut larger, is `blank`.
    #[must_use]
    pub const fn marker<'a>(
        &'a self,
        larger: &'a [Allowance],
        panel: &'a Panel,
        blank: &'a CutBlank,
    ) -> Marker<'a> {
        Marker {
            tank: self,
            plan: self.plan_larger(larger),
            panel,
            blank,
        }
    }
}
