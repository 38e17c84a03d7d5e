//! The bench gauge on emulated boards: it starts, is heard, shows and computes what this machine does.

// A helper that cannot go on stops its test at once.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

mod boot;
mod doubles;
mod full;
mod gauge;
mod heat;
mod laptop_link;
mod link;
mod same_bits;
