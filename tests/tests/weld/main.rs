//! Tacks and stitches, and the orders in which they are made.

// A helper that cannot go on stops its test at once.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

mod build_order;
mod order;
mod plan;
mod tack_order;
mod tacks;
