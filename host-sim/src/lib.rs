//! The laptop side of Seamwright.
//!
//! All calculation is `seamwright-core`'s and every screen is `seamwright-firmware`'s; this crate
//! gives them files, paper and a terminal. Bottom up:
//!
//! - [`diagnostics`] shows what is wrong with a text where it stands, [`failure`] says how a command
//!   ended, [`input`] gets at a file;
//! - [`bench`] runs the gauge in the terminal, [`shots`] draws its screens into PNG files.
//!
//! It computes nothing itself beyond adding up columns: a figure that it prints and `core` does not
//! know is a defect.

pub mod bench;
pub mod diagnostics;
pub mod failure;
pub mod input;
pub mod job_file;
pub mod shots;
