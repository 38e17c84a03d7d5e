//! How much the tank holds: to the brim, to the fill mark, and of that what can be drawn.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::Point;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::capacity::Lean;
use seamwright_core::input::Measure;
use seamwright_core::units::Length;

use super::layout::{RIGHT, beside, figure, foot, title};
use crate::amount::{Amount, Units};
use crate::gauge::Work;
use crate::ink;
use crate::pen::Pen;
use crate::picture::{Look, Style, View, edges, liquid};
use crate::text::Letters;

/// Draws the page: the chosen measure large, the other two at the foot.
#[inline(never)]
pub(super) fn draw<D>(pen: &mut Pen<'_, D>, work: &Work<'_>, units: Units) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let capacity = work.tank().capacity();
    let chosen = work.measure();
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

const fn heading(measure: Measure) -> &'static str {
    match measure {
        Measure::Brim => "Holds, brim",
        Measure::Fill => "Holds, filled",
        Measure::Usable => "Holds, usable",
    }
}

/// The level tank beside a figure, filled to a depth.
pub(super) fn filled<D>(
    pen: &mut Pen<'_, D>,
    work: &Work<'_>,
    amount: &Amount,
    depth: Length,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let tank = work.tank();
    let look = Look {
        lean: Lean::LEVEL,
        quarters: work.quarters(),
    };
    let outside = &tank.body().outside;
    let Some(view) = View::fit(outside, look, beside(&amount.figure(), RIGHT)) else {
        return Ok(());
    };
    pen.claim(view.extent());
    let pool = tank.pool(Lean::LEVEL);
    liquid(
        pen.target(),
        tank.inside(),
        &view,
        pool.up(),
        pool.height_of(depth),
    )?;
    edges(pen.target(), outside, &view, Style::Ground, None)
}
