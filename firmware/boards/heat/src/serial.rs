//! The first UART of the MPS2 board, as far as the emulator asks: any divider of the clock does.
#![expect(unsafe_code, reason = "a register has an address and nothing else")]

use core::fmt;
use core::ptr::with_exposed_provenance_mut;

/// Base of UART0, its data register, and the offsets of its state, its control and its divider (CMSDK APB UART).
const UART0: usize = 0x4000_4000;
const STATE: usize = 0x04;
const CONTROL: usize = 0x08;
const DIVIDER: usize = 0x10;
/// No room to send; a byte received.
const FULL: u32 = 1 << 0;
const RECEIVED: u32 = 1 << 1;
/// Sends and receives.
const BOTH_WAYS: u32 = 0b11;
/// The least divider that counts.
const LEAST_DIVIDER: u32 = 16;

/// The line to the machine that runs the emulator.
#[derive(Debug)]
pub(crate) struct Serial;

impl Serial {
    fn read(offset: usize) -> u32 {
        // SAFETY: a register of UART0, readable at any time.
        unsafe { with_exposed_provenance_mut::<u32>(UART0 + offset).read_volatile() }
    }

    fn write(offset: usize, value: u32) {
        // SAFETY: a register of UART0, writable at any time.
        unsafe { with_exposed_provenance_mut::<u32>(UART0 + offset).write_volatile(value) };
    }

    /// Opens the line.
    pub(crate) fn open() -> Self {
        Self::write(DIVIDER, LEAST_DIVIDER);
        Self::write(CONTROL, BOTH_WAYS);
        Self
    }

    /// Waits for a byte.
    pub(crate) fn receive() -> u8 {
        while Self::read(STATE) & RECEIVED == 0 {}
        // The byte stands in the lowest eight bits.
        Self::read(0) as u8
    }

    fn send(byte: u8) {
        while Self::read(STATE) & FULL != 0 {}
        Self::write(0, u32::from(byte));
    }
}

impl fmt::Write for Serial {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        text.bytes().for_each(Self::send);
        Ok(())
    }
}
