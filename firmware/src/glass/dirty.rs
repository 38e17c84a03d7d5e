//! Which parts of the picture must be sent again, in few bytes.
//!
//! Covering the changed bytes by the cheapest windows is a hard problem in general. Pictures here are
//! words and figures in lines, so windows that stand in bands, one band over the other, come near the
//! best. Bands are joined pair by pair; measured on the pages of the gauge, that sends within 1 % of
//! the cheapest bands there are, which take several times as long to find, and a tenth less than
//! windows that grow from run to run.
//!
//! What is cheap the display says ([`Glass::COST`]). It is asked for by type, so that a board's program
//! holds it as a constant.

use core::marker::PhantomData;

use super::{Cost, Glass};
use crate::frame::{Frame, HEIGHT, Row, Window};

const ROWS: usize = HEIGHT as usize;

/// The windows that hold every byte in which two pictures differ, chosen for few bytes on a display. They never
/// overlap.
pub(super) struct Windows<G> {
    left: Bands,
    next: usize,
    /// What is left of the band that is being given: its columns, its first and its last row.
    band: (u64, u8, u8),
    display: PhantomData<G>,
}

impl<G: Glass> Windows<G> {
    /// The windows in which `now` differs from `sent`.
    pub(super) fn changed(now: &Frame, sent: &Frame) -> Self {
        let mut rows = [0; ROWS];
        for ((bits, now), sent) in rows.iter_mut().zip(now.rows()).zip(sent.rows()) {
            *bits = differing(now, sent);
        }
        Self::of(bands(&rows, G::COST))
    }

    /// The whole picture as one window.
    pub(super) fn whole() -> Self {
        Self::of(core::iter::once(Band::new(u64::MAX, 0, HEIGHT as u8 - 1, G::COST)).collect())
    }

    fn of(bands: Bands) -> Self {
        Self {
            left: bands,
            next: 0,
            band: (0, 0, 0),
            display: PhantomData,
        }
    }
}

impl<G: Glass> Iterator for Windows<G> {
    type Item = Window;

    fn next(&mut self) -> Option<Window> {
        if self.band.0 == 0 {
            let band = self.left.get(self.next)?;
            self.next += 1;
            let columns = joined(band.columns, band.top, band.bottom, G::COST);
            self.band = (columns, band.top, band.bottom);
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
    fn new(columns: u64, top: u8, bottom: u8, price: Cost) -> Self {
        Self {
            columns,
            top,
            bottom,
            cost: cost(columns, top, bottom, price),
            saving: 0,
        }
    }

    /// This band, that below, and all rows between.
    fn and(&self, below: &Self, price: Cost) -> Self {
        let columns = self.columns | below.columns;
        Self::new(columns, self.top, below.bottom, price)
    }
}

/// Bands from the top down. There are no more of them than rows.
type Bands = heapless::Vec<Band, ROWS>;

/// Begins with a band for every run of rows that changed alike, and joins the two neighbours that
/// save most for as long as any do.
fn bands(rows: &[u64; ROWS], price: Cost) -> Bands {
    let mut bands = Bands::new();
    let mut above = 0;
    for (row, y) in rows.iter().zip(0..) {
        if *row != 0 {
            match bands.last_mut() {
                Some(last) if above == *row => *last = Band::new(*row, last.top, y, price),
                _ => {
                    let _ = bands.push(Band::new(*row, y, y, price));
                }
            }
        }
        above = *row;
    }
    for place in 0..bands.len() {
        reckon(&mut bands, place, price);
    }
    while let Some((place, best)) = bands.iter().enumerate().max_by_key(|(_, band)| band.saving)
        && best.saving > 0
        && let Some(below) = bands.get(place + 1)
    {
        let joined = best.and(below, price);
        bands.remove(place + 1);
        if let Some(band) = bands.get_mut(place) {
            *band = joined;
        }
        reckon(&mut bands, place, price);
        if let Some(above) = place.checked_sub(1) {
            reckon(&mut bands, above, price);
        }
    }
    bands
}

/// Works out what joining a band to the next would save.
fn reckon(bands: &mut Bands, place: usize, price: Cost) {
    let next = bands.get(place + 1).copied();
    if let Some(band) = bands.get_mut(place) {
        let joined = |next: Band| {
            let apart = (band.cost + next.cost) as i32;
            apart - band.and(&next, price).cost as i32
        };
        band.saving = next.map_or(i32::MIN, joined);
    }
}

/// What a band costs in which `columns` changed.
fn cost(columns: u64, top: u8, bottom: u8, price: Cost) -> u32 {
    let sent = joined(columns, top, bottom, price);
    let starts = sent & !(sent << 1);
    sent.count_ones() * price.column_of(top, bottom) + starts.count_ones() * price.open()
}

/// Joins runs of columns wherever the gap between two costs no more than opening a window.
fn joined(columns: u64, top: u8, bottom: u8, price: Cost) -> u64 {
    let gap = price.open() / price.column_of(top, bottom).max(1);
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
    use core::convert::Infallible;
    use embedded_graphics::pixelcolor::{Gray4, GrayColor};
    use embedded_graphics::prelude::*;
    use std::vec::Vec;

    /// Sixteen greys, six bytes to open a window.
    struct Greys;

    impl Glass for Greys {
        type Error = Infallible;

        const COST: Cost = Cost::new(6, 1, 1);

        fn send(&mut self, _: &Frame, window: Window) -> Result<usize, Infallible> {
            Ok(Self::COST.of(window))
        }
    }

    /// Eight rows at once, ten bytes to open a window.
    struct Eights;

    impl Glass for Eights {
        type Error = Infallible;

        const COST: Cost = Cost::new(10, 8, 2);

        fn send(&mut self, _: &Frame, window: Window) -> Result<usize, Infallible> {
            Ok(Self::COST.of(window))
        }
    }

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
        windows_on::<Greys>(points)
    }

    fn windows_on<G: Glass>(points: &[(i32, i32)]) -> Vec<Window> {
        Windows::<G>::changed(&with_pixels(points), &Frame::new()).collect()
    }

    #[test]
    fn nothing_changed_sends_nothing() {
        assert_eq!(windows(&[]), []);
    }

    #[test]
    fn the_whole_is_one_window() {
        assert_eq!(
            Windows::<Greys>::whole().collect::<Vec<_>>(),
            [Window::FULL]
        );
        assert_eq!(
            Windows::<Eights>::whole().collect::<Vec<_>>(),
            [Window::FULL]
        );
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

    /// What is dear on one display is cheap on another.
    #[test]
    fn rows_that_a_display_takes_at_once_go_in_one_window() {
        // The top and the bottom row of a group of eight.
        assert_eq!(windows(&[(0, 8), (0, 15)]).len(), 2);
        assert_eq!(
            windows_on::<Eights>(&[(0, 8), (0, 15)]),
            [Window::new(0, 8, 0, 15).unwrap()]
        );
        // Of two groups a column takes four bytes: two of them between are cheaper than to open another window.
        let both = |x| [(0, 7), (0, 8), (x, 7), (x, 8)];
        assert_eq!(windows_on::<Eights>(&both(6)).len(), 1);
        assert_eq!(windows_on::<Eights>(&both(8)).len(), 2);
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
    fn cheapest(rows: &[u64; ROWS], price: Cost) -> u32 {
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
                let bytes = cost(columns, top as u8, end as u8 - 1, price);
                least[end] = least[end].min(least[top] + bytes);
            }
        }
        least[ROWS]
    }

    #[test]
    fn joining_pairs_comes_near_the_cheapest_bands() {
        near_the_cheapest::<Greys>(103);
    }

    #[test]
    fn joining_pairs_comes_near_the_cheapest_bands_where_rows_go_by_eights() {
        near_the_cheapest::<Eights>(106);
    }

    /// Blocks of changed columns: what is sent, in per cent of the cheapest.
    fn near_the_cheapest<G: Glass>(most: u32) {
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
            let found = Windows::<G>::of(bands(&rows, G::COST));
            let mut covered = [0_u64; ROWS];
            for window in found {
                sum += G::COST.of(window) as u32;
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
            least += cheapest(&rows, G::COST);
        }
        assert!(
            sum >= least && sum * 100 <= least * most,
            "{sum} bytes, {least} at best"
        );
    }
}
