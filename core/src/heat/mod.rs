//! Heat: what the arc brings, how long it may burn, and what the sheet about it does.

pub mod arc;
pub mod bessel;
pub mod duty;
pub mod flow;
pub mod plate;
pub mod ranges;
pub mod refuse;
pub(crate) mod root;
pub mod settings;
pub mod shrink;
pub mod wave;
