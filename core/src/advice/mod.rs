//! What a person should know of a tank: what may hurt someone, and what to mind.

pub mod caution;
pub mod notice;
mod notices;
pub mod work;
