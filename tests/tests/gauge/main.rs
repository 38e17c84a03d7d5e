//! The bench gauge on this machine: its screens, the README's picture of them, and its side of the link.

// A helper that cannot go on stops its test at once.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing
)]

mod readme_picture;
mod screens;
mod wire;
