//! The list of jobs, with the settings under them.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::Point;
use embedded_graphics::pixelcolor::Gray4;

use super::shelf::Shelf;
use crate::ink;
use crate::page::parts::{LIST_TOP, how_far, row, title};
use crate::pen::Pen;
use crate::text::Letters;

/// Lines of the list that are seen at once.
const LINES: usize = 4;
/// The line under the jobs.
const SETTINGS: &str = "Settings";

/// How to get a first job: three lines, shown while there is none.
const HOW_TO_START: [&str; 3] = [
    "No job yet. Send one",
    "from the laptop with",
    "seamwright link send",
];

/// Draws the list with the line `chosen`; the one past the last job is the settings.
#[inline(never)]
pub(super) fn draw<D>(pen: &mut Pen<'_, D>, shelf: &Shelf, chosen: usize) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    title(pen, "Jobs")?;
    if shelf.count() == 0 {
        for (line, y) in HOW_TO_START
            .into_iter()
            .zip((13..).step_by(Letters::Small.height() as usize))
        {
            pen.text(Point::new(0, y), line, Letters::Small, ink::PLAIN)?;
        }
        return row(pen, LINES - 1, SETTINGS, true);
    }
    let count = shelf.count() + 1;
    let first = (chosen + 1).saturating_sub(LINES);
    for line in 0..LINES.min(count) {
        let place = first + line;
        let text = shelf.names().nth(place).unwrap_or(SETTINGS);
        row(pen, line, text, place == chosen)?;
    }
    if count > LINES {
        how_far(pen, LIST_TOP, (first, LINES, count))?;
    }
    Ok(())
}
