//! A job that cannot be computed: which input is at fault, and why.

use core::fmt::Write;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::Gray4;
use seamwright_core::tank::JobError;

use crate::buttons::{Event, Step};
use crate::page::parts::{Prose, along, title};
use crate::pen::Pen;

/// What is wrong, and which screenful of it is read.
#[derive(Clone, Copy, Debug)]
pub(super) struct Trouble {
    error: JobError,
    part: usize,
}

impl Trouble {
    pub(super) const fn new(error: JobError) -> Self {
        Self { error, part: 0 }
    }

    /// Reads on or back.
    pub(super) fn handle(&mut self, event: Event) {
        if let Some(step) = Step::of(event) {
            let parts = Prose::of(self.error.problem).parts();
            self.part = along(self.part, step.up, parts);
        }
    }

    /// Draws the error.
    #[inline(never)]
    pub(super) fn draw<D>(&self, pen: &mut Pen<'_, D>) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        title(pen, "Cannot compute")?;
        let mut field = heapless::String::<40>::new();
        if write!(field, "{}", self.error.field).is_err() {
            pen.leave_out();
        }
        Prose::of(self.error.problem).draw(pen, &field, self.part)
    }
}
