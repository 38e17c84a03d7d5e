//! Heat in the sheet: the tank as a conducting shell, the moving source in a plate, what the outside loses to still air.

pub mod bessel;
pub mod loss;
mod melting;
pub mod moving;
mod rise;
pub mod shell;

pub use melting::Melting;
pub use rise::TemperatureRise;
