//! The `seamwright` command.
//! The `seamwright` program.

fn main() {}
