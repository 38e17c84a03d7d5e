//! Heat: what the arc brings.

pub mod arc;
pub mod settings;
