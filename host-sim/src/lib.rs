//! The laptop side of Seamwright.
//!
//! All calculation is `seamwright-core`'s and every screen is `seamwright-firmware`'s; this crate
//! gives them files, paper and a terminal. Bottom up:
//!
//! - [`diagnostics`] shows what is wrong with a text where it stands, [`failure`] says how a command
//!   ended, [`input`] gets at a file;
//! - [`job_file`] reads a job, [`readings`] a leak test and pours, [`mod@cut`] says how large its blanks are cut;
//! - [`report`] says what `core` makes of them, a subject a file, for a terminal, for paper and for programs;
//!   [`mod@solve`] turns that round;
//! - [`sheet`] puts true-size patterns on paper and into cut files;
//! - [`mod@bench`] runs the gauge in the terminal, [`shots`] draws its screens into PNG files,
//!   [`link`] talks to a gauge;
//! - [`cli`] is the command line.
//!
//! It computes nothing itself: a figure that it prints and `core` does not know is a defect. What it lays out on paper
//! and on sheets of stock is its own.

pub mod bench;
pub mod cli;
pub mod cut;
pub mod diagnostics;
pub mod failure;
pub mod input;
pub mod job_file;
pub mod link;
pub mod readings;
pub mod report;
pub mod sheet;
pub mod shots;
pub mod solve;
pub mod welding;
