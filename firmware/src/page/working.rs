//! A page that is still being worked out: how far that is.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;

use super::Page;
use super::layout::{figure, foot, title};
use crate::figures::Figure;
use crate::ink;
use crate::pen::Pen;
use crate::text::Letters;

/// Draws how many walls and seams are done, of how many.
#[inline(never)]
pub(super) fn draw<D>(
    pen: &mut Pen<'_, D>,
    page: Page,
    (done, of): (usize, usize),
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let (heading, what) = if page == Page::Leak {
        ("Leak test", "walls, seams tried")
    } else {
        ("Reserve", "walls tried")
    };
    title(pen, heading)?;
    let mut text = heapless::String::<24>::new();
    let _ = write!(text, "{done}/{of}");
    figure(pen, Figure::plain(&text, ""))?;
    pen.text(foot(0), what, Letters::Small, ink::PLAIN)?;
    pen.text(foot(1), "a moment, please", Letters::Small, ink::DIM)
}
