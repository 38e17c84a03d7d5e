//! The chip as the gauge's main loop sees it.

use seamwright_runner::{Machine, Stack};

/// What is left of a chip once display and buttons are taken care of. On a real board these are calls of its own
/// crate, and this trait goes.
pub trait Chip {
    /// Microseconds since start-up, of a counter that wraps no sooner than a thumb's patience.
    fn microseconds(&self) -> u64;

    /// The next byte that the serial line has brought. An interrupt queues them (`seamwright_runner::Ring`), for the
    /// loop may be away for a second.
    fn received(&mut self) -> Option<u8>;

    /// Sends one byte, waiting for the line.
    fn transmit(&mut self, byte: u8);

    /// Bytes that came damaged or found no room.
    fn lost(&self) -> u32;
}

/// Clock, link and stack.
#[derive(Debug)]
pub struct Board<C> {
    chip: C,
}

impl<C: Chip> Board<C> {
    /// Of a chip that has been set up.
    pub const fn new(chip: C) -> Self {
        Self { chip }
    }
}

impl<C: Chip> Machine for Board<C> {
    fn milliseconds(&self) -> u64 {
        self.chip.microseconds() / 1_000
    }

    /// Microseconds; wraps after 71 minutes.
    fn ticks(&self) -> u32 {
        self.chip.microseconds() as u32
    }

    /// Nobody knows here. On a Cortex-M chip `seamwright_runner::paint` does.
    fn stack(&self) -> Stack {
        Stack::default()
    }

    fn receive(&mut self) -> Option<u8> {
        self.chip.received()
    }

    fn send(&mut self, bytes: &[u8]) {
        for &byte in bytes {
            self.chip.transmit(byte);
        }
    }

    fn link_lost(&self) -> u32 {
        self.chip.lost()
    }
}
