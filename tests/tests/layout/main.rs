//! What must hold for the sources themselves: every reference is used, modules go one way down, a name has one meaning, the laptop computes nothing.

// A helper that cannot go on stops its test at once.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

mod crates;
mod laptop;
mod layers;
mod lexer;
mod rows;
mod tree;
mod types;
