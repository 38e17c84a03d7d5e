//! What a person should know of a tank, from a note to a danger.
//!
//! [`Advice`] is any of it, with a code for programs, how much it matters, where it is from and its sentences;
//! [`Tank::each_advice`](crate::tank::Tank::each_advice) finds all there is.

pub mod caution;
mod gathered;
pub mod liquid;
pub mod notice;
mod notices;
mod one;
pub mod process;
pub mod stand;
pub mod strong;
pub mod work;

pub use gathered::CautionList;
pub use one::Advice;
