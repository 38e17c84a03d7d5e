//! Whether the tank bears what it is filled with: strength and balance.

pub mod balance;
pub mod input;
pub mod load;
pub mod panel;
pub mod plate;
pub mod wall;
pub mod weld;
