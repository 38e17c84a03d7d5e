//! The chip as the gauge's main loop sees it.

use rp2040_hal::Timer;
use seamwright_runner::{Machine, Stack, paint};

use crate::link_port;

/// Clock, link and stack.
pub(crate) struct Pico {
    timer: Timer,
    out: link_port::Out,
}

impl Pico {
    pub(crate) const fn new(timer: Timer, out: link_port::Out) -> Self {
        Self { timer, out }
    }
}

impl Machine for Pico {
    fn milliseconds(&self) -> u64 {
        self.timer.get_counter().ticks() / 1_000
    }

    /// Microseconds. Wraps after 71 minutes.
    fn ticks(&self) -> u32 {
        self.timer.get_counter_low()
    }

    fn stack(&self) -> Stack {
        paint::stack_above(paint::bottom())
    }

    fn receive(&mut self) -> Option<u8> {
        link_port::receive()
    }

    fn send(&mut self, bytes: &[u8]) {
        self.out.write_full_blocking(bytes);
    }

    fn link_lost(&self) -> u32 {
        link_port::lost()
    }
}
