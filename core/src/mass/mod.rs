//! What the tank weighs, where its mass hangs, and what its mounts bear.

pub mod balance;
mod laden;

pub use laden::{BalanceError, MountLoad, MountLoads};
