//! What a person should know of a tank: what may hurt someone, and what to mind.

pub mod caution;
mod gathered;
pub mod notice;
mod notices;
pub mod work;

pub use gathered::CautionList;
