//! The serial bus to the display: SSI0 as an SPI master, mode 0, 8 bits.

use crate::{
    clock::CORE_HZ,
    registers::{PORT_A, ssi0, system},
};

/// The display controller takes a bit in no less than 250 ns (SSD0323 data sheet, serial timing;
/// from memory).
const MAX_HZ: u32 = 4_000_000;
/// The prescaler must be even.
const PRESCALE: u32 = CORE_HZ.div_ceil(MAX_HZ).next_multiple_of(2);

/// Sets the bus up on PA2 (clock), PA3 (frame: the display's select on the real board), PA4 and PA5.
pub(crate) fn open() {
    system::RCGC1.set(system::GATE_SSI0);
    let _ = system::RCGC1.read();
    PORT_A.make_peripheral(0b11_1100);
    ssi0::CR1.write(0);
    ssi0::CPSR.write(PRESCALE);
    ssi0::CR0.write(7);
    ssi0::CR1.write(ssi0::ENABLE);
}

/// Sends a byte and waits until it is through, so that the data/command line may change after it.
#[inline]
pub(crate) fn send(byte: u8) {
    ssi0::DR.write(byte.into());
    // A byte comes back for each one sent; when it is here, the sent one is out. Left unread, the
    // receive FIFO would fill and hold the bus.
    while ssi0::SR.read() & ssi0::RX_NOT_EMPTY == 0 {}
    let _ = ssi0::DR.read();
}
