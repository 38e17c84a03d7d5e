//! Whether the tank holds.

pub mod leak;
