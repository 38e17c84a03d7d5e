//! The registers used on this board, and the only volatile accesses to them.
//!
//! Addresses and bits: Stellaris LM3S6965 microcontroller data sheet (Texas Instruments), chapters
//! "System Control", "GPIOs", "General-Purpose Timers", "UARTs" and "SSI"; from memory of it, and
//! tried on the emulator only.
#![expect(
    unsafe_code,
    reason = "memory-mapped registers can only be reached by volatile pointer access"
)]

use core::ptr::{with_exposed_provenance, with_exposed_provenance_mut};

/// One 32-bit register.
#[derive(Clone, Copy)]
pub(crate) struct Register(usize);

impl Register {
    pub(crate) fn read(self) -> u32 {
        // SAFETY: only this module makes a `Register`, always from the map below: each address is an
        // aligned device register of this chip, outside flash and RAM, readable at any time.
        unsafe { with_exposed_provenance::<u32>(self.0).read_volatile() }
    }

    pub(crate) fn write(self, value: u32) {
        // SAFETY: as for `read`; and the chip has no DMA controller, so no register written here can
        // make hardware change memory behind the compiler's back.
        unsafe { with_exposed_provenance_mut::<u32>(self.0).write_volatile(value) }
    }

    /// Reads, changes and writes back. Not atomic: for set-up, before interrupts are on.
    pub(crate) fn modify(self, change: impl FnOnce(u32) -> u32) {
        self.write(change(self.read()));
    }

    pub(crate) fn set(self, bits: u32) {
        self.modify(|value| value | bits);
    }

    pub(crate) fn clear(self, bits: u32) {
        self.modify(|value| value & !bits);
    }
}

/// System control: clocks.
pub(crate) mod system {
    use super::Register;

    /// Raw interrupt status; bit 6: the PLL has locked.
    pub(crate) const RIS: Register = Register(0x400F_E050);
    pub(crate) const PLL_LOCKED: u32 = 1 << 6;
    /// Run-mode clock configuration.
    pub(crate) const RCC: Register = Register(0x400F_E060);
    /// Clock gates of timers, UARTs and SSI.
    pub(crate) const RCGC1: Register = Register(0x400F_E104);
    pub(crate) const GATE_UART0: u32 = 1 << 0;
    pub(crate) const GATE_UART1: u32 = 1 << 1;
    pub(crate) const GATE_SSI0: u32 = 1 << 4;
    pub(crate) const GATE_TIMER0: u32 = 1 << 16;
    /// Clock gates of the GPIO ports, port A in bit 0.
    pub(crate) const RCGC2: Register = Register(0x400F_E108);
    pub(crate) const GATE_ALL_PORTS: u32 = 0x7F;
}

/// One GPIO port.
#[derive(Clone, Copy)]
pub(crate) struct Port(usize);

pub(crate) const PORT_A: Port = Port(0x4000_4000);
pub(crate) const PORT_C: Port = Port(0x4000_6000);
pub(crate) const PORT_D: Port = Port(0x4000_7000);
pub(crate) const PORT_E: Port = Port(0x4002_4000);
pub(crate) const PORT_F: Port = Port(0x4002_5000);

impl Port {
    /// The data of the pins in `mask` alone: the hardware decodes the mask from the address, so a
    /// write changes no other pin.
    pub(crate) fn pins(self, mask: u8) -> Register {
        Register(self.0 + (usize::from(mask) << 2))
    }

    /// Makes the pins in `mask` outputs.
    pub(crate) fn make_outputs(self, mask: u8) {
        Register(self.0 + 0x400).set(mask.into());
        Register(self.0 + 0x420).clear(mask.into());
        Register(self.0 + 0x51C).set(mask.into());
    }

    /// Makes the pins in `mask` inputs with a weak pull-up.
    pub(crate) fn make_inputs_pulled_up(self, mask: u8) {
        Register(self.0 + 0x400).clear(mask.into());
        Register(self.0 + 0x420).clear(mask.into());
        Register(self.0 + 0x510).set(mask.into());
        Register(self.0 + 0x51C).set(mask.into());
    }

    /// Hands the pins in `mask` to their peripheral.
    pub(crate) fn make_peripheral(self, mask: u8) {
        Register(self.0 + 0x420).set(mask.into());
        Register(self.0 + 0x51C).set(mask.into());
    }
}

/// Timer 0 as one 32-bit timer.
pub(crate) mod timer0 {
    use super::Register;

    pub(crate) const CFG: Register = Register(0x4003_0000);
    pub(crate) const TAMR: Register = Register(0x4003_0004);
    pub(crate) const PERIODIC: u32 = 2;
    pub(crate) const CTL: Register = Register(0x4003_000C);
    pub(crate) const ENABLE: u32 = 1;
    pub(crate) const IMR: Register = Register(0x4003_0018);
    pub(crate) const ICR: Register = Register(0x4003_0024);
    pub(crate) const TIME_OUT: u32 = 1;
    pub(crate) const TAILR: Register = Register(0x4003_0028);
}

/// One UART (a PL011).
#[derive(Clone, Copy)]
pub(crate) struct Uart(usize);

pub(crate) const UART0: Uart = Uart(0x4000_C000);
pub(crate) const UART1: Uart = Uart(0x4000_D000);

impl Uart {
    pub(crate) const RX_EMPTY: u32 = 1 << 4;
    pub(crate) const TX_FULL: u32 = 1 << 5;
    /// Received bytes and the receive time-out, in IM and ICR.
    pub(crate) const RECEIVED: u32 = (1 << 4) | (1 << 6);

    /// Data; on reading, bits 8 to 11 are framing, parity, break and overrun errors.
    pub(crate) fn data(self) -> Register {
        Register(self.0)
    }
    pub(crate) fn flags(self) -> Register {
        Register(self.0 + 0x18)
    }
    pub(crate) fn integer_baud(self) -> Register {
        Register(self.0 + 0x24)
    }
    pub(crate) fn fractional_baud(self) -> Register {
        Register(self.0 + 0x28)
    }
    pub(crate) fn line_control(self) -> Register {
        Register(self.0 + 0x2C)
    }
    pub(crate) fn control(self) -> Register {
        Register(self.0 + 0x30)
    }
    pub(crate) fn interrupt_mask(self) -> Register {
        Register(self.0 + 0x38)
    }
    pub(crate) fn interrupt_clear(self) -> Register {
        Register(self.0 + 0x44)
    }
}

/// SSI 0 (a PL022).
pub(crate) mod ssi0 {
    use super::Register;

    pub(crate) const CR0: Register = Register(0x4000_8000);
    pub(crate) const CR1: Register = Register(0x4000_8004);
    pub(crate) const ENABLE: u32 = 1 << 1;
    pub(crate) const DR: Register = Register(0x4000_8008);
    pub(crate) const SR: Register = Register(0x4000_800C);
    pub(crate) const RX_NOT_EMPTY: u32 = 1 << 2;
    pub(crate) const CPSR: Register = Register(0x4000_8010);
}
