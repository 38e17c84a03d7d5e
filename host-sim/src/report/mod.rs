//! What `plan`, `fill`, `dip` and `leak` print: a report to read, or one JSON object.

pub mod balance;
pub mod cautions;
pub mod dip;
pub mod fill;
pub mod json;
pub mod leak;
pub mod plan;
pub mod pours;
pub mod readings;
mod size;
pub mod stitches;
pub mod strength;
mod table;
pub mod units;

pub use units::Units;
