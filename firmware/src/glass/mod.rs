//! The seam between the gauge and a display: a small trait, and sending only what changed.
//!
//! A display says what a window costs to send ([`Glass::COST`]), and the redraw groups what changed
//! into the windows that are cheapest there.

mod cost;
mod dirty;

pub use cost::Cost;

use crate::frame::{Frame, Window};
use dirty::Windows;

/// A display that takes a window of the picture.
pub trait Glass {
    /// What can go wrong on the way to the display.
    type Error;

    /// What a window costs to send, to choose windows by. What it took in the end [`Glass::send`] tells.
    const COST: Cost;

    /// Sends the bytes of `window` (see [`Frame::bytes_of`]) and returns how many bytes went over
    /// the wire, commands included.
    ///
    /// # Errors
    /// Whatever the bus reports; the window then counts as not sent.
    fn send(&mut self, frame: &Frame, window: Window) -> Result<usize, Self::Error>;
}

/// What redraws have cost.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Sent {
    /// Windows sent.
    pub windows: u32,
    /// Bytes sent, commands included.
    pub bytes: u32,
}

/// Remembers what a display shows, so that only the difference is sent.
#[derive(Debug)]
pub struct Shown {
    copy: Frame,
    known: bool,
}

impl Default for Shown {
    fn default() -> Self {
        Self::new()
    }
}

impl Shown {
    /// Nothing is known of the display yet: its memory outlives a reset, so the first picture is
    /// sent whole.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            copy: Frame::new(),
            known: false,
        }
    }

    /// Forgets what the display shows, as after it lost power: the next picture is sent whole.
    pub const fn forget(&mut self) {
        self.known = false;
    }

    /// The picture last sent.
    #[must_use]
    pub const fn picture(&self) -> &Frame {
        &self.copy
    }

    /// Brings the display up to `frame`, sending only what differs from what it shows.
    ///
    /// # Errors
    /// The display's own. Windows that went through before it count as sent, so a later call sends
    /// the rest.
    #[inline(never)]
    pub fn show<G: Glass>(&mut self, frame: &Frame, glass: &mut G) -> Result<Sent, G::Error> {
        let mut sent = Sent::default();
        for window in self.windows_for::<G>(frame) {
            let bytes = glass.send(frame, window)?;
            self.copy.copy_window(frame, window);
            sent.windows = sent.windows.saturating_add(1);
            sent.bytes = sent
                .bytes
                .saturating_add(u32::try_from(bytes).unwrap_or(u32::MAX));
            // The first picture is one window, and it has just gone through.
            self.known = true;
        }
        Ok(sent)
    }

    /// The windows that `frame` would need now on a display of this kind.
    pub fn windows<G: Glass>(&self, frame: &Frame) -> impl Iterator<Item = Window> {
        self.windows_for::<G>(frame)
    }

    fn windows_for<G: Glass>(&self, frame: &Frame) -> Windows<G> {
        if self.known {
            Windows::changed(frame, &self.copy)
        } else {
            Windows::whole()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frame::{FRAME_BYTES, HEIGHT, ROW_BYTES};
    use embedded_graphics::pixelcolor::{Gray4, GrayColor};
    use embedded_graphics::prelude::*;

    /// A display's memory, which takes windows the way a SSD0323 does and can fail on demand.
    struct Replay {
        memory: [[u8; ROW_BYTES]; HEIGHT as usize],
        fail_after: usize,
    }

    impl Replay {
        fn new() -> Self {
            // Not dark: what a display holds at power-on is not known.
            Self {
                memory: [[0x5A; ROW_BYTES]; HEIGHT as usize],
                fail_after: usize::MAX,
            }
        }
    }

    impl Glass for Replay {
        type Error = &'static str;

        const COST: Cost = Cost::new(6, 1, 1);

        fn send(&mut self, frame: &Frame, window: Window) -> Result<usize, Self::Error> {
            self.fail_after = self.fail_after.checked_sub(1).ok_or("bus fault")?;
            let (mut x, mut y) = (window.left(), window.top());
            let mut count = 6;
            for byte in frame.bytes_of(window).flatten() {
                self.memory[usize::from(y)][usize::from(x)] = *byte;
                count += 1;
                if x == window.right() {
                    (x, y) = (window.left(), y + 1);
                } else {
                    x += 1;
                }
            }
            Ok(count)
        }
    }

    fn dots(points: &[(i32, i32)]) -> Frame {
        let mut frame = Frame::new();
        for (x, y) in points {
            Pixel(Point::new(*x, *y), Gray4::WHITE)
                .draw(&mut frame)
                .unwrap();
        }
        frame
    }

    #[test]
    fn the_first_picture_goes_whole() {
        let (mut shown, mut glass) = (Shown::new(), Replay::new());
        let sent = shown.show(&Frame::new(), &mut glass).unwrap();
        assert_eq!(sent.bytes as usize, FRAME_BYTES + 6);
        assert_eq!(&glass.memory, Frame::new().rows());
        assert_eq!(
            shown.show(&Frame::new(), &mut glass).unwrap(),
            Sent::default()
        );
    }

    #[test]
    fn a_failed_window_is_sent_again() {
        let (mut shown, mut glass) = (Shown::new(), Replay::new());
        shown.show(&Frame::new(), &mut glass).unwrap();
        let next = dots(&[(3, 3), (100, 50)]);
        glass.fail_after = 1;
        assert!(shown.show(&next, &mut glass).is_err());
        assert_ne!(&glass.memory, next.rows());
        glass.fail_after = usize::MAX;
        let sent = shown.show(&next, &mut glass).unwrap();
        assert_eq!(sent.windows, 1);
        assert_eq!(&glass.memory, next.rows());
    }

    #[test]
    fn a_first_picture_that_fails_is_still_owed_whole() {
        let (mut shown, mut glass) = (Shown::new(), Replay::new());
        glass.fail_after = 0;
        assert!(shown.show(&Frame::new(), &mut glass).is_err());
        glass.fail_after = usize::MAX;
        shown.show(&Frame::new(), &mut glass).unwrap();
        assert_eq!(&glass.memory, Frame::new().rows());
    }
}
