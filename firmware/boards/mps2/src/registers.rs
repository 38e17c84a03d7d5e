//! The registers used on this board, and the only volatile accesses to them.
//!
//! Registers and bits: Arm DDI 0479, "Cortex-M System Design Kit Technical Reference Manual", chapters
//! "APB UART" and "APB timer". Places, interrupt numbers and the clock of 25 MHz: Arm DAI 0385, "Cortex-M3
//! SMM on V2M-MPS2" (AN385). Both from memory of them and as QEMU models them (`hw/arm/mps2.c`,
//! `hw/char/cmsdk-apb-uart.c`, `hw/timer/cmsdk-apb-timer.c`); tried on the emulator only.
#![expect(
    unsafe_code,
    reason = "memory-mapped registers can only be reached by volatile pointer access"
)]

use core::ptr::{with_exposed_provenance, with_exposed_provenance_mut};

use cortex_m::{interrupt::InterruptNumber, peripheral::NVIC};

/// The clock of the core and of everything here, in Hz.
pub(crate) const CORE_HZ: u32 = 25_000_000;

/// The interrupt of a byte received on each line.
pub(crate) const UART0_RECEIVED: i16 = 0;
pub(crate) const UART1_RECEIVED: i16 = 2;

/// One 32-bit register.
#[derive(Clone, Copy)]
struct Register(usize);

impl Register {
    fn read(self) -> u32 {
        // SAFETY: only this module makes a `Register`, always from the places below: each is an aligned
        // device register of this board, outside program and data, readable at any time.
        unsafe { with_exposed_provenance::<u32>(self.0).read_volatile() }
    }

    fn write(self, value: u32) {
        // SAFETY: as for `read`; none of these makes hardware change memory.
        unsafe { with_exposed_provenance_mut::<u32>(self.0).write_volatile(value) }
    }
}

/// Timer 0, counting down through all 32 bits.
pub(crate) mod timer0 {
    use super::Register;

    const CTRL: Register = Register(0x4000_0000);
    const ENABLE: u32 = 1 << 0;
    const VALUE: Register = Register(0x4000_0004);
    const RELOAD: Register = Register(0x4000_0008);

    pub(crate) fn start() {
        RELOAD.write(u32::MAX);
        VALUE.write(u32::MAX);
        CTRL.write(ENABLE);
    }

    /// Ticks since the start; wraps.
    pub(crate) fn ticks() -> u32 {
        !VALUE.read()
    }
}

/// One UART: one byte of room each way.
#[derive(Clone, Copy)]
pub(crate) struct Uart(usize);

pub(crate) const UART0: Uart = Uart(0x4000_4000);
pub(crate) const UART1: Uart = Uart(0x4000_5000);
pub(crate) const UART2: Uart = Uart(0x4000_6000);

impl Uart {
    const SENDING_FULL: u32 = 1 << 0;
    const RECEIVED: u32 = 1 << 1;
    const OVERRUN: u32 = 1 << 3;
    const SEND: u32 = 1 << 0;
    const RECEIVE: u32 = 1 << 1;
    const TELL_RECEIVED: u32 = 1 << 3;
    /// The received byte's bit in the interrupt status, which a write of it clears.
    const CLEAR_RECEIVED: u32 = 1 << 1;
    /// 25 MHz over this is 115,200 baud, to 0.01 %.
    const DIVISOR: u32 = 217;

    fn data(self) -> Register {
        Register(self.0)
    }
    fn state(self) -> Register {
        Register(self.0 + 0x4)
    }
    fn control(self) -> Register {
        Register(self.0 + 0x8)
    }
    fn interrupt_status(self) -> Register {
        Register(self.0 + 0xC)
    }
    fn divisor(self) -> Register {
        Register(self.0 + 0x10)
    }

    /// Sending only.
    pub(crate) fn open(self) {
        self.divisor().write(Self::DIVISOR);
        self.control().write(Self::SEND);
    }

    /// Sending, and an interrupt for each byte received.
    pub(crate) fn listen(self, interrupt: i16) {
        self.divisor().write(Self::DIVISOR);
        self.control()
            .write(Self::SEND | Self::RECEIVE | Self::TELL_RECEIVED);
        // SAFETY: no critical section is held by masking this interrupt.
        unsafe { NVIC::unmask(Line(interrupt)) };
    }

    /// Whether a byte can be sent at once.
    pub(crate) fn has_room(self) -> bool {
        self.state().read() & Self::SENDING_FULL == 0
    }

    /// Sends a byte, waiting for room.
    pub(crate) fn send(self, byte: u8) {
        while !self.has_room() {}
        self.data().write(byte.into());
    }

    /// The received byte, if there is one, and whether one before it was lost. Its interrupt is over.
    pub(crate) fn receive(self) -> Option<(u8, bool)> {
        // Before the byte is read: the next one then asks again.
        self.interrupt_status().write(Self::CLEAR_RECEIVED);
        let state = self.state().read();
        if state & Self::RECEIVED == 0 {
            return None;
        }
        let overrun = state & Self::OVERRUN != 0;
        if overrun {
            self.state().write(Self::OVERRUN);
        }
        Some((self.data().read() as u8, overrun))
    }
}

/// An interrupt by its number.
#[derive(Clone, Copy)]
struct Line(i16);

// SAFETY: only the two numbers above are given, both of this board's 32.
unsafe impl InterruptNumber for Line {
    fn number(self) -> u16 {
        self.0.unsigned_abs()
    }
}
