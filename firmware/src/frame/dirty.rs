//! Which parts of the picture must be sent again, in few bytes.
//!
//! Covering the changed bytes by the cheapest windows is a hard problem in general. Pictures here are
//! words and figures in lines, so windows that stand in bands, one band over the other, come near the
//! best. Bands are joined pair by pair; measured on the pages of the gauge, that sends within 1 % of
//! the cheapest bands there are, which take several times as long to find, and a tenth less than
//! windows that grow from run to run.

use super::{Frame, HEIGHT, Row, Window};
use crate::glass::COMMAND_BYTES;

const ROWS: usize = HEIGHT as usize;

/// The windows that hold every byte in which two pictures differ. They never overlap.
#[derive(Clone, Debug)]
pub struct Windows {
    left: Bands,
    next: usize,
    /// What is left of the band that is being given: its columns, its first and its last row.
    band: (u64, u8, u8),
}

/// The windows in which `now` differs from `sent`, chosen for few bytes: each costs
/// [`COMMAND_BYTES`] besides its own.
#[must_use]
pub fn changed(now: &Frame, sent: &Frame) -> Windows {
    let mut rows = [0; ROWS];
    for ((bits, now), sent) in rows.iter_mut().zip(now.rows()).zip(sent.rows()) {
        *bits = differing(now, sent);
    }
    Windows::of(bands(&rows))
}

impl Windows {
    /// The whole picture as one window.
    #[must_use]
    pub fn whole() -> Self {
        Self::of(core::iter::once(Band::new(u64::MAX, 0, HEIGHT as u8 - 1)).collect())
    }

    fn of(bands: Bands) -> Self {
        Self {
            left: bands,
            next: 0,
            band: (0, 0, 0),
        }
    }
}

impl Iterator for Windows {
    type Item = Window;

    fn next(&mut self) -> Option<Window> {
        if self.band.0 == 0 {
            let band = self.left.get(self.next)?;
            self.next += 1;
            let height = u32::from(band.bottom - band.top) + 1;
            self.band = (joined(band.columns, height), band.top, band.bottom);
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

/// Rows that are sent together, in the same columns.
#[derive(Clone, Copy, Debug)]
struct Band {
    /// Columns in which any of its rows changed.
    columns: u64,
    top: u8,
    bottom: u8,
    cost: u32,
    /// What joining it to the next band would save; may be negative.
    saving: i32,
}

impl Band {
    fn new(columns: u64, top: u8, bottom: u8) -> Self {
        Self {
            columns,
            top,
            bottom,
            cost: cost(columns, u32::from(bottom - top) + 1),
            saving: 0,
        }
    }

    /// This band, that below, and all rows between.
    fn and(&self, below: &Self) -> Self {
        Self::new(self.columns | below.columns, self.top, below.bottom)
    }
}

/// Bands from the top down. There are no more of them than rows.
type Bands = heapless::Vec<Band, ROWS>;

/// Begins with a band for every run of rows that changed alike, and joins the two neighbours that
/// save most for as long as any do.
fn bands(rows: &[u64; ROWS]) -> Bands {
    let mut bands = Bands::new();
    let mut above = 0;
    for (row, y) in rows.iter().zip(0..) {
        if *row != 0 {
            match bands.last_mut() {
                Some(last) if above == *row => *last = Band::new(*row, last.top, y),
                _ => {
                    let _ = bands.push(Band::new(*row, y, y));
                }
            }
        }
        above = *row;
    }
    for place in 0..bands.len() {
        reckon(&mut bands, place);
    }
    while let Some((place, best)) = bands.iter().enumerate().max_by_key(|(_, band)| band.saving)
        && best.saving > 0
        && let Some(below) = bands.get(place + 1)
    {
        let joined = best.and(below);
        bands.remove(place + 1);
        if let Some(band) = bands.get_mut(place) {
            *band = joined;
        }
        reckon(&mut bands, place);
        if let Some(above) = place.checked_sub(1) {
            reckon(&mut bands, above);
        }
    }
    bands
}

/// Works out what joining a band to the next would save.
fn reckon(bands: &mut Bands, place: usize) {
    let next = bands.get(place + 1).copied();
    if let Some(band) = bands.get_mut(place) {
        let joined = |next: Band| {
            let apart = (band.cost + next.cost) as i32;
            apart - band.and(&next).cost as i32
        };
        band.saving = next.map_or(i32::MIN, joined);
    }
}

/// What a band of `height` rows costs in which `columns` changed.
fn cost(columns: u64, height: u32) -> u32 {
    let sent = joined(columns, height);
    let starts = sent & !(sent << 1);
    sent.count_ones() * height + starts.count_ones() * COMMAND_BYTES as u32
}

/// Joins runs of columns wherever the gap between two costs no more than a command.
fn joined(columns: u64, height: u32) -> u64 {
    let gap = COMMAND_BYTES as u32 / height.max(1);
    if gap == 0 {
        return columns;
    }
    // Grown to the right by the gap, then shrunk by it. What lies past the last column counts as
    // grown, and what that fills in beyond the last run is taken off again.
    let mut grown = columns;
    for _ in 0..gap {
        grown |= grown << 1;
    }
    let mut shrunk = grown;
    for _ in 0..gap {
        grown = grown >> 1 | 1 << 63;
        shrunk &= grown;
    }
    shrunk & (u64::MAX >> columns.leading_zeros().min(63))
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

    /// What the cheapest of all cuts into bands costs, by the best up to each row.
    fn cheapest(rows: &[u64; ROWS]) -> u32 {
        let mut least = [0; ROWS + 1];
        for end in 1..=ROWS {
            least[end] = if rows[end - 1] == 0 {
                least[end - 1]
            } else {
                u32::MAX
            };
            let mut columns = 0;
            for top in (0..end).rev() {
                columns |= rows[top];
                least[end] = least[end].min(least[top] + cost(columns, (end - top) as u32));
            }
        }
        least[ROWS]
    }

    #[test]
    fn joining_pairs_comes_near_the_cheapest_bands() {
        let mut dice = 0x1234_5678_9ABC_DEF1_u64;
        let mut roll = |sides: u64| {
            dice ^= dice << 13;
            dice ^= dice >> 7;
            dice ^= dice << 17;
            (dice >> 20) % sides
        };
        let (mut sum, mut least) = (0, 0);
        for _ in 0..300 {
            // A few blocks with ragged sides, as letters and lines make them.
            let mut rows = [0_u64; ROWS];
            for _ in 0..1 + roll(6) {
                let (top, height, left) = (roll(56) as usize, roll(30) as usize, roll(60));
                let width = 1 + roll(20).min(63 - left);
                for row in rows.iter_mut().skip(top).take(height) {
                    *row |= ((1 << width) - 1) << left & !(1 << roll(64)) & !(1 << roll(64));
                }
            }
            let found = Windows::of(bands(&rows));
            let mut covered = [0_u64; ROWS];
            for window in found {
                sum += (window.bytes() + COMMAND_BYTES) as u32;
                for row in &mut covered[window.row_range()] {
                    for column in window.column_range() {
                        assert_eq!(*row >> column & 1, 0, "windows overlap");
                        *row |= 1 << column;
                    }
                }
            }
            assert!(
                rows.iter()
                    .zip(covered)
                    .all(|(row, covered)| row & !covered == 0)
            );
            least += cheapest(&rows);
        }
        assert!(
            sum >= least && sum * 100 <= least * 103,
            "{sum} bytes, {least} at best"
        );
    }
}
