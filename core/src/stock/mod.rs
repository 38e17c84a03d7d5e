//! Sheets, alloys, tempers and liquids; each figure with its source.

mod alloy;
pub mod liquid;
mod temper;

pub use alloy::{Alloy, Family, NotAnAlloy, Row};
pub use liquid::{Contents, GlycolShare, Liquid, LiquidError, NotALiquid, Petroleum};
pub use temper::{NotATemper, Temper};
