//! The gauge's picture as characters: half blocks if the terminal has room, else braille.

use ratatui::buffer::Buffer;
use ratatui::layout::{Alignment, Position, Rect};
use ratatui::style::{Color, Modifier, Style};
use ratatui::widgets::{Paragraph, Widget, Wrap};
use seamwright_firmware::frame::{Frame, HEIGHT, WIDTH};

/// How the picture is put into characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grain {
    /// Two pixels a character, one above the other, in their greys: 128 x 32.
    HalfBlock,
    /// Eight pixels a character, each lit or dark: 64 x 16.
    Braille,
}

/// What the keys do.
const HINT: &str = "arrows: turn and choose   Enter: select   Esc: back   q: quit";

/// From this grey up a pixel counts as lit where there are no greys. Low, so that the thin grey
/// lines of hidden edges stay visible.
const LIT: u8 = 5;

impl Grain {
    /// Columns and rows that it needs.
    #[must_use]
    pub const fn size(self) -> (u16, u16) {
        match self {
            Self::HalfBlock => (WIDTH as u16, (HEIGHT / 2) as u16),
            Self::Braille => ((WIDTH / 2) as u16, (HEIGHT / 4) as u16),
        }
    }

    /// The finest that fits into `columns` x `rows`; `None` if none does. Without colour there are
    /// no greys, so half blocks would show less than braille does.
    #[must_use]
    pub fn fitting(columns: u16, rows: u16, colour: bool) -> Option<Self> {
        let fits = |grain: &Self| {
            let (wide, high) = grain.size();
            wide <= columns && high <= rows && (colour || *grain == Self::Braille)
        };
        [Self::HalfBlock, Self::Braille].into_iter().find(fits)
    }

    /// Draws `frame` with its top left corner at that of `area`, which must be large enough; what
    /// lies outside the buffer is left out.
    pub fn draw(self, frame: &Frame, area: Rect, buffer: &mut Buffer) {
        let (wide, high) = self.size();
        for row in 0..high.min(area.height) {
            for column in 0..wide.min(area.width) {
                let position =
                    Position::new(area.x.saturating_add(column), area.y.saturating_add(row));
                let Some(cell) = buffer.cell_mut(position) else {
                    continue;
                };
                match self {
                    Self::HalfBlock => {
                        let (top, bottom) = (2 * row, 2 * row + 1);
                        let style = Style::new()
                            .fg(grey(level(frame, column, top)))
                            .bg(grey(level(frame, column, bottom)));
                        cell.set_char('▀').set_style(style);
                    }
                    Self::Braille => {
                        cell.set_char(braille(|dx, dy| {
                            level(frame, 2 * column + dx, 4 * row + dy) >= LIT
                        }));
                    }
                }
            }
        }
    }
}

/// The whole screen: the picture in the middle, a line about the keys below it if there is room.
pub fn compose(frame: &Frame, area: Rect, buffer: &mut Buffer, colour: bool) {
    let Some(grain) = Grain::fitting(area.width, area.height, colour) else {
        let (wide, high) = Grain::Braille.size();
        let text = format!(
            "The gauge needs {wide} x {high} characters; this terminal has {} x {}. Make the window larger, or press q.",
            area.width, area.height
        );
        Paragraph::new(text)
            .wrap(Wrap { trim: true })
            .render(area, buffer);
        return;
    };
    let (wide, high) = grain.size();
    let left = area.x.saturating_add(area.width.saturating_sub(wide) / 2);
    let top = area.y.saturating_add(area.height.saturating_sub(high) / 2);
    grain.draw(frame, Rect::new(left, top, wide, high), buffer);
    let line = Rect::new(area.x, area.bottom().saturating_sub(1), area.width, 1);
    if top.saturating_add(high) <= line.y {
        Paragraph::new(HINT)
            .style(Style::new().add_modifier(Modifier::DIM))
            .alignment(Alignment::Center)
            .render(line, buffer);
    }
}

fn level(frame: &Frame, x: u16, y: u16) -> u8 {
    frame.level(u32::from(x), u32::from(y)).unwrap_or(0)
}

/// The nearest of the 256-colour palette's greys, 17 times the level being the brightness: black and
/// white of its colour cube, and between them the ramp, whose 232nd to 255th are 8, 18 … 238. No two
/// levels share one.
#[must_use]
pub const fn grey(level: u8) -> Color {
    Color::Indexed(match level {
        0 => 16,
        1..15 => 232 + (17 * level - 8 + 5) / 10,
        _ => 231,
    })
}

/// The braille pattern of 2 x 4 dots; the bit of each dot is Unicode's (chapter 21.1).
fn braille(lit: impl Fn(u16, u16) -> bool) -> char {
    const DOTS: [(u16, u16, u32); 8] = [
        (0, 0, 0x01),
        (0, 1, 0x02),
        (0, 2, 0x04),
        (1, 0, 0x08),
        (1, 1, 0x10),
        (1, 2, 0x20),
        (0, 3, 0x40),
        (1, 3, 0x80),
    ];
    let bits = DOTS
        .iter()
        .filter(|(dx, dy, _)| lit(*dx, *dy))
        .fold(0, |bits, (_, _, bit)| bits | bit);
    char::from_u32(0x2800 + bits).unwrap_or(' ')
}

#[cfg(test)]
mod tests {
    use super::*;
    use embedded_graphics::Pixel;
    use embedded_graphics::pixelcolor::Gray4;
    use embedded_graphics::prelude::*;

    #[test]
    fn the_finest_grain_that_fits_is_taken() {
        for (columns, rows, colour, grain) in [
            (128, 32, true, Some(Grain::HalfBlock)),
            (200, 60, false, Some(Grain::Braille)),
            (127, 32, true, Some(Grain::Braille)),
            (128, 31, true, Some(Grain::Braille)),
            (64, 16, true, Some(Grain::Braille)),
            (63, 16, true, None),
            (64, 15, true, None),
            (0, 0, true, None),
        ] {
            assert_eq!(
                Grain::fitting(columns, rows, colour),
                grain,
                "{columns} x {rows}"
            );
        }
    }

    #[test]
    fn greys_are_as_bright_as_their_levels() {
        for level in 0..16 {
            let brightness = match grey(level) {
                Color::Indexed(16) => 0,
                Color::Indexed(231) => 255,
                Color::Indexed(ramp @ 232..) => 8 + 10 * (i32::from(ramp) - 232),
                other => panic!("{other:?} is no grey"),
            };
            let wanted = 17 * i32::from(level);
            assert!((brightness - wanted).abs() <= 5, "{level}: {brightness}");
        }
    }

    #[test]
    fn pixels_land_in_their_cells() {
        let mut frame = Frame::new();
        for (x, y, luma) in [(0, 0, 15), (127, 63, 7), (3, 5, 4)] {
            Pixel(Point::new(x, y), Gray4::new(luma))
                .draw(&mut frame)
                .unwrap();
        }
        let mut blocks = Buffer::empty(Rect::new(0, 0, 130, 34));
        Grain::HalfBlock.draw(&frame, Rect::new(1, 1, 128, 32), &mut blocks);
        assert_eq!(blocks[(1, 1)].fg, grey(15));
        assert_eq!(blocks[(1, 1)].bg, grey(0));
        assert_eq!(blocks[(128, 32)].bg, grey(7));
        assert_eq!(blocks[(4, 3)].bg, grey(4));

        let mut dots = Buffer::empty(Rect::new(0, 0, 64, 16));
        Grain::Braille.draw(&frame, dots.area, &mut dots);
        assert_eq!(dots[(0, 0)].symbol(), "\u{2801}");
        assert_eq!(dots[(63, 15)].symbol(), "\u{2880}");
        assert_eq!(dots[(1, 1)].symbol(), "\u{2800}", "grey 4 is dark");
    }

    #[test]
    fn a_buffer_that_is_too_small_is_no_panic() {
        let mut buffer = Buffer::empty(Rect::new(0, 0, 5, 2));
        Grain::HalfBlock.draw(&Frame::new(), Rect::new(3, 1, 128, 32), &mut buffer);
    }
}
