//! Heat: what the arc brings, how long it may burn, and what the sheet about it does.

pub mod arc;
pub mod bessel;
pub mod carbon;
pub mod cooling;
pub mod duty;
pub mod flow;
pub mod loss;
pub mod network;
pub mod plate;
pub mod preheat;
pub mod ranges;
pub mod refuse;
pub(crate) mod root;
pub mod settings;
pub mod shrink;
pub mod wave;
