//! Sheet rolled to a curve.

use super::{BendError, radius_checked, thickness_checked, turn_checked};
use crate::units::{Angle, AngleUnit, Length};

/// A curve is rolled and not bent where its inside radius is above this many thicknesses; the neutral
/// line then lies in the middle of the sheet: DIN 6935 (from memory).
const LEAST_RADIUS: f64 = 5.0;

/// Length of flat sheet in a curve rolled to `inside_radius` through `turn`, `turn · (r + t/2)`: the
/// middle of the sheet keeps its length. The thickness may be 0.1 to 50 mm, the inside radius five
/// thicknesses to 10 m, the turn above 0 up to a full circle.
///
/// # Errors
///
/// Names the input that is out of its range. For a tighter curve see [`Bend`](super::Bend).
pub fn rolled_length(
    thickness: Length,
    inside_radius: Length,
    turn: Angle,
) -> Result<Length, BendError> {
    let t = thickness_checked(thickness)?.si();
    let r = radius_checked(inside_radius, Length::from_metres(LEAST_RADIUS * t))?.si();
    let full = Angle::new(360.0, AngleUnit::Degree);
    #[expect(clippy::float_cmp, reason = "a full circle is a value of its own")]
    let turn = if turn.si() == full.si() {
        turn
    } else {
        turn_checked(turn, full)?
    };
    Ok(Length::from_metres(turn.si() * (r + 0.5 * t)))
}
