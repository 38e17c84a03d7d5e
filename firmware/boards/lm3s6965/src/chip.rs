//! The chip as the gauge's main loop sees it.

use seamwright_runner::{Machine, Stack};

use crate::{clock, link_port, log, registers::system, ssi, stack};

/// Clocks, link and stack, once they are set up.
pub(crate) struct Chip(());

impl Chip {
    /// Sets up everything but the display and the buttons: stack guard, clocks, ports, log, link, bus.
    pub(crate) fn start() -> Self {
        // Nothing has taken them before: this runs once, first thing in `main`.
        if let Some(mut core) = cortex_m::Peripherals::take() {
            stack::guard(&mut core.MPU);
            clock::start(&mut core.SYST);
        }
        system::RCGC2.set(system::GATE_ALL_PORTS);
        // A gate needs a few cycles before its peripheral answers.
        let _ = system::RCGC2.read();
        log::open();
        link_port::open();
        ssi::open();
        Self(())
    }
}

impl Machine for Chip {
    fn milliseconds(&self) -> u64 {
        clock::milliseconds()
    }

    /// Ticks of the core clock, 20 ns each. Wraps after 86 s.
    fn ticks(&self) -> u32 {
        clock::ticks() as u32
    }

    fn stack(&self) -> Stack {
        stack::measure()
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
