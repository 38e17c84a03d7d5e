//! Calculations for one-off welded sheet-metal liquid tanks.
#![no_std]

pub mod quantity;
