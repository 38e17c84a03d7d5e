//! The arc: its process and settings, the energy that it brings, its true power, and how long it may burn.

pub mod duty;
mod energy;
mod equipment;
pub mod power;
pub mod settings;
mod uptake;

pub use energy::{Arc, conventional_voltage};
pub use equipment::{Equipment, RatedPart, RatedPlate, TorchRatings};
pub use uptake::{uptake_band, usual_uptake};
