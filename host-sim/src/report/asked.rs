//! What a report is of.

use seamwright_core::build::BaffleEdge;
use seamwright_core::tank::{Assumed, Tank};
use seamwright_core::weld::{PlanError, WeldPlan};

use crate::job_file::Extras;

/// What is known of the weld plan: it, or why there is none.
pub type Known = Result<WeldPlan, PlanError>;

/// A tank and all that was said of it.
#[derive(Clone, Copy, Debug)]
pub struct Asked<'a> {
    /// The tank.
    pub tank: &'a Tank,
    /// What the job leaves to its default.
    pub assumed: &'a [Assumed],
    /// What the job says beyond the tank.
    pub extras: &'a Extras,
    /// Edges of baffles that were left free because nothing reaches them.
    pub left_free: &'a [BaffleEdge],
    /// Its weld plan, or why there is none.
    pub welding: &'a Known,
    /// How many orders of welding to try, to judge the plan's own by; none where it is not asked for.
    pub search: Option<u32>,
}
