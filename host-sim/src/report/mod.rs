//! What `plan` and `fill` print: a report to read, or one JSON object.

pub mod dip;
pub mod fill;
pub mod json;
pub mod plan;
mod size;
pub mod stitches;
mod table;
pub mod units;

pub use units::Units;
