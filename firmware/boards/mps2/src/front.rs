//! Display and buttons at the other end of a serial line, UART1.
//!
//! Out goes what a SSD0323 display would be sent: six bytes that set a window (0x15, first and last byte
//! column, 0x75, first and last row), then the window's bytes, two pixels in each.
//!
//! In come pairs of bytes: which contacts are closed, a bit for each button in the order of `Button::ALL`,
//! and for how many milliseconds at least before the next pair is taken. Pairs wait their turn, so a
//! thumb's moves come out at this board's own time however late the line brings them.

use core::{cell::Cell, convert::Infallible};

use critical_section::Mutex;
use seamwright_firmware::{
    buttons::{Button, Reading},
    frame::{Frame, Window},
    glass::{Cost, Glass},
};
use seamwright_runner::{Ring, Sampled};

use crate::registers::{UART1, UART1_RECEIVED};

const SET_COLUMNS: u8 = 0x15;
const SET_ROWS: u8 = 0x75;

/// What the buttons say.
pub(crate) static THUMB: Sampled = Sampled::new();

static MOVES: Ring<1024> = Ring::new();
static CONTACTS: Mutex<Cell<Contacts>> = Mutex::new(Cell::new(Contacts { closed: 0, left: 0 }));

/// The contacts now, and for how many milliseconds they stay so.
#[derive(Clone, Copy)]
struct Contacts {
    closed: u8,
    left: u8,
}

/// For the interrupt of the line: queues what has come.
pub(crate) fn take_in() {
    if let Some((byte, _)) = UART1.receive() {
        MOVES.push(byte);
    }
}

/// For the interrupt of each millisecond: moves the contacts and looks at them.
pub(crate) fn tick(now: u64) {
    let closed = critical_section::with(|cs| {
        let cell = CONTACTS.borrow(cs);
        let mut contacts = cell.get();
        contacts.left = contacts.left.saturating_sub(1);
        if contacts.left == 0
            && MOVES.held() >= 2
            && let (Some(closed), Some(left)) = (MOVES.pop(), MOVES.pop())
        {
            contacts = Contacts { closed, left };
        }
        cell.set(contacts);
        contacts.closed
    });
    let mut reading = Reading::NONE;
    for button in Button::ALL {
        reading = reading.with(button, closed & 1 << button as u8 != 0);
    }
    // The debouncer's clock may wrap.
    THUMB.sample(now as u32, reading);
}

/// The display.
pub(crate) struct Display(());

impl Display {
    /// Opens the line. What is at its other end is not known.
    pub(crate) fn open() -> Self {
        UART1.listen(UART1_RECEIVED);
        Self(())
    }
}

impl Glass for Display {
    /// The line has no way to tell of a failure.
    type Error = Infallible;

    /// As a SSD0323: six bytes that set a window, then a byte for two pixels.
    const COST: Cost = Cost::new(6, 1, 1);

    fn send(&mut self, frame: &Frame, window: Window) -> Result<usize, Infallible> {
        let set = [
            SET_COLUMNS,
            window.left(),
            window.right(),
            SET_ROWS,
            window.top(),
            window.bottom(),
        ];
        set.into_iter().for_each(|byte| UART1.send(byte));
        for row in frame.bytes_of(window) {
            row.iter().for_each(|&byte| UART1.send(byte));
        }
        Ok(Self::COST.of(window))
    }
}
