//! A job that cannot be computed: which input is at fault, and why.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::tank::JobError;

use super::layout::title;
use super::prose::{Prose, Reading};
use crate::buttons::{Button, Event};
use crate::pen::Pen;

/// Reads on or back.
pub(crate) fn turn(error: &JobError, read: Reading, event: Event) -> Reading {
    let last = Prose::of(error.problem).parts() - 1;
    let part = match event {
        Event::Press(Button::Down) | Event::Repeat(Button::Down) => (read.part + 1).min(last),
        Event::Press(Button::Up) | Event::Repeat(Button::Up) => read.part.saturating_sub(1),
        _ => read.part,
    };
    Reading { piece: 0, part }
}

/// Draws the error.
#[inline(never)]
pub(crate) fn draw<D>(pen: &mut Pen<'_, D>, error: &JobError, read: Reading) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    title(pen, "Cannot compute")?;
    let mut field = heapless::String::<40>::new();
    if write!(field, "{}", error.field).is_err() {
        pen.leave_out();
    }
    Prose::of(error.problem).draw(pen, &field, read.part)
}
