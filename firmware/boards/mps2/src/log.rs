//! The log: defmt frames out of UART2, for the test harness to decode. They wait in the runner's queue
//! until the main loop has time.

use seamwright_runner::log;

use crate::{clock, registers::UART2};

/// Sets UART2 up.
pub(crate) fn open() {
    UART2.open();
}

/// Sends what is queued, as far as the port takes it without waiting, and tells once of what was lost.
pub(crate) fn drain(told: &mut u32) {
    log::drain(|| UART2.has_room(), |byte| UART2.send(byte), told);
}

/// Sends all that is queued, waiting for the port.
pub(crate) fn flush() {
    log::flush(|byte| UART2.send(byte));
}

defmt::timestamp!("{=u64:ms}", clock::milliseconds());
