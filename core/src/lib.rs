//! Calculations for one-off welded sheet-metal liquid tanks.
#![no_std]
// A value that is not a number must fail every check, so checks ask whether the good case holds and
// negate that; the lint would turn them into checks that let it through.
#![allow(clippy::neg_cmp_op_on_partial_ord)]

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
#[cfg(feature = "serde")]
pub mod wire;
