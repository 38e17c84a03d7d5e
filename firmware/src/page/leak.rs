//! Leak test.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;

use super::layout::title;
use crate::amount::Units;
use crate::gauge::Work;
use crate::pen::Pen;

/// Draws the page.
#[inline(never)]
pub(super) fn draw<D>(pen: &mut Pen<'_, D>, _: &Work<'_>, _: Units) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    title(pen, "Leak test")
}
