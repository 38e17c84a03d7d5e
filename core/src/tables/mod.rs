//! Sheets, alloys, tempers, filler rods and liquids; each figure with its source.

#[macro_use]
mod named;

mod alloy;
mod bend_radius;
mod carbon;
mod classified;
mod coating;
pub mod filler;
pub mod liquid;
pub mod metal;
pub mod preheat;
mod process;
pub mod ranges;
mod softened;
mod source;
mod temper;

pub use alloy::{Alloy, Family, NotAnAlloy, Row};
pub use bend_radius::{BendMinimum, BendTable, minimum_radius};
pub use carbon::{PLAIN_EQUIVALENT, carbon_equivalent};
pub use classified::Classified;
pub use coating::Coating;
pub use filler::{Filler, NotAFiller};
pub use liquid::{Contents, GlycolShare, Liquid, LiquidError, NotALiquid, Petroleum};
pub use metal::{Metal, Strength, Welded};
pub use process::Process;
pub use softened::softened_width;
pub use source::{Source, Sourced};
pub use temper::{NotATemper, Temper};
