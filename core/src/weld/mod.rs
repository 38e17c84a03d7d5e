//! The weld plan: in which order the stitches of a tank are welded, how long the welder waits before each and why, and
//! the order of the tacks that hold the tank together before.
//!
//! Ask a tank for its plan and read it stitch by stitch:
//!
//! ```
//! # use seamwright_core::weld::{Planner, PlanError, WaitCause};
//! # fn of(tank: &seamwright_core::tank::Tank) -> Result<(), PlanError> {
//! let mut planner = Planner::new();
//! let plan = tank.weld_plan(&mut planner)?;
//! for stitch in plan.stitches(tank) {
//!     for part in stitch.wait.parts() {
//!         if let WaitCause::WarmMetal(place) = part.cause {
//!             assert_eq!((place.seam, place.at), (stitch.seam, stitch.from));
//!         }
//!     }
//! }
//! # Ok(())
//! # }
//! ```
//!
//! Where to look:
//!
//! - Why there is a wait before a stitch: [`wait`](WaitCause) has the causes, `simulation` decides step by step of time
//!   whether the arc may be lit, `rest` keeps the ten minutes of power source and torch.
//! - Why this stitch comes next: `choice`, by the welding as it stands in `state`, within the stage of building ([`build`](crate::build)); how lopsided the welds are
//!   on the way: `pull`.
//! - The whole course, from the first look to the comparisons: `planner`, in steps that a gauge can lay aside between
//!   two looks at its buttons. The laptop runs the same course in a loop: `of_tank`.
//! - What comes out: `plan` and `totals`; one stitch as a gauge keeps it: `step`; the stitches by number: `stitches`.
//! - What the simulation works on: `workspace` (cells, links, stitches), made by `layout`; `procedure` has power, travel
//!   and limits in SI units.
//! - In which ten minutes the arc burns longest: `busiest`.
//! - How long metal stays where its alloy must not, and waiting for cooler metal: `holding`.
//! - A better order than the plan's own, where there is memory for a table: `response` computes what each stitch does to the
//!   others, `estimate` judges orders by it, `improve` looks for one; `crew` has a plan's parts done at once.
//! - A search that judges the plan's order by others: `search`.
//! - Tacks: `tacks`.

mod busiest;
mod choice;
mod crew;
mod estimate;
mod finer;
mod held;
mod holding;
mod improve;
mod laid;
mod layout;
mod of_tank;
mod options;
mod plan;
mod planner;
mod procedure;
mod pull;
mod response;
mod rest;
mod search;
mod simulation;
mod state;
mod step;
mod stitches;
mod tacks;
mod totals;
mod wait;
mod workspace;

pub use crate::arc::RatedPart;
pub use busiest::BusyStretch;
pub use choice::{ChoiceWeights, WAYS};
pub use crew::{Crew, OneByOne, PARTS, PlanRoom};
pub use finer::FINER_PARTS;
pub use held::{HeldInstead, HeldMetal};
pub use improve::OrderEffort;
pub use options::{FINE_CELLS, FINE_LINKS, GAUGE_CELLS, GAUGE_LINKS, PlanOptions};
pub use plan::{PlannedStitch, WeldPlan};
pub use planner::{Planner, Progress};
pub use rest::ArcShare;
pub use search::{OrderSearch, SearchEffort};
pub use step::{StepCause, WeldStep};
pub use stitches::{SeamStitch, Stitch};
pub use tacks::{Tack, TackOrder, Tacking};
pub use totals::{OrderTotals, UptakeTotals};
pub use wait::{StitchWait, WaitCause, WaitPart, WarmPlace};
pub use workspace::PlanError;
