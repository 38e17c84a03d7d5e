//! How much the tank holds: to the brim, to the fill mark, and of that what can be drawn.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::Point;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::input::Measure;
use seamwright_core::tank::Tank;

use super::parts::{along, figure, filled, foot, title};
use crate::amount::Amount;
use crate::buttons::Step;
use crate::ink;
use crate::page::IsPage;
use crate::pen::Pen;
use crate::text::Letters;
use crate::work::Work;

/// The page of the capacity, with the measure that is shown large, by its place in the list of all.
#[derive(Debug)]
pub struct HoldsPage {
    place: usize,
}

impl IsPage for HoldsPage {
    const NAME: &'static str = "holds";
    const NEW: Self = Self { place: 0 };

    /// What can be drawn is shown first, the last of the list.
    fn start(&mut self, _: &Tank) {
        self.place = Measure::ALL.len() - 1;
    }

    /// Draws the chosen measure large, the other two at the foot.
    #[inline(never)]
    fn draw<D>(&self, pen: &mut Pen<'_, D>, work: &Work<'_>) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        let units = work.units();
        let capacity = work.tank().capacity();
        let chosen = Measure::ALL.get(self.place).copied().unwrap_or_default();
        title(pen, heading(chosen))?;
        let amount = Amount::volume(capacity.of(chosen), units);
        let depth = match chosen {
            Measure::Brim => capacity.full_depth,
            Measure::Fill | Measure::Usable => capacity.fill_depth,
        };
        filled(pen, work, &amount, depth)?;
        figure(pen, amount.figure())?;

        let others = Measure::ALL
            .into_iter()
            .filter(|measure| *measure != chosen);
        for (measure, line) in others.zip(0..) {
            pen.text(foot(line), measure.name(), Letters::Small, ink::PLAIN)?;
            let text = Amount::volume(capacity.of(measure), units).text();
            let at = foot(line) + Point::new(Letters::Small.width("usable ") as i32, 0);
            pen.text(at, &text, Letters::Small, ink::PLAIN)?;
        }
        Ok(())
    }

    fn step(&mut self, step: Step, _: &mut Work<'_>) {
        self.place = along(self.place, step.up, Measure::ALL.len());
    }
}

const fn heading(measure: Measure) -> &'static str {
    match measure {
        Measure::Brim => "Holds, brim",
        Measure::Fill => "Holds, filled",
        Measure::Usable => "Holds, usable",
    }
}
