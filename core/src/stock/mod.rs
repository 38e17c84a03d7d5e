//! Sheets, alloys, tempers, filler rods and liquids; each figure with its source.

#[macro_use]
mod named;

mod alloy;
pub mod filler;
pub mod hot;
pub mod liquid;
pub mod metal;
mod source;
mod temper;

pub use alloy::{Alloy, Family, NotAnAlloy, Row};
pub use filler::{Filler, NotAFiller};
pub use liquid::{Contents, GlycolShare, Liquid, LiquidError, NotALiquid, Petroleum};
pub use metal::{Metal, Strength, Welded};
pub use source::{Source, Sourced};
pub use temper::{NotATemper, Temper};
