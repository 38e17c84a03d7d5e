//! Sentences longer than the display: broken into lines, read a screenful at a time.

use core::fmt::{Display, Write};

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::Point;
use embedded_graphics::pixelcolor::Gray4;

use super::layout::{BODY_TOP, RAIL, RIGHT, how_far};
use crate::ink;
use crate::pen::Pen;
use crate::text::{Letters, wrap};

/// Letters in a line.
const COLUMNS: usize = Letters::Small.fitting(RIGHT as u32 - RAIL);
/// Height of a line.
const LINE: i32 = Letters::Small.height() as i32;
/// Lines in a screenful, under a heading.
const LINES: usize = 4;
/// Bytes that a sentence may have.
const MOST_BYTES: usize = 400;

/// A sentence.
pub(crate) struct Prose {
    text: heapless::String<MOST_BYTES>,
    whole: bool,
}

impl Prose {
    /// What something says of itself.
    pub(crate) fn of(said: impl Display) -> Self {
        let mut text = heapless::String::new();
        let whole = write!(text, "{said}").is_ok();
        Self { text, whole }
    }

    /// How many screenfuls it takes, at least one.
    pub(crate) fn parts(&self) -> usize {
        wrap(&self.text, COLUMNS).count().div_ceil(LINES).max(1)
    }

    /// Draws one screenful under a heading, with a rail at the right where there is more.
    pub(crate) fn draw<D>(
        &self,
        pen: &mut Pen<'_, D>,
        heading: &str,
        part: usize,
    ) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        if !self.whole {
            pen.leave_out();
        }
        pen.text(
            Point::new(0, BODY_TOP),
            heading,
            Letters::Small,
            ink::BRIGHT,
        )?;
        if self.parts() > 1 {
            how_far(pen, BODY_TOP, (part, 1, self.parts()))?;
        }
        let lines = wrap(&self.text, COLUMNS).skip(part * LINES).take(LINES);
        for (line, y) in lines.zip((BODY_TOP + LINE + 1..).step_by(LINE as usize)) {
            pen.text(Point::new(0, y), line, Letters::Small, ink::PLAIN)?;
        }
        Ok(())
    }
}
