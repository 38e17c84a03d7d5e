//! Calculations for one-off welded sheet-metal liquid tanks.
#![no_std]

pub mod body;
pub mod bound;
pub mod capacity;
pub mod geom;
pub mod heat;
pub mod job;
pub mod notice;
pub mod panel;
pub mod quantity;
pub mod seam;
pub mod stitch;
pub mod stock;
