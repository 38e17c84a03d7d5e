//! Heat: what the arc brings, how long it may burn, and what the sheet about it does.

pub mod arc;
pub mod bessel;
pub mod duty;
pub mod plate;
pub mod refuse;
pub(crate) mod root;
pub mod settings;
pub mod wave;
