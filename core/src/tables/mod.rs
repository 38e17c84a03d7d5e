//! Sheets, alloys, tempers, filler rods and liquids; each figure with its source.

#[macro_use]
mod named;

mod alloy;
mod bend_radius;
pub mod filler;
pub mod liquid;
pub mod metal;
pub mod preheat;
mod process;
pub mod ranges;
mod source;
mod temper;

pub use alloy::{Alloy, Family, NotAnAlloy, Row};
pub use bend_radius::{BendMinimum, BendTable, minimum_radius};
pub use filler::{Filler, NotAFiller};
pub use liquid::{Contents, GlycolShare, Liquid, LiquidError, NotALiquid, Petroleum};
pub use metal::{Metal, Strength, Welded};
pub use process::Process;
pub use source::{Source, Sourced};
pub use temper::{NotATemper, Temper};
