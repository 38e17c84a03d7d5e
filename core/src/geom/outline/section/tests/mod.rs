//! Sections against closed forms, against figures from elsewhere, and against many-sided outlines.

extern crate std;

mod cases;
mod closed;
mod prism;
mod reference;
mod refused;
mod support;
