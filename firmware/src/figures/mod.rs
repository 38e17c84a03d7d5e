//! Large figures: a number with its fraction and its unit, to be read at arm's length.
//!
//! A single-cell `⅝` cannot be read on this display, so a fraction is stacked beside the whole
//! number, its own digits 12 pixels high.

mod glyph;
mod large;
mod small;
pub mod word;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{Point, Size};
use embedded_graphics::mono_font::MonoTextStyle;
use embedded_graphics::mono_font::iso_8859_1::{FONT_6X13, FONT_9X15_BOLD};
use embedded_graphics::pixelcolor::Gray4;
use embedded_graphics::prelude::Drawable;
use embedded_graphics::primitives::Rectangle;
use embedded_graphics::text::{Baseline, Text};

use glyph::Glyph;

/// Height of a figure, in pixels.
pub const HEIGHT: u32 = large::HEIGHT as u32;

/// Dark columns between two large glyphs.
const GAP: u32 = 2;
/// Dark columns between two small digits.
const SMALL_GAP: u32 = 1;
/// Dark columns around a fraction and before a unit.
const APART: u32 = 4;
/// A blank, or a sign that has no glyph.
const BLANK: u32 = 7;
/// The bar of a fraction starts this far down, and is this thick.
const BAR: (i32, u32) = (13, 2);

/// A number to be shown large.
///
/// The number may hold digits and `. · - / × °`; any other sign leaves a blank. The unit stands at
/// the foot of the figure, on two lines where it holds a line break (`US` over `gal`).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Figure<'a> {
    /// The whole number or the decimal number; may be empty where there is a fraction.
    pub number: &'a str,
    /// Numerator and denominator of a fraction to be stacked beside it.
    pub fraction: Option<(u32, u32)>,
    /// The unit; may be empty.
    pub unit: &'a str,
}

impl<'a> Figure<'a> {
    /// A number without a fraction.
    #[must_use]
    pub const fn plain(number: &'a str, unit: &'a str) -> Self {
        Self {
            number,
            fraction: None,
            unit,
        }
    }

    /// Width in pixels.
    #[must_use]
    pub fn width(&self) -> u32 {
        let mut pieces = self.number_width();
        if let Some(fraction) = self.fraction {
            let before = if pieces > 0 { APART } else { 0 };
            pieces += before + fraction_width(fraction);
        }
        if !self.unit.is_empty() {
            pieces += APART + unit_width(self.unit);
        }
        pieces
    }

    /// Draws it with its top left corner at `at`, in `ink`.
    ///
    /// # Errors
    /// The target's own.
    pub fn draw<D>(&self, target: &mut D, at: Point, ink: Gray4) -> Result<(), D::Error>
    where
        D: DrawTarget<Color = Gray4>,
    {
        let mut x = at.x;
        for sign in self.number.chars() {
            if let Some(glyph) = large::glyph(sign) {
                target.draw_iter(glyph.pixels(Point::new(x, at.y), ink))?;
            }
            x += (advance(sign) + GAP) as i32;
        }
        x = at.x + self.number_width() as i32;
        if let Some(fraction) = self.fraction {
            if x > at.x {
                x += APART as i32;
            }
            draw_fraction(target, fraction, Point::new(x, at.y), ink)?;
            x += fraction_width(fraction) as i32;
        }
        draw_unit(target, self.unit, Point::new(x + APART as i32, at.y), ink)
    }

    /// Width of the large part.
    fn number_width(&self) -> u32 {
        spaced(self.number.chars().map(advance), GAP)
    }
}

/// Width of a large sign.
fn advance(sign: char) -> u32 {
    large::glyph(sign).map_or(BLANK, Glyph::width)
}

/// Widths side by side with gaps between.
fn spaced(widths: impl Iterator<Item = u32>, gap: u32) -> u32 {
    widths.fold(0, |sum, width| sum + width + if sum > 0 { gap } else { 0 })
}

/// The decimal digits of a number, highest first.
fn digits(number: u32) -> impl Iterator<Item = char> {
    let count = number.checked_ilog10().unwrap_or(0);
    (0..=count)
        .rev()
        .filter_map(move |power| char::from_digit(number / 10_u32.pow(power) % 10, 10))
}

/// Width of one part of a fraction.
fn part_width(number: u32) -> u32 {
    let widths = digits(number).filter_map(|digit| small::glyph(digit).map(Glyph::width));
    spaced(widths, SMALL_GAP)
}

/// Width of a stacked fraction.
fn fraction_width((numerator, denominator): (u32, u32)) -> u32 {
    part_width(numerator).max(part_width(denominator))
}

fn draw_fraction<D>(
    target: &mut D,
    fraction: (u32, u32),
    at: Point,
    ink: Gray4,
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let width = fraction_width(fraction);
    let (bar_top, bar_height) = BAR;
    let foot = HEIGHT as i32 - small::HEIGHT as i32;
    for (part, top) in [(fraction.0, 0), (fraction.1, foot)] {
        let mut x = at.x + ((width - part_width(part)) / 2) as i32;
        for glyph in digits(part).filter_map(small::glyph) {
            target.draw_iter(glyph.pixels(Point::new(x, at.y + top), ink))?;
            x += (glyph.width() + SMALL_GAP) as i32;
        }
    }
    let bar = Rectangle::new(at + Point::new(0, bar_top), Size::new(width, bar_height));
    target.fill_solid(&bar, ink)
}

/// A unit of more letters than this takes the smaller ones.
const SHORT_UNIT: usize = 2;

fn unit_style(unit: &str, ink: Gray4) -> MonoTextStyle<'static, Gray4> {
    let font = if unit.chars().count() > SHORT_UNIT {
        &FONT_6X13
    } else {
        &FONT_9X15_BOLD
    };
    MonoTextStyle::new(font, ink)
}

/// Width of a unit.
fn unit_width(unit: &str) -> u32 {
    let size = unit_style(unit, Gray4::new(15)).font.character_size;
    let longest = unit.lines().map(|line| line.chars().count()).max();
    longest.unwrap_or(0) as u32 * size.width
}

fn draw_unit<D>(target: &mut D, unit: &str, at: Point, ink: Gray4) -> Result<(), D::Error>
where
    D: DrawTarget<Color = Gray4>,
{
    let style = unit_style(unit, ink);
    let font = style.font;
    let lines = unit.lines().count() as i32;
    // The letters' baseline is the figure's own foot.
    let below = font.character_size.height as i32 - 1 - font.baseline as i32;
    let mut top = at.y + HEIGHT as i32 + below - lines * font.character_size.height as i32;
    for line in unit.lines() {
        Text::with_baseline(line, Point::new(at.x, top), style, Baseline::Top).draw(target)?;
        top += font.character_size.height as i32;
    }
    Ok(())
}
