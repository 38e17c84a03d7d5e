//! The tank beside a figure.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::capacity::Lean;
use seamwright_core::units::Length;

use super::layout::{RIGHT, beside};
use crate::amount::Amount;
use crate::figures::Figure;
use crate::pen::Pen;
use crate::picture::{Look, Style, View, edges, liquid};
use crate::work::Work;

/// How the level tank is seen beside a figure.
pub(crate) fn view(work: &Work<'_>, figure: &Figure<'_>) -> Option<View> {
    let look = Look {
        lean: Lean::LEVEL,
        quarters: work.quarters(),
    };
    View::fit(&work.tank().body().outside, look, beside(figure, RIGHT))
}

/// The level tank beside a figure, filled to a depth.
pub(crate) fn filled<D>(
    pen: &mut Pen<'_, D>,
    work: &Work<'_>,
    amount: &Amount,
    depth: Length,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let tank = work.tank();
    let outside = &tank.body().outside;
    let Some(view) = view(work, &amount.figure()) else {
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
