//! The picture in memory, laid out as the display's own memory is.

mod window;

pub use window::Window;

use core::convert::Infallible;

use embedded_graphics::Pixel;
use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{OriginDimensions, Point, Size};
use embedded_graphics::pixelcolor::{Gray4, GrayColor};
use embedded_graphics::primitives::Rectangle;

/// Width of the picture, in pixels.
pub const WIDTH: u32 = 128;
/// Height of the picture, in pixels.
pub const HEIGHT: u32 = 64;
/// Bytes in one row: two pixels share a byte.
pub const ROW_BYTES: usize = (WIDTH / 2) as usize;
/// Rows, as a count of array entries.
const ROWS: usize = HEIGHT as usize;
/// Bytes in the whole picture.
pub const FRAME_BYTES: usize = ROW_BYTES * ROWS;

/// One row of the picture: two pixels a byte, the left one in the high nibble.
pub type Row = [u8; ROW_BYTES];

/// A picture of 128 x 64 pixels in 16 greys (0 is dark), 4 KiB.
///
/// Rows run top to bottom; a row is [`ROW_BYTES`] bytes, the left pixel of a pair in the high
/// nibble, which is how a SSD0323 display takes it. Pixels drawn outside are dropped, and counted in
/// [`strays`](Self::strays), so that a test can insist that a screen keeps within its edges.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Frame {
    rows: [Row; ROWS],
    strays: u32,
}

impl Default for Frame {
    fn default() -> Self {
        Self::new()
    }
}

impl Frame {
    /// A dark picture.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            rows: [[0; ROW_BYTES]; ROWS],
            strays: 0,
        }
    }

    /// Darkens the whole picture and forgets the count of strays.
    pub fn wipe(&mut self) {
        self.rows = [[0; ROW_BYTES]; ROWS];
        self.strays = 0;
    }

    /// How many pixels have been drawn outside since the picture was last wiped.
    #[must_use]
    pub const fn strays(&self) -> u32 {
        self.strays
    }

    /// The grey of a pixel, 0 to 15; `None` outside the picture.
    #[must_use]
    pub fn level(&self, x: u32, y: u32) -> Option<u8> {
        let byte = *self.rows.get(y as usize)?.get((x / 2) as usize)?;
        Some(if x.is_multiple_of(2) {
            byte >> 4
        } else {
            byte & 0x0F
        })
    }

    /// All rows, top to bottom.
    #[must_use]
    pub const fn rows(&self) -> &[Row; ROWS] {
        &self.rows
    }

    /// The bytes of `window`, row by row: exactly what a display expects after that window is set.
    pub fn bytes_of(&self, window: Window) -> impl Iterator<Item = &[u8]> {
        self.rows
            .get(window.row_range())
            .unwrap_or_default()
            .iter()
            .map(move |row| row.get(window.column_range()).unwrap_or_default())
    }

    /// Takes over the bytes of `window` from `other`.
    pub fn copy_window(&mut self, other: &Self, window: Window) {
        let rows = window.row_range();
        let (Some(to), Some(from)) = (self.rows.get_mut(rows.clone()), other.rows.get(rows)) else {
            return;
        };
        for (to, from) in to.iter_mut().zip(from) {
            let columns = window.column_range();
            if let (Some(to), Some(from)) = (to.get_mut(columns.clone()), from.get(columns)) {
                to.copy_from_slice(from);
            }
        }
    }

    /// Sets one pixel; false when it lies outside.
    fn set(&mut self, x: i32, y: i32, luma: u8) -> bool {
        let (Ok(column), Ok(row)) = (usize::try_from(x), usize::try_from(y)) else {
            return false;
        };
        let Some(byte) = self.rows.get_mut(row).and_then(|r| r.get_mut(column / 2)) else {
            return false;
        };
        *byte = if column.is_multiple_of(2) {
            (*byte & 0x0F) | (luma << 4)
        } else {
            (*byte & 0xF0) | luma
        };
        true
    }
}

impl OriginDimensions for Frame {
    fn size(&self) -> Size {
        Size::new(WIDTH, HEIGHT)
    }
}

impl DrawTarget for Frame {
    type Color = Gray4;
    type Error = Infallible;

    fn draw_iter<I>(&mut self, pixels: I) -> Result<(), Infallible>
    where
        I: IntoIterator<Item = Pixel<Gray4>>,
    {
        for Pixel(Point { x, y }, grey) in pixels {
            if !self.set(x, y, grey.luma()) {
                self.strays = self.strays.saturating_add(1);
            }
        }
        Ok(())
    }

    fn fill_solid(&mut self, area: &Rectangle, grey: Gray4) -> Result<(), Infallible> {
        use embedded_graphics::prelude::PointsIter;
        self.draw_iter(area.points().map(|point| Pixel(point, grey)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use embedded_graphics::prelude::*;
    use embedded_graphics::primitives::PrimitiveStyle;

    #[test]
    fn left_pixel_is_the_high_nibble() {
        let mut frame = Frame::new();
        Pixel(Point::new(4, 2), Gray4::new(0xA))
            .draw(&mut frame)
            .unwrap();
        Pixel(Point::new(5, 2), Gray4::new(0x3))
            .draw(&mut frame)
            .unwrap();
        assert_eq!(frame.rows()[2][2], 0xA3);
        assert_eq!(frame.level(4, 2), Some(0xA));
        assert_eq!(frame.level(5, 2), Some(0x3));
        assert_eq!(frame.level(128, 0), None);
        assert_eq!(frame.level(0, 64), None);
    }

    #[test]
    fn pixels_outside_are_counted_and_change_nothing() {
        let mut frame = Frame::new();
        let corners = [(-1, 0), (0, -1), (128, 0), (0, 64), (i32::MAX, i32::MIN)];
        for (x, y) in corners {
            Pixel(Point::new(x, y), Gray4::WHITE)
                .draw(&mut frame)
                .unwrap();
        }
        assert_eq!(frame.strays(), 5);
        assert!(frame.rows().iter().flatten().all(|byte| *byte == 0));
        frame.wipe();
        assert_eq!(frame.strays(), 0);
    }

    #[test]
    fn a_filled_rectangle_past_the_edge_counts_its_lost_part() {
        let mut frame = Frame::new();
        Rectangle::new(Point::new(126, 62), Size::new(4, 4))
            .into_styled(PrimitiveStyle::with_fill(Gray4::WHITE))
            .draw(&mut frame)
            .unwrap();
        assert_eq!(frame.strays(), 12);
        assert_eq!(frame.level(127, 63), Some(15));
    }
}
