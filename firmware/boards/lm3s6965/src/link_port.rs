//! The link to a laptop: UART0 on PA0 (in) and PA1 (out).
//!
//! Bytes in are taken by an interrupt, so that none is missed while a plan is computed. When the queue
//! is full they stay in the hardware's, which reports if it overflows in turn. Bytes out go only in
//! answer to a request: a sender that nobody reads would stop the emulator.
#![expect(
    unsafe_code,
    reason = "unmasking an interrupt can break a critical section made by masking"
)]

use core::sync::atomic::{AtomicU32, Ordering};

use cortex_m::peripheral::NVIC;
use lm3s6965::{Interrupt, interrupt};

use seamwright_runner::Ring;

use crate::registers::{PORT_A, UART0, Uart, system};

static RECEIVED: Ring<1024> = Ring::new();
static LINE_ERRORS: AtomicU32 = AtomicU32::new(0);

/// Sets UART0 up and starts listening.
pub(crate) fn open() {
    system::RCGC1.set(system::GATE_UART0);
    let _ = system::RCGC1.read();
    PORT_A.make_peripheral(0b11);
    UART0.open();
    UART0.interrupt_mask().write(Uart::RECEIVED);
    // SAFETY: no critical section is held by masking this interrupt.
    unsafe { NVIC::unmask(Interrupt::UART0) };
}

/// The next byte that came in.
pub(crate) fn receive() -> Option<u8> {
    let byte = RECEIVED.pop()?;
    if UART0.interrupt_mask().read() == 0 {
        // The queue was full; now there is room. The port tells of a byte as it comes, not of those
        // that lie there, so they are fetched here.
        critical_section::with(|_| fetch());
    }
    Some(byte)
}

/// Queues what the port holds. Listens on if that is all, or else leaves the rest until there is room.
fn fetch() {
    while RECEIVED.room() > 0 {
        match UART0.receive() {
            Some(Ok(byte)) => RECEIVED.push(byte),
            // Interrupts are masked here, so a load and a store do.
            Some(Err(_)) => LINE_ERRORS.store(
                LINE_ERRORS.load(Ordering::Relaxed).wrapping_add(1),
                Ordering::Relaxed,
            ),
            None => {
                UART0.interrupt_mask().write(Uart::RECEIVED);
                return;
            }
        }
    }
    UART0.interrupt_mask().write(0);
}

/// Sends an answer, waiting for the line.
pub(crate) fn send(bytes: &[u8]) {
    for &byte in bytes {
        UART0.send(byte);
    }
}

/// Times that bytes were lost on the way in: damaged on the line, or overrun in the hardware's queue.
pub(crate) fn lost() -> u32 {
    RECEIVED
        .lost()
        .saturating_add(LINE_ERRORS.load(Ordering::Relaxed))
}

#[interrupt]
fn UART0() {
    UART0.interrupt_clear().write(Uart::RECEIVED);
    fetch();
}
