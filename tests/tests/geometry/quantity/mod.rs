//! Quantities: their units against published definitions and another implementation, reading and printing.

mod checks;
mod parse;
mod print;
mod uom;
