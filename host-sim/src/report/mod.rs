//! What the commands answer. Each subject is a file that makes its rows once, as a [`model::Section`]; [`render`] writes
//! sections as text, as JSON and as the job sheet.

mod arc;
mod asked;
pub(crate) mod assumed;
mod balance;
mod body;
pub(crate) mod capacity;
pub(crate) mod cited;
pub(crate) mod compartments;
mod cost;
pub mod dip;
pub(crate) mod drawn;
mod duty;
pub mod fill;
mod filler;
mod heat;
pub(crate) mod kit;
pub mod leak;
pub(crate) mod marking;
pub mod model;
pub(crate) mod notices;
pub(crate) mod panels;
pub mod plan;
pub mod pours;
pub(crate) mod processed;
pub(crate) mod purge;
pub mod readings;
pub mod render;
pub(crate) mod seams;
mod settings;
mod shrinkage;
pub(crate) mod stages;
pub(crate) mod stands;
pub(crate) mod stitches;
mod strength;
mod supply;
pub(crate) mod tacks;
mod totals;
mod units;
pub(crate) mod verdict;
mod welds;
pub(crate) mod wire;

pub use asked::{Asked, Known};
pub use units::Units;
