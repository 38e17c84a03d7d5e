//! What a page draws its pieces with. It keeps account of where each piece went, so that words that
//! run into one another or off the edge are found by a count and not by luck.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{Point, Size};
use embedded_graphics::mono_font::MonoTextStyle;
use embedded_graphics::pixelcolor::Gray4;
use embedded_graphics::primitives::Rectangle;
use embedded_graphics::text::Baseline;
use embedded_graphics::text::renderer::TextRenderer;

use crate::figures::Figure;
use crate::ink;
use crate::text::{Letters, latin, split};

/// A point, on the line or over it.
const DOT: Size = Size::new(2, 2);

/// Pieces of one page that are kept account of.
const MOST_PIECES: usize = 40;

/// What went wrong in laying a page out; all zero on a sound page.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Faults {
    /// Pieces that overlap one placed before.
    pub overlaps: u16,
    /// Pieces that pass the edge of the display.
    pub outside: u16,
    /// Pieces of which something had to be left out.
    pub cut: u16,
    /// Pieces past those that are kept account of.
    pub unchecked: u16,
}

/// Draws text, figures and pictures on a target and keeps account of where they went.
#[derive(Debug)]
pub struct Pen<'a, D> {
    target: &'a mut D,
    places: heapless::Vec<Rectangle, MOST_PIECES>,
    faults: Faults,
}

impl<'a, D> Pen<'a, D>
where
    D: DrawTarget<Color = Gray4>,
{
    /// A pen for a dark `target`.
    pub const fn new(target: &'a mut D) -> Self {
        Self {
            target,
            places: heapless::Vec::new(),
            faults: Faults {
                overlaps: 0,
                outside: 0,
                cut: 0,
                unchecked: 0,
            },
        }
    }

    /// What has gone wrong so far.
    #[must_use]
    pub const fn faults(&self) -> Faults {
        self.faults
    }

    /// The target itself, for a piece whose place has been claimed.
    pub const fn target(&mut self) -> &mut D {
        self.target
    }

    /// Notes that a piece takes up `area`.
    pub fn claim(&mut self, area: Rectangle) {
        if area.is_zero_sized() {
            return;
        }
        let whole = self.target.bounding_box();
        if whole.intersection(&area) != area {
            self.faults.outside = self.faults.outside.saturating_add(1);
        }
        let meets = |place: &Rectangle| !place.intersection(&area).is_zero_sized();
        if self.places.iter().any(meets) {
            self.faults.overlaps = self.faults.overlaps.saturating_add(1);
        }
        if self.places.push(area).is_err() {
            self.faults.unchecked = self.faults.unchecked.saturating_add(1);
        }
    }

    /// Notes that something had to be left out.
    pub const fn leave_out(&mut self) {
        self.faults.cut = self.faults.cut.saturating_add(1);
    }

    /// Writes `text` with its top left corner at `at`.
    ///
    /// # Errors
    /// The target's own, here and below.
    pub fn text(
        &mut self,
        at: Point,
        text: &str,
        letters: Letters,
        grey: Gray4,
    ) -> Result<(), D::Error> {
        self.claim(Rectangle::new(
            at,
            Size::new(letters.width(text), letters.height()),
        ));
        self.letters(at, text, letters, grey)
    }

    /// Writes `text` so that it ends before the column `right`.
    pub fn text_to(
        &mut self,
        right: i32,
        top: i32,
        text: &str,
        letters: Letters,
        grey: Gray4,
    ) -> Result<(), D::Error> {
        let left = right - letters.width(text) as i32;
        self.text(Point::new(left, top), text, letters, grey)
    }

    /// Writes the first of `choices` that fits `width`, longest first; counts a cut if none does.
    pub fn fitting(
        &mut self,
        at: Point,
        width: u32,
        choices: &[&str],
        letters: Letters,
        grey: Gray4,
    ) -> Result<(), D::Error> {
        let columns = letters.fitting(width);
        match choices.iter().find(|text| text.chars().count() <= columns) {
            Some(text) => self.text(at, text, letters, grey),
            None => {
                self.leave_out();
                Ok(())
            }
        }
    }

    /// Writes `text` dark on a bright bar of `width` pixels, a pixel in from its left end.
    pub fn chosen(
        &mut self,
        at: Point,
        width: u32,
        text: &str,
        letters: Letters,
    ) -> Result<(), D::Error> {
        let bar = Rectangle::new(at, Size::new(width, letters.height()));
        self.claim(bar);
        self.target.fill_solid(&bar, ink::BRIGHT)?;
        self.letters(at + Point::new(1, 0), text, letters, ink::DARK)
    }

    /// As much of `text` as fits `width`, with two points where something is missing. Only for names
    /// that a user chose, which may be any length; nothing counts as cut.
    pub fn shorten<'t>(
        &self,
        text: &'t str,
        width: u32,
        letters: Letters,
    ) -> (&'t str, &'static str) {
        let columns = letters.fitting(width);
        if text.chars().count() <= columns {
            return (text, "");
        }
        (split(text, columns.saturating_sub(2)).0.trim_end(), "..")
    }

    /// Shows a large figure with its top left corner at `at`.
    pub fn figure(&mut self, at: Point, figure: Figure<'_>) -> Result<(), D::Error> {
        self.claim(Rectangle::new(
            at,
            Size::new(figure.width(), crate::figures::HEIGHT),
        ));
        figure.draw(self.target, at, ink::BRIGHT)
    }

    /// Writes a short word as large as a figure.
    pub fn word(&mut self, at: Point, word: &str) -> Result<(), D::Error> {
        use crate::figures::word;
        self.claim(Rectangle::new(at, word::size(word)));
        word::draw(self.target, word, at, ink::BRIGHT)
    }

    /// Fills an area that is a piece of its own.
    pub fn fill(&mut self, area: Rectangle, grey: Gray4) -> Result<(), D::Error> {
        self.target.fill_solid(&area, grey)
    }

    /// The letters themselves, one by one, so that a sign which the font lacks can be replaced.
    fn letters(
        &mut self,
        mut at: Point,
        text: &str,
        letters: Letters,
        grey: Gray4,
    ) -> Result<(), D::Error> {
        let style = MonoTextStyle::new(letters.font(), grey);
        let mut utf8 = [0; 4];
        for sign in text.chars() {
            if letters.has_own(sign) {
                for dot in letters.dots(sign) {
                    self.target
                        .fill_solid(&Rectangle::new(at + dot, DOT), grey)?;
                }
                at.x += letters.font().character_size.width as i32;
                continue;
            }
            let sign: &str = latin(sign).encode_utf8(&mut utf8);
            at = style.draw_string(sign, at, Baseline::Top, self.target)?;
        }
        Ok(())
    }
}
