//! What the cross-crate checks share: quantities, reference data, its comparison and the page of it, jobs, and the emulated board.

// A check stops at the first thing that is not as it must be; indexing JSON yields null, never panics.
#![allow(clippy::indexing_slicing)]

pub mod amounts;
pub mod board;
pub mod cases;
pub mod checks;
pub mod fine_shell;
pub mod jobs;
pub mod near;
pub mod order_tanks;
pub mod orders;
pub mod plate_shell;
pub mod published;
pub mod random_jobs;

/// What a check gives that stops at the first figure that is not as it must be.
pub type Outcome<T = ()> = Result<T, Box<dyn std::error::Error>>;
