//! Pictures of the tank, from its own geometry.
//!
//! [`view`] turns and scales the body onto an area of the display; [`line`] strokes softened lines;
//! [`tank`] draws edges, seams and stitches; [`liquid`] what the tank holds.

mod line;
mod liquid;
mod tank;
mod view;

pub use liquid::liquid;
pub use tank::{Style, edges, stitches};
pub use view::{Look, View};
