//! A rectangle of the picture that can be sent by itself.

use core::ops::RangeInclusive;

use super::{HEIGHT, ROW_BYTES};

/// A rectangle of whole bytes: columns are bytes (two pixels each), rows are pixels; both ends are
/// included, as a display's window commands count them. It always lies within the picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Window {
    left: u8,
    top: u8,
    right: u8,
    bottom: u8,
}

impl Window {
    /// The whole picture.
    pub const FULL: Self = Self {
        left: 0,
        top: 0,
        right: ROW_BYTES as u8 - 1,
        bottom: HEIGHT as u8 - 1,
    };

    /// The window from byte column `left` to `right` and row `top` to `bottom`, all included.
    /// `None` when the ends are the wrong way round or outside the picture.
    #[must_use]
    pub const fn new(left: u8, top: u8, right: u8, bottom: u8) -> Option<Self> {
        if left <= right
            && top <= bottom
            && right <= Self::FULL.right
            && bottom <= Self::FULL.bottom
        {
            Some(Self {
                left,
                top,
                right,
                bottom,
            })
        } else {
            None
        }
    }

    /// First byte column, 0 to 63.
    #[must_use]
    pub const fn left(self) -> u8 {
        self.left
    }

    /// First row, 0 to 63.
    #[must_use]
    pub const fn top(self) -> u8 {
        self.top
    }

    /// Last byte column, included.
    #[must_use]
    pub const fn right(self) -> u8 {
        self.right
    }

    /// Last row, included.
    #[must_use]
    pub const fn bottom(self) -> u8 {
        self.bottom
    }

    /// Picture bytes inside, 1 to 4096, without the command that sets the window.
    #[must_use]
    pub const fn bytes(self) -> usize {
        let width = (self.right - self.left) as usize + 1;
        let height = (self.bottom - self.top) as usize + 1;
        width * height
    }

    /// The byte columns, to slice a row with.
    #[must_use]
    pub const fn column_range(self) -> RangeInclusive<usize> {
        self.left as usize..=self.right as usize
    }

    /// The rows, to slice a picture with.
    #[must_use]
    pub const fn row_range(self) -> RangeInclusive<usize> {
        self.top as usize..=self.bottom as usize
    }

    /// The smallest window that holds both.
    #[must_use]
    pub fn union(self, other: Self) -> Self {
        Self {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.max(other.right),
            bottom: self.bottom.max(other.bottom),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_windows_within_the_picture_exist() {
        assert_eq!(Window::new(0, 0, 63, 63), Some(Window::FULL));
        assert_eq!(Window::new(3, 0, 2, 0), None);
        assert_eq!(Window::new(0, 5, 0, 4), None);
        assert_eq!(Window::new(0, 0, 64, 0), None);
        assert_eq!(Window::new(0, 0, 0, 64), None);
        assert_eq!(Window::FULL.bytes(), super::super::FRAME_BYTES);
        assert_eq!(Window::new(2, 3, 2, 3).unwrap().bytes(), 1);
    }
}
