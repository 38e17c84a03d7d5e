//! What `plan` and `fill` print: a report to read, or one JSON object.

mod cited;
mod cost;
pub mod dip;
mod duty;
pub mod fill;
mod filler;
mod heat;
pub mod json;
mod kit;
pub mod plan;
mod settings;
mod shrinkage;
mod size;
pub mod stitches;
mod supply;
mod table;
pub mod units;

pub use units::Units;
