//! What the cross-crate checks share: reference data, comparison, and the emulated board.

// A check stops at the first thing that is not as it must be; indexing JSON yields null, never panics.
#![allow(clippy::indexing_slicing)]

pub mod board;
pub mod cases;
pub mod checks;
pub mod near;
pub mod orders;
pub mod random_jobs;
