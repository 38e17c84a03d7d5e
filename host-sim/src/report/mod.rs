//! What `plan`, `fill`, `dip` and `leak` print: a report to read, or one JSON object.

mod asked;
pub mod balance;
pub mod cautions;
mod cited;
mod cost;
pub mod dip;
pub(crate) mod duty;
pub mod fill;
mod filler;
mod heat;
pub mod json;
mod kit;
pub mod leak;
pub mod notices;
pub mod plan;
pub mod pours;
pub mod readings;
mod settings;
pub mod shrinkage;
mod size;
pub mod stitches;
pub mod strength;
mod supply;
mod table;
pub mod tacks;
pub mod units;
mod welds;

pub use asked::Asked;
pub use units::Units;
