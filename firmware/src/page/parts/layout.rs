//! Where things stand on a page.
//!
//! A title and the marks of the pages on top, one large figure with a picture of the tank at its
//! right, and two small lines at the foot.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{Point, Size};
use embedded_graphics::pixelcolor::Gray4;
use embedded_graphics::primitives::Rectangle;

use crate::figures::{self, Figure};
use crate::frame::{HEIGHT, WIDTH};
use crate::ink;
use crate::pen::Pen;
use crate::text::Letters;

/// The foot of the display, past the last row.
pub(crate) const BOTTOM: i32 = HEIGHT as i32;
/// Width of the rail that shows how far one has read.
pub(crate) const RAIL: u32 = 2;
/// The right edge, past the last column.
pub(crate) const RIGHT: i32 = WIDTH as i32;
/// Top of a large figure.
pub(crate) const FIGURE_TOP: i32 = 13;
/// Top of what stands under the title.
pub(crate) const BODY_TOP: i32 = 12;
/// Tops of the two lines at the foot.
pub(crate) const FOOT: [i32; 2] = [44, 54];

/// Columns that the marks of the pages may take, and most from one to the next, the free column between counted.
const MARKS: (i32, i32) = (36, 4);
/// Height of the mark of a page.
const MARK_HEIGHT: u32 = 3;
/// Columns left free between a figure and a picture.
const BETWEEN: i32 = 6;
/// The widest that a picture beside a figure gets.
const WIDEST_PICTURE: u32 = 58;

/// The title, from the top left corner.
pub(crate) fn title<D>(pen: &mut Pen<'_, D>, title: &str) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    pen.text(Point::zero(), title, Letters::Small, ink::PLAIN)
}

/// One mark for each of so many pages in the top right corner, that of the page turned to bright and tall.
pub(crate) fn marks<D>(pen: &mut Pen<'_, D>, turned: usize, pages: usize) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let count = pages as i32;
    let pitch = (MARKS.0 / count.max(1)).clamp(2, MARKS.1);
    let left = RIGHT - count * pitch + 1;
    let area = Rectangle::new(
        Point::new(left, 2),
        Size::new((RIGHT - left) as u32, 2 * MARK_HEIGHT),
    );
    pen.claim(area);
    for (place, x) in (0..count).map(|n| left + n * pitch).enumerate() {
        let (top, height, grey) = if place == turned {
            (2, 2 * MARK_HEIGHT, ink::BRIGHT)
        } else {
            (2 + MARK_HEIGHT as i32, MARK_HEIGHT, ink::DIM)
        };
        let mark = Rectangle::new(Point::new(x, top), Size::new((pitch - 1) as u32, height));
        pen.fill(mark, grey)?;
    }
    Ok(())
}

/// The large figure at the left.
pub(crate) fn figure<D>(pen: &mut Pen<'_, D>, figure: Figure<'_>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    pen.figure(Point::new(0, FIGURE_TOP), figure)
}

/// What a figure leaves free at its right, up to the column `right`, for a picture of the tank.
pub(crate) fn beside(figure: &Figure<'_>, right: i32) -> Rectangle {
    let left = figure.width() as i32 + BETWEEN;
    let width = u32::try_from(right - left).unwrap_or(0).min(WIDEST_PICTURE);
    let top = FIGURE_TOP - 1;
    let height = figures::HEIGHT + 3;
    Rectangle::new(
        Point::new(right - width as i32, top),
        Size::new(width, height),
    )
}

/// The whole of a foot line.
pub(crate) const fn foot(line: usize) -> Point {
    Point::new(0, if line == 0 { FOOT[0] } else { FOOT[1] })
}

/// A rail at the right edge from `top` to the foot, where there is more than the display shows: `seen`
/// of `whole` things from the one at `first`.
pub(crate) fn how_far<D>(
    pen: &mut Pen<'_, D>,
    top: i32,
    (first, seen, whole): (usize, usize, usize),
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let height = (BOTTOM - top) as u32;
    let rail = Rectangle::new(
        Point::new(RIGHT - RAIL as i32, top),
        Size::new(RAIL, height),
    );
    pen.claim(rail);
    pen.fill(rail, ink::LIQUID)?;
    let down = |things: usize| (height as usize * things / whole.max(1)) as u32;
    let slide = Rectangle::new(
        rail.top_left + Point::new(0, down(first) as i32),
        Size::new(RAIL, down(seen).max(1)),
    );
    pen.fill(slide, ink::PLAIN)
}
