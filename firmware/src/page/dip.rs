//! The dip chart, one mark at a time: what the tank holds for a reading.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::tank::Tank;

use super::parts::{figure, filled, foot, title};
use crate::amount::Amount;
use crate::buttons::Step;
use crate::ink;
use crate::page::IsPage;
use crate::pen::Pen;
use crate::text::Letters;
use crate::work::Work;

/// The page of the dip chart, with the mark that is chosen, counted from 0.
#[derive(Debug)]
pub struct DipPage {
    mark: u16,
}

impl IsPage for DipPage {
    const NAME: &'static str = "dip";
    const NEW: Self = Self { mark: 0 };

    fn start(&mut self, _: &Tank) {
        self.mark = 0;
    }

    #[inline(never)]
    fn draw<D>(&self, pen: &mut Pen<'_, D>, work: &Work<'_>) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        let units = work.units();
        let tank = work.tank();
        let count = tank.dip_count();
        let mut heading = heapless::String::<32>::new();
        let _ = write!(heading, "Dip {}/{count}", self.mark + 1);
        title(pen, &heading)?;
        let Some((mark, depth)) = tank.dip_mark(self.mark) else {
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

    /// Up is fuller.
    fn step(&mut self, step: Step, work: &mut Work<'_>) {
        // A repeat goes by ten, to get through a long chart.
        let by = if step.coarse { 10 } else { 1 };
        let last = work.tank().dip_count().saturating_sub(1);
        self.mark = if step.up {
            self.mark.saturating_add(by).min(last)
        } else {
            self.mark.saturating_sub(by)
        };
    }
}
