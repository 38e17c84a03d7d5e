//! The arc, the moving source, losses to the air, preheat, and the warmth of a whole tank: against published figures
//! and against numerical solutions written apart from `core`.

// A helper that cannot go on stops its test at once.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

mod arc;
mod bessel;
mod fine_tanks;
mod input;
mod losses;
mod more_heat;
mod moving_source;
mod network_properties;
mod network_reference;
mod page;
mod preheat;
mod stitch;
