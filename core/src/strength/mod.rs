//! Whether the walls, the baffles and the seams of a tank bear what it is filled with.
//!
//! A panel's pressure comes from [`load`], its stress and bulge from [`plate`] by way of [`panel`], or from
//! [`wall`] where it is round; [`weld`] judges the seams by what the panels hand them. [`Bearing`] is what that
//! comes to for a wall of a tank: `walls` has it, flat walls, walls of drums, baffles and seams each in a file.
//!
//! Say [`weld::CAUTION`] beside every figure of strength.

mod compliance;
mod elastic;
mod error;
mod limits;
pub mod load;
mod meridian;
pub mod panel;
pub mod plate;
pub mod wall;
mod walls;
pub mod weld;

pub use compliance::Compliance;
pub use elastic::{ElasticPeak, ElasticPlace, SHAKEN_DOWN};
pub use error::{PanelError, StrengthError};
pub use walls::{
    Bearing, Cure, JoinedWalls, RESERVE, STRIP_BULGE, STRIP_MOMENT, SeamsTake, TEST_RESERVE, Trial,
    WallForm,
};
