//! What is bought and set: metals and liquids, fillers, settings, rod, gas and money, and the shrinkage to reckon with:
//! against published tables.

// A helper that cannot go on stops its test at once.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

mod consumables;
mod filler;
mod gmaw;
mod grades;
mod page;
mod purge;
mod ranges;
mod shrinkage;
mod stock;
mod wire;
