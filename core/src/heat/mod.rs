//! Heat: what the arc brings.

pub mod arc;
pub mod carbon;
pub mod cooling;
pub mod loss;
pub mod network;
pub mod preheat;
pub mod settings;
