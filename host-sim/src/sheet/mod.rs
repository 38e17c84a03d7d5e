//! True-size patterns on paper and in cut files, and the job sheet that goes with them.
//!
//! Everything here starts from a [`pattern::Pattern`]: one flat piece of sheet with its holes, bend
//! lines, marks and words. It knows nothing of tanks; whoever has one fills the pattern in.
//!
//! - [`pattern`] checks a piece and measures it;
//! - [`dxf`] and [`svg`] write it for a machine that cuts;
//! - [`pdf`] writes it at full size over as many pages as it takes;
//! - [`marked`] tells what is marked on a panel, in rows and in a drawing;
//! - [`nest`] lays pieces on stock sheets;
//! - [`files`] writes all of it, with the page that hangs beside the work.
//!
//! Lengths in this module are plain `f64` millimetres, areas square millimetres, angles degrees unless
//! an item says otherwise; x runs right and y up.

pub mod dxf;
pub mod files;
pub mod layer;
mod letter;
pub mod marked;
pub mod nest;
mod page;
pub mod pattern;
pub mod pdf;
pub mod pieces;
pub mod svg;
mod words;
