//! The list of jobs, with the settings under them.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::Point;
use embedded_graphics::pixelcolor::Gray4;

use super::layout::{RIGHT, how_far, title};
use crate::gauge::Shelf;
use crate::ink;
use crate::pen::Pen;
use crate::text::Letters;

/// Lines of the list that are seen at once.
const LINES: usize = 4;
/// Height of a line, and where the first stands.
const LINE: (i32, i32) = (13, 12);
/// Width of a line; the rest is for the mark of how far down the list one is.
const LINE_WIDTH: u32 = RIGHT as u32 - 4;
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
pub(crate) fn draw<D>(pen: &mut Pen<'_, D>, shelf: &Shelf, chosen: usize) -> Result<(), D::Error>
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
        how_far(pen, LINE.1, (first, LINES, count))?;
    }
    Ok(())
}

/// One line of a list, the chosen one dark on a bright bar.
pub(super) fn row<D>(
    pen: &mut Pen<'_, D>,
    line: usize,
    text: &str,
    chosen: bool,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let (height, top) = LINE;
    let at = Point::new(0, top + line as i32 * height);
    let (shown, rest) = pen.shorten(text, LINE_WIDTH - 2, Letters::List);
    let mut label = heapless::String::<96>::new();
    // A name has at most 64 bytes.
    let _ = label.push_str(shown);
    let _ = label.push_str(rest);
    if chosen {
        pen.chosen(at, LINE_WIDTH, &label, Letters::List)
    } else {
        pen.text(at + Point::new(1, 0), &label, Letters::List, ink::PLAIN)
    }
}
