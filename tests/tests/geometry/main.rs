//! Bodies, capacities, bends, joints and blanks, and the quantities that they are given in: against published figures,
//! against other implementations of geometry, and by what must hold for any tank.

// A helper that cannot go on stops its test at once.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing
)]

mod allowance;
mod baffles;
mod bends;
mod bodies;
mod capacity;
mod compartments;
mod dip;
mod drums;
mod folding;
mod folds;
mod joints;
mod outlines;
mod page;
mod program;
mod properties;
mod published;
mod quantity;
mod reassembly;
mod room;
