//! Small text: its letters, its width, and where it is broken.

use embedded_graphics::geometry::Point;
use embedded_graphics::mono_font::MonoFont;
use embedded_graphics::mono_font::iso_8859_1::{FONT_6X10, FONT_6X13};

/// A size of letters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Letters {
    /// 6 x 10: everything that is not the one fact of the page.
    Small,
    /// 6 x 13: lists.
    List,
}

impl Letters {
    /// The font. All are ISO 8859-1, which has the degree sign, the superscripts and the middle dot.
    #[must_use]
    pub const fn font(self) -> &'static MonoFont<'static> {
        match self {
            Self::Small => &FONT_6X10,
            Self::List => &FONT_6X13,
        }
    }

    /// Whether `sign` is drawn by [`Letters::dots`]: the fonts draw a point as a small cross, which a
    /// decimal number must not have.
    #[must_use]
    pub const fn has_own(self, sign: char) -> bool {
        matches!(sign, '.' | ':')
    }

    /// Top left corners of the square dots of a point or a colon, within its cell.
    pub fn dots(self, sign: char) -> impl Iterator<Item = Point> {
        let foot = self.font().baseline as i32 - 1;
        let upper = (sign == ':').then_some(foot - 4);
        core::iter::once(foot)
            .chain(upper)
            .map(|top| Point::new(2, top))
    }

    /// Height of a line, in pixels.
    #[must_use]
    pub const fn height(self) -> u32 {
        self.font().character_size.height
    }

    /// Width of `text`, in pixels.
    #[must_use]
    pub fn width(self, text: &str) -> u32 {
        text.chars().count() as u32 * self.font().character_size.width
    }

    /// How many letters fit in `width` pixels.
    #[must_use]
    pub const fn fitting(self, width: u32) -> usize {
        (width / self.font().character_size.width) as usize
    }
}

/// The nearest sign that the fonts have, for those of the project's own messages that they lack. One
/// sign stays one sign, so that widths hold.
#[must_use]
pub const fn latin(sign: char) -> char {
    match sign {
        '\u{2212}' | '\u{2010}'..='\u{2015}' => '-',
        '\u{2018}' | '\u{2019}' => '\'',
        '\u{201C}' | '\u{201D}' => '"',
        '…' => '.',
        '≤' => '<',
        '≥' => '>',
        '\t' | '\u{202F}' => ' ',
        other => other,
    }
}

/// The first `columns` letters of `text` and the rest.
#[must_use]
pub fn split(text: &str, columns: usize) -> (&str, &str) {
    let end = text.char_indices().nth(columns).map(|(at, _)| at);
    end.and_then(|at| text.split_at_checked(at))
        .unwrap_or((text, ""))
}

/// Breaks `text` into lines of at most `columns` letters, between words where that is possible.
pub fn wrap(text: &str, columns: usize) -> impl Iterator<Item = &str> {
    let mut rest = text.trim();
    core::iter::from_fn(move || {
        if rest.is_empty() || columns == 0 {
            return None;
        }
        let (fits, over) = split(rest, columns);
        let (line, next) = if over.is_empty() || over.starts_with(' ') {
            (fits, over)
        } else {
            match fits.rfind(' ').and_then(|at| rest.split_at_checked(at)) {
                Some((line, next)) if !line.trim_end().is_empty() => (line, next),
                _ => (fits, over),
            }
        };
        rest = next.trim_start();
        Some(line.trim_end())
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::vec::Vec;

    #[test]
    fn text_is_broken_between_words() {
        let lines: Vec<_> = wrap("a face too small to weld by hand", 12).collect();
        assert_eq!(lines, ["a face too", "small to", "weld by hand"]);
    }

    #[test]
    fn a_word_too_long_is_broken_within() {
        let lines: Vec<_> = wrap("up Hohlraumversiegelung", 8).collect();
        assert_eq!(lines, ["up", "Hohlraum", "versiege", "lung"]);
    }

    #[test]
    fn letters_of_two_bytes_count_once() {
        let lines: Vec<_> = wrap("90° 90° 90°", 7).collect();
        assert_eq!(lines, ["90° 90°", "90°"]);
        assert_eq!(split("m²·m³", 3), ("m²·", "m³"));
    }

    #[test]
    fn nothing_is_lost_in_breaking() {
        let text = "The cut 3 removes nothing: move its plane into the body, or leave it out.";
        for columns in 1..90 {
            let joined: std::string::String = wrap(text, columns)
                .flat_map(str::chars)
                .filter(|c| *c != ' ')
                .collect();
            let whole: std::string::String = text.chars().filter(|c| *c != ' ').collect();
            assert_eq!(joined, whole);
            assert!(wrap(text, columns).all(|line| line.chars().count() <= columns));
        }
    }
}
