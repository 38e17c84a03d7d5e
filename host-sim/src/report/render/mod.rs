//! Sections as text, as HTML and as an object for programs: one file each.

pub mod html;
pub mod json;
pub mod text;
