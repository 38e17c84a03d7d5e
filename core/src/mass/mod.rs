//! What the tank weighs, where its mass hangs, and what its mounts bear.
//!
//! [`balance`] adds up masses and parts their weight on mounts; `weighed` does so for a tank, with its liquid's centre
//! from `liquid_centre`.

pub mod balance;
mod error;
mod liquid_centre;
mod weighed;

pub use error::BalanceError;
pub use weighed::{LiftedMount, MountLoad, MountLoads};
