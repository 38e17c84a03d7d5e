//! The first UART of the LM3S6965, as far as the emulator asks: no clock, no baud rate.
#![expect(unsafe_code, reason = "a register has an address and nothing else")]

use core::fmt;
use core::ptr::with_exposed_provenance_mut;

/// Base of UART0, its data register and the offset of its flags.
const UART0: usize = 0x4000_C000;
const FLAGS: usize = 0x18;
/// Nothing received; no room to send.
const EMPTY: u32 = 1 << 4;
const FULL: u32 = 1 << 5;

/// The line to the machine that runs the emulator.
#[derive(Debug)]
pub(crate) struct Serial;

impl Serial {
    fn read(offset: usize) -> u32 {
        // SAFETY: a register of UART0, readable at any time.
        unsafe { with_exposed_provenance_mut::<u32>(UART0 + offset).read_volatile() }
    }

    /// Waits for a byte.
    pub(crate) fn receive() -> u8 {
        while Self::read(FLAGS) & EMPTY != 0 {}
        // The byte stands in the lowest eight bits.
        Self::read(0) as u8
    }

    fn send(byte: u8) {
        while Self::read(FLAGS) & FULL != 0 {}
        // SAFETY: the data register of UART0, writable while there is room.
        unsafe { with_exposed_provenance_mut::<u32>(UART0).write_volatile(u32::from(byte)) };
    }
}

impl fmt::Write for Serial {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        text.bytes().for_each(Self::send);
        Ok(())
    }
}
