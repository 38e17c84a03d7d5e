//! Bends in sheet: how much flat sheet each takes, how tight it may be, and the notches at its ends.
//!
//! A bend takes the sheet round an inside radius through an angle, its *turn*: 0 is flat sheet, 90° the
//! square corner of a box. The angle between the two legs afterwards, the opening angle of DIN 6935, is
//! 180° less the turn.
//!
//! The figures are a place to start from. Sheet differs from lot to lot and press from press, so a blank
//! that must fit is worked out from a strip of the same sheet, bent in the same tools and measured.

mod bend;
mod relief;
mod roll;
#[cfg(test)]
mod tests;

pub use bend::{Bend, BendError, BendField, K_FACTOR, MOST_SETBACK_TURN, Rule, usual_k};
pub use relief::{Relief, relief};
pub use roll::rolled_length;
