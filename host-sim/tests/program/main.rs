//! The program `seamwright` as a user meets it: job files in, reports, sheets and messages out.

// A helper that cannot go on stops its test at once.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing
)]

mod support;

mod allowance;
mod burnt;
mod compartments;
mod dipstick;
mod fuzz;
mod job_file;
mod loose;
mod many_stitches;
mod messages;
mod process;
mod proof;
mod reports;
mod search;
mod supply;
mod tacks;
