//! Which parts of the picture must be sent again, in as few bytes as can be had cheaply.

use super::{Frame, Row, Window};
use crate::glass::COMMAND_BYTES;

/// At most this many windows are sent for one redraw; more would save nothing worth their search.
const MOST_WINDOWS: usize = 16;

/// The windows of one redraw.
pub type Windows = heapless::Vec<Window, MOST_WINDOWS>;

/// The windows that hold every byte in which `now` differs from `sent`.
///
/// Every window costs [`COMMAND_BYTES`] besides its own bytes, so two are joined whenever the gap
/// between them is cheaper than a command. Rows are read top to bottom; each run of changed bytes
/// either widens the window that grows least or opens its own; at the end, pairs are joined for as
/// long as that saves bytes. Finding the true minimum is a hard covering problem, and the tests show
/// how near this comes.
#[must_use]
pub fn changed(now: &Frame, sent: &Frame) -> Windows {
    let mut windows = Windows::new();
    for (y, (now, sent)) in (0_u8..).zip(now.rows().iter().zip(sent.rows())) {
        if now != sent {
            for (left, right) in Runs(differing(now, sent)) {
                if let Some(run) = Window::new(left, y, right, y) {
                    add(&mut windows, run);
                }
            }
        }
    }
    while join_best_pair(&mut windows, 0) {}
    windows
}

/// What a window costs to send.
const fn cost(window: Window) -> isize {
    (window.bytes() + COMMAND_BYTES) as isize
}

/// One bit a byte column, set where the rows differ, column 0 lowest.
fn differing(now: &Row, sent: &Row) -> u64 {
    now.iter()
        .zip(sent)
        .rev()
        .fold(0, |bits, (a, b)| (bits << 1) | u64::from(a != b))
}

/// The runs of set bits, lowest first, as (first, last).
struct Runs(u64);

impl Iterator for Runs {
    type Item = (u8, u8);

    fn next(&mut self) -> Option<(u8, u8)> {
        if self.0 == 0 {
            return None;
        }
        let first = self.0.trailing_zeros();
        let length = (self.0 >> first).trailing_ones();
        let end = first + length;
        // A shift by all 64 bits would overflow.
        self.0 = self
            .0
            .checked_shr(end)
            .unwrap_or(0)
            .checked_shl(end)
            .unwrap_or(0);
        Some((first as u8, (end - 1) as u8))
    }
}

/// Takes a run in, where it costs least.
fn add(windows: &mut Windows, run: Window) {
    if windows.is_full() {
        // Joining some pair always makes room.
        join_best_pair(windows, isize::MAX);
    }
    let grown = windows
        .iter_mut()
        .map(|window| (cost(window.union(run)) - cost(*window), window))
        .min_by_key(|(extra, _)| *extra);
    match grown {
        Some((extra, window)) if extra < cost(run) => *window = window.union(run),
        _ => {
            // Room was made above.
            let _ = windows.push(run);
        }
    }
}

/// Joins the pair whose union costs least over the two apart, if that is no more than `most`.
fn join_best_pair(windows: &mut Windows, most: isize) -> bool {
    let mut best: Option<(isize, usize, usize, Window)> = None;
    for (at, first) in windows.iter().enumerate() {
        for (with, second) in windows.iter().enumerate().skip(at + 1) {
            let extra = cost(first.union(*second)) - cost(*first) - cost(*second);
            if best.is_none_or(|(least, ..)| extra < least) {
                best = Some((extra, at, with, first.union(*second)));
            }
        }
    }
    match best {
        Some((extra, at, with, union)) if extra <= most => {
            if let Some(window) = windows.get_mut(at) {
                *window = union;
            }
            if with < windows.len() {
                windows.swap_remove(with);
            }
            true
        }
        _ => false,
    }
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

    #[test]
    fn nothing_changed_sends_nothing() {
        assert!(changed(&Frame::new(), &Frame::new()).is_empty());
    }

    #[test]
    fn one_pixel_is_one_byte() {
        let windows = changed(&with_pixels(&[(127, 63)]), &Frame::new());
        assert_eq!(windows.as_slice(), &[Window::new(63, 63, 63, 63).unwrap()]);
    }

    #[test]
    fn a_gap_cheaper_than_a_command_is_sent_along() {
        let near = changed(&with_pixels(&[(0, 0), (12, 0)]), &Frame::new());
        assert_eq!(near.as_slice(), &[Window::new(0, 0, 6, 0).unwrap()]);
        let far = changed(&with_pixels(&[(0, 0), (20, 0)]), &Frame::new());
        assert_eq!(far.len(), 2);
    }

    #[test]
    fn a_row_wholly_changed_is_one_window() {
        let row: Vec<_> = (0..128).map(|x| (x, 9)).collect();
        let windows = changed(&with_pixels(&row), &Frame::new());
        assert_eq!(windows.as_slice(), &[Window::new(0, 9, 63, 9).unwrap()]);
    }

    #[test]
    fn scattered_changes_stay_within_the_list() {
        let dots: Vec<_> = (0..64)
            .flat_map(|y| (0..8).map(move |x| (x * 16 + y % 7, y)))
            .step_by(5)
            .collect();
        let frame = with_pixels(&dots);
        let windows = changed(&frame, &Frame::new());
        let mut copy = Frame::new();
        for window in &windows {
            copy.copy_window(&frame, *window);
        }
        assert_eq!(copy, frame);
    }
}
