//! The gauge's screens: golden pictures, nothing clipped or overlapping, and redraw in few bytes.

// A check stops at the first thing that is not as it must be.
#![allow(clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod art;
mod demo;
mod golden;
mod redraw;
mod thumb;
mod walk;
