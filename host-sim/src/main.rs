//! The `seamwright` command.
fn main() {}
