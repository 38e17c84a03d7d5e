//! The link to a laptop: UART0. Bytes in are taken by an interrupt, so that none is missed while the gauge
//! is at work.

use core::sync::atomic::{AtomicU32, Ordering};

use seamwright_runner::Ring;

use crate::registers::{UART0, UART0_RECEIVED};

static RECEIVED: Ring<4096> = Ring::new();
static OVERRUNS: AtomicU32 = AtomicU32::new(0);

/// Starts listening.
pub(crate) fn open() {
    UART0.listen(UART0_RECEIVED);
}

/// For the interrupt: queues what has come.
pub(crate) fn take_in() {
    if let Some((byte, overrun)) = UART0.receive() {
        if overrun {
            OVERRUNS.fetch_add(1, Ordering::Relaxed);
        }
        RECEIVED.push(byte);
    }
}

/// The next byte that came in.
pub(crate) fn receive() -> Option<u8> {
    RECEIVED.pop()
}

/// Sends an answer, waiting for the line.
pub(crate) fn send(bytes: &[u8]) {
    for &byte in bytes {
        UART0.send(byte);
    }
}

/// Times that bytes were lost on the way in.
pub(crate) fn lost() -> u32 {
    RECEIVED
        .lost()
        .saturating_add(OVERRUNS.load(Ordering::Relaxed))
}
