//! Whether the tank holds and bears what it is filled with: strength, tightness, balance.
//!
//! A panel's pressure comes from [`load`], its stress and bulge from [`plate`] by way of [`panel`], or from
//! [`wall`] where it is round; [`panel::open_top`] judges a wall whose top edge is free, which no job has yet;
//! [`weld`] judges the seams by what the panels hand them, and [`balance`] finds
//! the mass, where it hangs and what the mounts bear. [`leak`] plans a leak test and reads it. [`input`] holds
//! the limits of what may be asked.
//!
//! Say [`weld::CAUTION`] beside every figure of strength.

pub mod balance;
pub mod input;
pub mod leak;
pub mod load;
pub mod panel;
pub mod plate;
pub mod wall;
pub mod weld;
