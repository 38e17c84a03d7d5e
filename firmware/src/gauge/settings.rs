//! The settings.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::Point;
use embedded_graphics::pixelcolor::Gray4;

use crate::amount::Units;
use crate::ink;
use crate::page::parts::{foot, row, title};
use crate::pen::Pen;
use crate::text::Letters;

/// Top of the line under the setting.
const UNDER_TOP: i32 = 27;

/// Draws the settings.
#[inline(never)]
pub(super) fn draw<D>(pen: &mut Pen<'_, D>, units: Units) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    title(pen, "Settings")?;
    let mut line = heapless::String::<32>::new();
    // Both names are shorter than the room for them.
    let _ = line.push_str("Units: ");
    let _ = line.push_str(units.name());
    row(pen, 0, &line, true)?;
    let inset = Point::new(1, 0);
    let under = Point::new(0, UNDER_TOP) + inset;
    pen.text(under, units.symbols(), Letters::Small, ink::PLAIN)?;
    let hints = ["select changes it", "select held: back"];
    for (hint, line) in hints.into_iter().zip(0..) {
        pen.text(foot(line) + inset, hint, Letters::Small, ink::DIM)?;
    }
    Ok(())
}
