//! The checked inputs of one tank, the tank made from them, and what it consists of.
//!
//! A [`Draft`](crate::input::Draft) is plain data, as a job file or the wire brings it. [`Job::check`] fills
//! in what practice can supply (each default is told as an [`Assumed`]) and refuses what is out of range;
//! [`Tank::build`] adds the body, from which every later stage follows.
//!
//! - `job`, `check`: the checked inputs; one draft held against its limits (`bounds`, `ranged`), part by part
//!   (`sizes`, `joints`, `welding`).
//! - `build`, `buildable`, `blame`: the tank from the job; whether it can be made; which input is at fault
//!   where it cannot.
//! - `settings`: what is published for its seams.
//! - `solve`: which value of a dimension gives a capacity.
//! - `reach`: what of its liquid reaches the pick-ups, and where its air gets out.
//! - `parts`, `within`, `liquid`, `totals`: what a tank is asked for before it is welded.
//!
//! A later stage adds its own methods to [`Tank`] in its own module, so that this one knows nothing of
//! them: the order of tacks and stitches in [`weld`](crate::weld), rods in [`filler`](crate::filler), gas,
//! time and shrinkage in [`supply`](crate::supply), whether it bears its load in
//! [`strength`](crate::strength), the leak test in [`leak`](crate::leak), its mass and where that hangs in
//! [`mass`](crate::mass), what a person should know of it in [`advice`](crate::advice).

mod assumed;
mod baffle_flanges;
mod blame;
mod bounds;
mod build;
mod buildable;
mod check;
mod error;
mod flanges;
mod job;
mod joints;
mod liquid;
mod parts;
mod plugs;
mod ranged;
mod reach;
mod settings;
mod sizes;
mod solve;
mod totals;
mod welding;
pub(crate) mod within;

pub use assumed::{Assumed, BendStart};
pub use build::Tank;
pub use error::{JobError, Problem};
pub use job::Job;
pub use plugs::PlugHole;
pub use reach::{Kept, Plumbing, Reach, ReachError, ShutAir};
pub use settings::{
    ElectrodeSettings, OwnSettings, SeamGroup, SeamSettings, Suggestion, TungstenSettings,
    WireSettings,
};
pub use solve::{Dimension, SolvedDimension};
pub use totals::Totals;
pub use welding::{Service, Welding};
