//! What every board does in its main loop.
//!
//! A board sets its chip up, implements [`Machine`], and a [`Glass`](seamwright_firmware::glass::Glass)
//! and [`Keys`](seamwright_firmware::buttons::Keys) of the gauge library, whose buttons it gives to a
//! [`Hand`]; then it calls [`Runner::start`] once and [`Runner::step`] for ever. So the loop that the
//! tests drive on the emulated boards is the loop of the others too. What is asked of a board, trait by trait, is told
//! in the README of this folder's parent.
#![no_std]

mod contacts;
mod hand;
#[cfg(feature = "log")]
pub mod log;
mod machine;
mod memory;
#[cfg(target_os = "none")]
pub mod paint;
mod ring;
mod runner;

pub use hand::{Hand, Look, Polled, Sampled};
pub use machine::{Machine, Stack};
pub use memory::Memory;
pub use ring::Ring;
pub use runner::Runner;
