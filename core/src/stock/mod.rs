//! Sheets, alloys and tempers; each figure with its source.

mod alloy;
mod temper;

pub use alloy::{Alloy, Family, NotAnAlloy, Row};
pub use temper::{NotATemper, Temper};
