//! A page that is still being worked out: how far that is.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;

use super::layout::{figure, foot, title};
use crate::figures::Figure;
use crate::ink;
use crate::page::Progress;
use crate::pen::Pen;
use crate::text::Letters;

/// Draws under a heading how many pieces are done, and of what.
#[inline(never)]
pub(crate) fn working<D>(
    pen: &mut Pen<'_, D>,
    heading: &str,
    what: &str,
    Progress { done, of }: Progress,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    title(pen, heading)?;
    let mut text = heapless::String::<24>::new();
    let _ = write!(text, "{done}/{of}");
    figure(pen, Figure::plain(&text, ""))?;
    pen.text(foot(0), what, Letters::Small, ink::PLAIN)?;
    pen.text(foot(1), "a moment, please", Letters::Small, ink::DIM)
}
