//! Heat in the sheet: the tank as a conducting shell, the moving source in a plate, what the outside loses to still air.

mod about_seam;
pub mod bessel;
pub mod loss;
mod melting;
pub mod moving;
mod rise;
pub mod shell;
mod start;

pub use about_seam::{BurnThrough, SeamField};
pub use melting::Melting;
pub use rise::TemperatureRise;
pub use start::InterpassChoice;
