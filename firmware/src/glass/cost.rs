//! What a display is sent for a window.

use crate::frame::Window;

/// What a window costs to send, in bytes: so many to open it, and for each byte column of the picture
/// (two pixels wide) so many in every group of rows that the display takes at once.
///
/// | display | opens with | rows at once | a column takes |
/// |---|---|---|---|
/// | sixteen greys, two pixels a byte | its window commands | 1 | 1 |
/// | no greys, eight pixels of a column a byte | its window commands | 8 | 2 |
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cost {
    opening: u8,
    rows: u8,
    column: u8,
}

impl Cost {
    /// `opening` bytes set a window; from then on it is sent in whole groups of `rows` rows, counted from
    /// the top of the display, each of which takes `column` bytes for a byte column of the picture.
    ///
    /// # Panics
    /// Of no rows or a column of no bytes. A display states its cost as a constant, so that this is told by
    /// the compiler.
    #[must_use]
    pub const fn new(opening: u8, rows: u8, column: u8) -> Self {
        assert!(rows > 0 && column > 0, "a window has rows and bytes");
        Self {
            opening,
            rows,
            column,
        }
    }

    /// Bytes that `window` takes.
    #[must_use]
    pub const fn of(self, window: Window) -> usize {
        let columns = (window.right() - window.left()) as u32 + 1;
        let sent = self.open() + columns * self.column_of(window.top(), window.bottom());
        sent as usize
    }

    /// Bytes that open a window.
    pub(super) const fn open(self) -> u32 {
        self.opening as u32
    }

    /// Bytes that one byte column takes from the row `top` to the row `bottom`, both included; at least one.
    pub(super) const fn column_of(self, top: u8, bottom: u8) -> u32 {
        let groups = (bottom / self.rows - top / self.rows) as u32 + 1;
        groups * self.column as u32
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Reckoned by hand.
    #[test]
    fn a_window_costs_its_opening_and_its_bytes() {
        let greys = Cost::new(6, 1, 1);
        assert_eq!(greys.of(Window::FULL), 6 + 64 * 64);
        assert_eq!(greys.of(Window::new(2, 3, 4, 12).unwrap()), 6 + 3 * 10);
        // Rows 7 and 8 lie in two groups of eight.
        let eights = Cost::new(10, 8, 2);
        assert_eq!(eights.of(Window::new(2, 7, 4, 8).unwrap()), 10 + 3 * 2 * 2);
        assert_eq!(eights.of(Window::new(2, 8, 4, 15).unwrap()), 10 + 3 * 2);
        assert_eq!(eights.of(Window::FULL), 10 + 128 * 8);
    }
}
