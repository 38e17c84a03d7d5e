//! The log: defmt frames out of UART1 (PD3), for `defmt-print` or the test harness to decode. They wait
//! in the runner's queue until the main loop has time.

use seamwright_runner::log;

use crate::{
    clock,
    registers::{PORT_D, UART1, system},
};

/// Sets UART1 up.
pub(crate) fn open() {
    system::RCGC1.set(system::GATE_UART1);
    let _ = system::RCGC1.read();
    PORT_D.make_peripheral((1 << 2) | (1 << 3));
    UART1.open();
}

/// Sends what is queued, as far as the port takes it without waiting, and tells once of what was lost.
pub(crate) fn drain(told: &mut u32) {
    log::drain(|| UART1.has_room(), |byte| UART1.send(byte), told);
}

/// Sends all that is queued, waiting for the port.
pub(crate) fn flush() {
    log::flush(|byte| UART1.send(byte));
}

defmt::timestamp!("{=u64:ms}", clock::milliseconds());
