//! Whether the tank bears what it is filled with: strength and balance.

pub mod plate;
