//! How much the tank holds: to the brim, to the fill mark, and of that what can be drawn.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::Point;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::capacity::Measure;
use seamwright_core::job::Tank;

use super::parts::{along, figure, filled, foot, title};
use crate::amount::Amount;
use crate::buttons::Step;
use crate::ink;
use crate::page::IsPage;
use crate::pen::Pen;
use crate::text::Letters;
use crate::work::Work;

/// The page of the capacity, with the measure that is shown large.
#[derive(Debug)]
pub struct HoldsPage {
    measure: Measure,
}

impl IsPage for HoldsPage {
    const NAME: &'static str = "holds";
    const NEW: Self = Self {
        measure: Measure::Brim,
    };

    fn start(&mut self, _: &Tank) {
        self.measure = Measure::Usable;
    }

    /// Draws the page: the chosen measure large, the other two at the foot.
    #[inline(never)]
    fn draw<D>(&self, pen: &mut Pen<'_, D>, work: &Work<'_>) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        let units = work.units();
        let capacity = work.tank().capacity();
        let chosen = self.measure;
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

    /// The measure above or below in the list that the page shows.
    fn step(&mut self, step: Step, _: &mut Work<'_>) {
        let place = Measure::ALL.iter().position(|one| *one == self.measure);
        let next = place.map(|place| along(place, step.up, Measure::ALL.len()));
        let next = next.and_then(|next| Measure::ALL.get(next));
        self.measure = next.copied().unwrap_or(self.measure);
    }
}

const fn heading(measure: Measure) -> &'static str {
    match measure {
        Measure::Brim => "Holds, brim",
        Measure::Fill => "Holds, filled",
        Measure::Usable => "Holds, usable",
    }
}
