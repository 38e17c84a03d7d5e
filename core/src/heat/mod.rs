//! Heat in the sheet: the tank as a conducting shell, the moving source in a plate, what the outside loses to still air.

mod about_seam;
pub mod bessel;
pub mod loss;
pub mod moving;
mod rise;
pub mod shell;
mod start;

pub use about_seam::SeamField;
pub use rise::TemperatureRise;
pub use start::InterpassChoice;
