//! Whether the walls, the baffles and the seams of a tank bear what it is filled with.
//!
//! A panel's pressure comes from [`load`], its stress and bulge from [`plate`] by way of [`panel`], or from
//! [`wall`] where it is round; [`weld`] judges the seams by what the panels hand them. [`Bearing`] is what that
//! comes to for a wall of a tank.
//!
//! Say [`weld::CAUTION`] beside every figure of strength.

mod bearing;
pub mod load;
pub mod panel;
pub mod plate;
pub mod wall;
pub mod weld;

pub use bearing::{Bearing, Cure, Form, RESERVE, StrengthError, TEST_RESERVE, Trial};
