//! Bitmaps read from text while compiling.

use embedded_graphics::Pixel;
use embedded_graphics::geometry::Point;
use embedded_graphics::pixelcolor::{Gray4, GrayColor};

/// Greys of the art's four signs, in sixteenths of full ink less one.
const LEVELS: [u8; 4] = [0, 5, 10, 15];
/// Pixels that fit a row: two bits each.
const MOST_WIDTH: u32 = u32::BITS / 2;

/// A bitmap of `H` rows, two bits a pixel, the left pixel highest.
#[derive(Clone, Copy, Debug)]
pub(super) struct Glyph<const H: usize> {
    width: u32,
    rows: [u32; H],
}

impl<const H: usize> Glyph<H> {
    /// Width in pixels.
    pub(super) const fn width(&self) -> u32 {
        self.width
    }

    /// The inked pixels with the glyph's top left corner at `at`, full ink being `ink`.
    pub(super) fn pixels(&self, at: Point, ink: Gray4) -> impl Iterator<Item = Pixel<Gray4>> {
        let width = self.width;
        self.rows.iter().zip(0_i32..).flat_map(move |(row, y)| {
            (0..width).zip(0_i32..).filter_map(move |(column, x)| {
                let code = (row >> (u32::BITS - 2 - 2 * column)) & 0b11;
                let level = LEVELS
                    .get(code as usize)
                    .copied()
                    .filter(|level| *level > 0)?;
                let grey = u16::from(level) * u16::from(ink.luma()) / 15;
                Some(Pixel(at + Point::new(x, y), Gray4::new(grey as u8)))
            })
        })
    }
}

/// Reads `N` glyphs of `H` rows that stand side by side in `art` with blanks between them, under an
/// empty first line. It runs only while compiling: a slip in the art stops the build.
#[expect(
    clippy::indexing_slicing,
    clippy::panic,
    reason = "evaluated only while compiling"
)]
pub(super) const fn strip<const H: usize, const N: usize>(art: &str) -> [Glyph<H>; N] {
    let bytes = art.as_bytes();
    let mut glyphs = [Glyph {
        width: 0,
        rows: [0; H],
    }; N];
    assert!(bytes[0] == b'\n', "the art begins on its own line");
    let (mut at, mut row, mut glyph, mut column) = (1, 0, 0, 0);
    while at < bytes.len() {
        let code = match bytes[at] {
            b'.' => Some(0),
            b'-' => Some(1),
            b'+' => Some(2),
            b'#' => Some(3),
            b' ' => None,
            b'\n' => {
                assert!(glyph == N - 1, "every row holds a piece of every glyph");
                assert!(
                    column == glyphs[glyph].width,
                    "a glyph's rows are of one length"
                );
                row += 1;
                (glyph, column) = (0, 0);
                at += 1;
                continue;
            }
            _ => panic!("the art has only . - + # and blanks"),
        };
        match code {
            Some(code) => {
                assert!(column < MOST_WIDTH, "a glyph is at most 16 wide");
                glyphs[glyph].rows[row] |= code << (u32::BITS - 2 - 2 * column);
                column += 1;
                if row == 0 {
                    glyphs[glyph].width = column;
                }
            }
            None if column > 0 => {
                assert!(
                    column == glyphs[glyph].width,
                    "a glyph's rows are of one length"
                );
                glyph += 1;
                column = 0;
            }
            None => {}
        }
        at += 1;
    }
    assert!(row == H, "every glyph has all its rows");
    glyphs
}
