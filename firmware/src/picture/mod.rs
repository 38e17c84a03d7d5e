//! Pictures of the tank, from its own geometry.
//!
//! A [`View`] turns and scales the body onto an area of the display; [`edges`] and [`stitches`] stroke
//! softened lines there, and [`liquid()`] fills in what the tank holds.

mod blank;
mod fill;
mod line;
mod liquid;
mod outline;
mod panel;
mod round;
mod tank;
mod view;
mod way;

pub use blank::blank;
pub use liquid::liquid;
pub use panel::panel;
pub use tank::{Style, edges, stitches, stretch};
pub use view::{Look, View, telling_side};
