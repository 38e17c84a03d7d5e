//! The dip chart, one mark at a time: what the tank holds for a reading.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;

use super::holds::filled;
use super::layout::{figure, foot, title};
use crate::amount::{Amount, Units};
use crate::gauge::Work;
use crate::ink;
use crate::pen::Pen;
use crate::text::Letters;

/// Draws the page.
#[inline(never)]
pub(super) fn draw<D>(pen: &mut Pen<'_, D>, work: &Work<'_>, units: Units) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let tank = work.tank();
    let count = tank.dip_count();
    let mut heading = heapless::String::<32>::new();
    let _ = write!(heading, "Dip {}/{count}", work.dip() + 1);
    title(pen, &heading)?;
    let Some((mark, depth)) = tank.dip_mark(work.dip()) else {
        pen.text(foot(0), "the rod is dry here", Letters::Small, ink::PLAIN)?;
        return Ok(());
    };
    let amount = Amount::volume(mark.volume, units);
    filled(pen, work, &amount, depth)?;
    figure(pen, amount.figure())?;
    let mut line = heapless::String::<64>::new();
    let reading = Amount::length(mark.reading, units).text();
    let word = if tank.job().dip_at().is_some() {
        "rod reads"
    } else {
        "depth"
    };
    let _ = write!(line, "{word} {reading}");
    pen.text(foot(0), &line, Letters::Small, ink::BRIGHT)?;
    pen.text(foot(1), "standing level", Letters::Small, ink::PLAIN)
}
