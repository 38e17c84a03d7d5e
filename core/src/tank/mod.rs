//! The checked inputs of one tank, and the stages run over them.
//!
//! A [`Draft`](crate::input::Draft) is plain data, as a job file or the wire brings it. [`Job::check`] fills in what
//! practice can supply (each default is told as an [`Assumed`]) and refuses what is out of range;
//! [`Tank::build`] adds the body, from which every later stage follows.

mod assumed;
mod blame;
mod buildable;
mod check;
mod error;
mod joints;
mod liquid;
mod sizes;
mod tank;
mod welding;
pub(crate) mod within;

pub use assumed::Assumed;
pub use check::Job;
pub use error::{JobError, Problem};
pub use tank::{MAX_MARKS, Tank, Totals};
pub use welding::{Service, Welding};
