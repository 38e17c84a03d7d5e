//! Which parts of the picture must be sent again, in few bytes.
//!
//! Covering the changed bytes by the cheapest windows is a hard problem in general. Pictures here are
//! words and figures in lines, so windows that stand in bands, one band over the other, come near the
//! best; and among all ways to cut the picture into bands, the cheapest is found exactly, from the
//! top down: the best up to a row is the best up to some row above and one band more.

use super::{Frame, HEIGHT, Row, Window};
use crate::glass::COMMAND_BYTES;

const ROWS: usize = HEIGHT as usize;

/// The windows that hold every byte in which two pictures differ.
///
/// They never overlap. Every window costs [`COMMAND_BYTES`] besides its own bytes, and no other cut
/// of the picture into bands of windows sends fewer bytes in all.
#[derive(Clone, Debug)]
pub struct Windows {
    /// One bit a byte column, set where the rows differ, column 0 lowest.
    rows: [u64; ROWS],
    /// For each row the first row of the band that ends there; `None` where nothing needs sending.
    tops: [Option<u8>; ROWS],
    /// Rows whose bands have not been given yet.
    left: usize,
    /// What is left of the band that is being given: its columns, its first and its last row.
    band: (u64, u8, u8),
}

/// The windows in which `now` differs from `sent`.
#[must_use]
pub fn changed(now: &Frame, sent: &Frame) -> Windows {
    let mut rows = [0; ROWS];
    for ((bits, now), sent) in rows.iter_mut().zip(now.rows()).zip(sent.rows()) {
        *bits = differing(now, sent);
    }
    Windows {
        rows,
        tops: bands(&rows),
        left: ROWS,
        band: (0, 0, 0),
    }
}

impl Windows {
    /// The whole picture as one window.
    #[must_use]
    pub const fn whole() -> Self {
        Self {
            rows: [u64::MAX; ROWS],
            tops: [Some(0); ROWS],
            left: ROWS,
            band: (0, 0, 0),
        }
    }

    /// Turns to the next band upwards; false where there is none.
    fn next_band(&mut self) -> bool {
        while let Some(bottom) = self.left.checked_sub(1) {
            let Some(top) = self.tops.get(bottom).copied().flatten() else {
                self.left = bottom;
                continue;
            };
            self.left = usize::from(top);
            let rows = self.rows.get(usize::from(top)..=bottom).unwrap_or_default();
            let columns = rows.iter().fold(0, |all, row| all | row);
            self.band = (joined(columns, rows.len()), top, bottom as u8);
            return true;
        }
        false
    }
}

impl Iterator for Windows {
    type Item = Window;

    fn next(&mut self) -> Option<Window> {
        if self.band.0 == 0 && !self.next_band() {
            return None;
        }
        let (columns, top, bottom) = self.band;
        let first = columns.trailing_zeros();
        let length = (columns >> first).trailing_ones();
        // Adding the lowest bit carries through the lowest run.
        let lowest = columns & columns.wrapping_neg();
        self.band.0 &= columns.wrapping_add(lowest);
        Window::new(first as u8, top, (first + length - 1) as u8, bottom)
    }
}

/// Cuts the picture into the bands that cost least.
fn bands(rows: &[u64; ROWS]) -> [Option<u8>; ROWS] {
    let mut tops = [None; ROWS];
    // What the rows up to and including each one cost at best.
    let mut least = [u32::MAX; ROWS];
    let mut before = 0;
    for (top, row) in rows.iter().enumerate() {
        if *row == 0 {
            if let Some(cost) = least.get_mut(top)
                && before <= *cost
            {
                *cost = before;
                if let Some(ends) = tops.get_mut(top) {
                    *ends = None;
                }
            }
        } else {
            let mut columns = 0;
            let below = rows.iter().zip(&mut least).zip(&mut tops).skip(top);
            for (height, ((row, cost), ends)) in (1..).zip(below) {
                columns |= row;
                let with = before + band_cost(columns, height);
                if with < *cost {
                    *cost = with;
                    *ends = Some(top as u8);
                }
            }
        }
        before = least.get(top).copied().unwrap_or(before);
    }
    tops
}

/// What a band of `height` rows costs in which `columns` changed.
fn band_cost(columns: u64, height: usize) -> u32 {
    let joined = joined(columns, height);
    let starts = joined & !(joined << 1);
    joined.count_ones() * height as u32 + starts.count_ones() * COMMAND_BYTES as u32
}

/// Joins runs of columns wherever the gap between two costs no more than a command.
fn joined(columns: u64, height: usize) -> u64 {
    let gap = COMMAND_BYTES / height.max(1);
    // Grown to the right by the gap, then shrunk by it, in a number wide enough for the last column.
    let (mut grown, mut shrunk) = (u128::from(columns), u128::MAX);
    for _ in 0..gap {
        grown |= grown << 1;
    }
    for shift in 0..=gap {
        shrunk &= grown >> shift;
    }
    shrunk as u64
}

/// One bit a byte column, set where the rows differ.
fn differing(now: &Row, sent: &Row) -> u64 {
    if now == sent {
        return 0;
    }
    let columns = now.iter().zip(sent).rev();
    columns.fold(0, |bits, (a, b)| (bits << 1) | u64::from(a != b))
}

#[cfg(test)]
mod tests {
    use super::*;
    use embedded_graphics::pixelcolor::{Gray4, GrayColor};
    use embedded_graphics::prelude::*;
    use std::vec::Vec;

    fn with_pixels(points: &[(i32, i32)]) -> Frame {
        let mut frame = Frame::new();
        for (x, y) in points {
            Pixel(Point::new(*x, *y), Gray4::WHITE)
                .draw(&mut frame)
                .unwrap();
        }
        frame
    }

    fn windows(points: &[(i32, i32)]) -> Vec<Window> {
        changed(&with_pixels(points), &Frame::new()).collect()
    }

    #[test]
    fn nothing_changed_sends_nothing() {
        assert_eq!(windows(&[]), []);
    }

    #[test]
    fn the_whole_is_one_window() {
        assert_eq!(Windows::whole().collect::<Vec<_>>(), [Window::FULL]);
    }

    #[test]
    fn one_pixel_is_one_byte() {
        assert_eq!(
            windows(&[(127, 63)]),
            [Window::new(63, 63, 63, 63).unwrap()]
        );
        assert_eq!(windows(&[(0, 0)]), [Window::new(0, 0, 0, 0).unwrap()]);
    }

    #[test]
    fn a_gap_cheaper_than_a_command_is_sent_along() {
        // Six bytes lie between.
        assert_eq!(
            windows(&[(0, 0), (14, 0)]),
            [Window::new(0, 0, 7, 0).unwrap()]
        );
        assert_eq!(
            windows(&[(112, 9), (126, 9)]),
            [Window::new(56, 9, 63, 9).unwrap()]
        );
        // Seven do.
        assert_eq!(windows(&[(0, 0), (16, 0)]).len(), 2);
        // In two rows, three bytes of gap are as dear as six in one.
        assert_eq!(windows(&[(0, 0), (0, 1), (8, 0), (8, 1)]).len(), 1);
        assert_eq!(windows(&[(0, 0), (0, 1), (10, 0), (10, 1)]).len(), 2);
    }

    #[test]
    fn rows_that_change_alike_are_one_band() {
        let block: Vec<_> = (20..40)
            .flat_map(|y| (8..48).map(move |x| (x, y)))
            .collect();
        assert_eq!(windows(&block), [Window::new(4, 20, 23, 39).unwrap()]);
    }

    #[test]
    fn two_lines_of_words_are_two_bands() {
        let line = |left, top| {
            let rows = top..top + 7;
            rows.flat_map(move |y| (left..left + 40).map(move |x| (x, y)))
        };
        let both: Vec<_> = line(0, 10).chain(line(80, 20)).collect();
        let mut found = windows(&both);
        found.sort_by_key(|window| window.top());
        assert_eq!(
            found,
            [
                Window::new(0, 10, 19, 16).unwrap(),
                Window::new(40, 20, 59, 26).unwrap()
            ]
        );
    }

    /// The cheapest cut into bands of a few rows, by trying all of them.
    #[test]
    fn no_other_cut_into_bands_is_cheaper() {
        let mut dice = 0x1234_5678_9ABC_DEF1_u64;
        for _ in 0..300 {
            let mut rows = [0_u64; ROWS];
            for row in rows.iter_mut().skip(20).take(7) {
                for _ in 0..3 {
                    dice ^= dice << 13;
                    dice ^= dice >> 7;
                    dice ^= dice << 17;
                    *row |= (0xFF >> (dice % 7)) << (dice >> 32 & 0x3F);
                }
                if dice.is_multiple_of(5) {
                    *row = 0;
                }
            }
            let found = Windows {
                rows,
                tops: bands(&rows),
                left: ROWS,
                band: (0, 0, 0),
            };
            let cost: usize = found.map(|window| window.bytes() + COMMAND_BYTES).sum();
            let tried = (0..1_u32 << 6).map(|cuts| {
                let mut total = 0;
                let mut top = 20;
                for last in 20..27 {
                    if last == 26 || cuts >> (last - 20) & 1 == 1 {
                        let band = &rows[top..=last];
                        let columns = band.iter().fold(0, |all, row| all | row);
                        total += band_cost(columns, band.len());
                        top = last + 1;
                    }
                }
                total as usize
            });
            assert_eq!(Some(cost), tried.min());
        }
    }
}
