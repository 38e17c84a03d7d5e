//! The board as the gauge's main loop sees it.

use seamwright_runner::{Machine, Stack, paint};

use crate::{clock, link_port, log, registers::timer0};

/// Clocks, link and stack, once they are set up.
pub(crate) struct Chip(());

impl Chip {
    /// Sets up everything but display and buttons.
    pub(crate) fn start() -> Self {
        // Nothing has taken them before: this runs once, first thing in `main`.
        if let Some(mut core) = cortex_m::Peripherals::take() {
            clock::start(&mut core.SYST);
        }
        log::open();
        link_port::open();
        Self(())
    }
}

impl Machine for Chip {
    fn milliseconds(&self) -> u64 {
        clock::milliseconds()
    }

    /// Of 40 ns. Wraps after 171 s.
    fn ticks(&self) -> u32 {
        timer0::ticks()
    }

    fn stack(&self) -> Stack {
        paint::stack_above(paint::bottom())
    }

    fn receive(&mut self) -> Option<u8> {
        link_port::receive()
    }

    fn send(&mut self, bytes: &[u8]) {
        link_port::send(bytes);
    }

    fn link_lost(&self) -> u32 {
        link_port::lost()
    }
}
