//! Heat: what the arc brings.

pub mod arc;
pub mod carbon;
pub mod cooling;
pub mod preheat;
pub mod settings;
