//! A short word as large as the figures: a bold font, each of its pixels four.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{Dimensions, Point, Size};
use embedded_graphics::mono_font::iso_8859_1::FONT_7X13_BOLD;
use embedded_graphics::mono_font::{MonoFont, MonoTextStyle};
use embedded_graphics::pixelcolor::Gray4;
use embedded_graphics::prelude::{Drawable, Pixel};
use embedded_graphics::primitives::Rectangle;
use embedded_graphics::text::{Baseline, Text};

const FONT: &MonoFont<'_> = &FONT_7X13_BOLD;
/// How many times as large as the font.
const TIMES: u32 = 2;

/// Width and height of a word, in pixels.
#[must_use]
pub fn size(word: &str) -> Size {
    let cell = FONT.character_size;
    Size::new(
        word.chars().count() as u32 * cell.width * TIMES,
        cell.height * TIMES,
    )
}

/// Draws a word with its top left corner at `at`.
///
/// # Errors
/// The target's own.
pub fn draw<D>(target: &mut D, word: &str, at: Point, ink: Gray4) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let mut larger = Larger { target, at };
    let style = MonoTextStyle::new(FONT, ink);
    Text::with_baseline(word, Point::zero(), style, Baseline::Top).draw(&mut larger)?;
    Ok(())
}

/// A target on which each pixel is a square of them.
struct Larger<'a, D> {
    target: &'a mut D,
    at: Point,
}

impl<D: DrawTarget<Color = Gray4>> Dimensions for Larger<'_, D> {
    fn bounding_box(&self) -> Rectangle {
        let whole = self.target.bounding_box();
        Rectangle::new(whole.top_left - self.at, whole.size)
    }
}

impl<D: DrawTarget<Color = Gray4>> DrawTarget for Larger<'_, D> {
    type Color = Gray4;
    type Error = D::Error;

    fn draw_iter<I>(&mut self, pixels: I) -> Result<(), D::Error>
    where
        I: IntoIterator<Item = Pixel<Gray4>>,
    {
        for Pixel(spot, grey) in pixels {
            let corner = self.at + spot * TIMES as i32;
            let square = Rectangle::new(corner, Size::new(TIMES, TIMES));
            self.target.fill_solid(&square, grey)?;
        }
        Ok(())
    }
}
