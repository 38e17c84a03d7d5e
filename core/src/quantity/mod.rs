//! Units in and out.
//!
//! Inside, everything is SI in `f64`; a bare number never crosses a public boundary without a type
//! that says what it is. The types are our own newtypes rather than a units library: they cost no
//! compile time on four targets, need no standard library, and give an error message that a
//! fabricator can read. The `tests` crate checks every conversion against the `uom` crate.

mod define;
mod units;

pub use units::*;
