//! What both serial ports share: 115,200 baud, 8 bits, no parity, one stop bit, FIFOs on.

use crate::{clock::CORE_HZ, registers::Uart};

const BAUD: u32 = 115_200;
/// The divisor is `CORE_HZ` / (16 BAUD) in 64ths, rounded to nearest (data sheet, "Baud-Rate Generation").
const DIVISOR_64THS: u32 = (CORE_HZ * 4 + BAUD / 2) / BAUD;

impl Uart {
    /// Sets the line up. Its clock gate and its pins come first.
    pub(crate) fn open(self) {
        const EIGHT_BITS: u32 = 3 << 5;
        const FIFOS: u32 = 1 << 4;
        const ENABLE: u32 = (1 << 0) | (1 << 8) | (1 << 9);

        self.control().write(0);
        self.integer_baud().write(DIVISOR_64THS / 64);
        self.fractional_baud().write(DIVISOR_64THS % 64);
        self.line_control().write(EIGHT_BITS | FIFOS);
        self.control().write(ENABLE);
    }

    /// Whether a byte can be sent at once.
    pub(crate) fn has_room(self) -> bool {
        self.flags().read() & Self::TX_FULL == 0
    }

    /// Sends a byte, waiting for room.
    pub(crate) fn send(self, byte: u8) {
        while !self.has_room() {}
        self.data().write(byte.into());
    }

    /// The next received byte, good or bad, if there is one.
    pub(crate) fn receive(self) -> Option<Result<u8, LineError>> {
        if self.flags().read() & Self::RX_EMPTY != 0 {
            return None;
        }
        let [byte, errors, _, _] = self.data().read().to_le_bytes();
        Some(if errors & 0xF == 0 {
            Ok(byte)
        } else {
            Err(LineError)
        })
    }
}

/// A framing, parity, break or overrun error: the byte cannot be trusted.
#[derive(Clone, Copy, Debug)]
pub(crate) struct LineError;
