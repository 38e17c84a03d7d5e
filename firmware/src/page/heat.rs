//! What the arc brings: heat input large, what it is made of small.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::tank::Tank;
use seamwright_core::units::{CurrentUnit, Decimal, VoltageUnit};

use super::parts::{FIGURE_TOP, RIGHT, figure, foot, title};
use crate::amount::Amount;
use crate::ink;
use crate::page::IsPage;
use crate::pen::Pen;
use crate::text::Letters;
use crate::work::Work;

/// A line of this page.
type Line = heapless::String<64>;

/// The page of the heat input.
#[derive(Debug)]
pub struct HeatPage;

impl IsPage for HeatPage {
    const NAME: &'static str = "heat";
    const NEW: Self = Self;

    fn start(&mut self, _: &Tank) {}

    #[inline(never)]
    fn draw<D>(&self, pen: &mut Pen<'_, D>, work: &Work<'_>) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        let units = work.units();
        title(pen, "Heat input")?;
        let arc = work.tank().arc();
        figure(pen, Amount::line_energy(arc.heat_input(), units).figure())?;

        let settings = [
            arc.current.display(CurrentUnit::Ampere, 0).text(),
            arc.voltage.display(VoltageUnit::Volt, 1).text(),
        ];
        for (text, y) in settings.iter().zip((FIGURE_TOP + 7..).step_by(11)) {
            pen.text_to(RIGHT, y, text, Letters::Small, ink::PLAIN)?;
        }

        // Both conventions: the figure with the factor, and here the arc energy that it is a share of.
        let mut energy = Line::new();
        let factor = Decimal::new(arc.efficiency.si(), 2).text();
        let factor = factor.strip_suffix('0').unwrap_or(&factor);
        let arc_energy = Amount::line_energy(arc.arc_energy(), units).text();
        let _ = write!(energy, "{factor} × arc {arc_energy}");
        pen.text(foot(0), &energy, Letters::Small, ink::PLAIN)?;

        let mut travel = Line::new();
        let _ = write!(travel, "travel {}", Amount::speed(arc.travel, units).text());
        pen.text(foot(1), &travel, Letters::Small, ink::PLAIN)
    }
}
