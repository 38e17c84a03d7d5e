//! Quantities: their units against published definitions and another implementation, reading and printing.

pub(crate) mod checks;
mod parse;
mod print;
mod uom;
