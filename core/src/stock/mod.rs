//! Sheets, alloys and tempers; each figure with its source.

mod alloy;
pub mod liquid;
mod temper;

pub use alloy::{Alloy, Family, NotAnAlloy, Row};
pub use liquid::{GlycolShare, Liquid, LiquidError, NotALiquid, Petroleum};
pub use temper::{NotATemper, Temper};
