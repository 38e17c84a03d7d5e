//! Stitches: seams cut into equal runs, none longer than a limit, and the order in which to weld them;
//! and the order of the tacks that hold the tank together before.

mod bench;
mod course;
mod halving;
mod laying;
mod manner;
mod numbered;
mod order;
mod planner;
mod pull;
mod rest;
mod run;
mod step;
mod tack;
mod tack_order;

pub use bench::{Bench, Manner, PlanError, Planned, Sum};
pub(crate) use course::{Advance, Course, Standing};
pub use laying::LayingOut;
pub use numbered::Stitch;
pub(crate) use order::coolest;
pub use order::{WAYS, Weights};
pub use planner::{Planner, Progress, Steps};
pub(crate) use run::tenths;
pub use run::{MAX_POINTS, Point, Run, Seams, Turn};
pub use step::WeldStep;
pub(crate) use tack::Row;
pub use tack::{MAX_SEAMS, Tack, Tacking};
pub use tack_order::TackOrder;

use crate::heat::shell::Fineness;

/// Cells of the shell that a gauge has room for.
pub const DEVICE_CELLS: usize = 224;
/// Links between them.
pub const DEVICE_LINKS: usize = 520;
/// As fine as a gauge plans.
pub const DEVICE_FINE: Fineness = Fineness::with_rim(0.008);
/// A first look, coarse enough for a gauge to have it in two seconds.
pub const FIRST_LOOK: Fineness = Fineness {
    rim: 0.1,
    cells: 64,
    longest: 10.0,
    beads: false,
};
