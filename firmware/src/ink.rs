//! The greys that the gauge draws with. Each has one meaning, on every page.

use embedded_graphics::pixelcolor::Gray4;

/// What the page is about: the large figure, the chosen line, the chosen seam.
pub const BRIGHT: Gray4 = Gray4::new(15);
/// Words and smaller figures; visible edges of a tank that is only the ground of something else.
pub const PLAIN: Gray4 = Gray4::new(11);
/// What may be overlooked: hidden edges, rules, places not taken.
pub const DIM: Gray4 = Gray4::new(6);
/// Liquid.
pub const LIQUID: Gray4 = Gray4::new(3);
/// The surface of liquid.
pub const SURFACE: Gray4 = Gray4::new(5);
/// The line where the surface meets the tank.
pub const WATERLINE: Gray4 = Gray4::new(9);
/// Nothing.
pub const DARK: Gray4 = Gray4::new(0);

/// The least grey that a display without greys should light, so that all but liquid is seen on it.
pub const MONO_THRESHOLD: u8 = 6;
