//! A running time in large figures.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{Point, Size};
use embedded_graphics::pixelcolor::Gray4;
use embedded_graphics::primitives::Rectangle;

use super::layout::FIGURE_TOP;
use crate::figures::Figure;
use crate::ink;
use crate::pen::Pen;

/// One part of the time.
type Digits = heapless::String<24>;

/// Side of a dot of the timer's colon, what is left free at each of its sides, and the tops of both.
const COLON: (u32, i32, [i32; 2]) = (5, 4, [7, 18]);

/// Minutes and seconds, or hours and minutes, with a colon between.
pub(crate) fn timer<D>(pen: &mut Pen<'_, D>, seconds: u64) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let minutes = seconds / 60;
    let ([large, small], unit) = if minutes < 100 {
        ([minutes, seconds % 60], "min")
    } else {
        ([minutes / 60, minutes % 60], "h")
    };
    let mut text = [const { Digits::new() }; 2];
    let [left, right] = &mut text;
    let _ = write!(left, "{large}");
    let _ = write!(right, "{small:02}");
    let first = Figure::plain(left, "");
    pen.figure(Point::new(0, FIGURE_TOP), first)?;
    let (side, free, tops) = COLON;
    let x = first.width() as i32 + free;
    for top in tops {
        let dot = Rectangle::new(Point::new(x, FIGURE_TOP + top), Size::new(side, side));
        pen.claim(dot);
        pen.fill(dot, ink::BRIGHT)?;
    }
    let x = x + side as i32 + free;
    pen.figure(Point::new(x, FIGURE_TOP), Figure::plain(right, unit))
}
