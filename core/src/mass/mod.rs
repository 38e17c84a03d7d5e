//! What the tank weighs, where its mass hangs, and what its mounts bear.
//!
//! [`balance`] adds up masses and parts their weight on mounts, by `footing`; `weighed` does so for a tank, with its
//! liquid's centre from `liquid_centre`. `envelope` looks for the worst of all fills, leans and accelerations (`laden` is a
//! tank with any fill, `search` goes through them), and [`Slosh`] bounds what a sudden one may add.

pub mod balance;
mod envelope;
mod error;
mod footing;
mod laden;
mod liquid_centre;
mod search;
mod slosh;
mod weighed;

pub use envelope::{ForceCase, LoadCase, MountEnvelope, MountsEnvelope, Tipping};
pub use error::BalanceError;
pub use slosh::{BoxSlosh, Slosh, Sloshes};
pub use weighed::{LiftedMount, MountLoad, MountLoads};
