//! A line of a list.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::Point;
use embedded_graphics::pixelcolor::Gray4;

use super::layout::RIGHT;
use crate::ink;
use crate::pen::Pen;
use crate::text::Letters;

/// Height of a line.
const LINE_HEIGHT: i32 = 13;
/// Where the first line stands.
pub(crate) const LIST_TOP: i32 = 12;
/// Width of a line; the rest is for the mark of how far down the list one is.
const LINE_WIDTH: u32 = RIGHT as u32 - 4;

/// One line of a list, the chosen one dark on a bright bar.
pub(crate) fn row<D>(
    pen: &mut Pen<'_, D>,
    line: usize,
    text: &str,
    chosen: bool,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let at = Point::new(0, LIST_TOP + line as i32 * LINE_HEIGHT);
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
