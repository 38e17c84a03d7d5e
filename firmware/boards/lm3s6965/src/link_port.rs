//! The link to a laptop: UART0 on PA0 (in) and PA1 (out).
//!
//! Bytes in are taken by an interrupt, so that none is missed while a plan is computed. Bytes out go
//! only in answer to a request: a sender that nobody reads would stop the emulator.
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
    RECEIVED.pop()
}

/// Sends an answer, waiting for the line.
pub(crate) fn send(bytes: &[u8]) {
    for &byte in bytes {
        UART0.send(byte);
    }
}

/// Bytes that came in and were lost: no room for them, or damaged on the line.
pub(crate) fn lost() -> u32 {
    RECEIVED
        .lost()
        .saturating_add(LINE_ERRORS.load(Ordering::Relaxed))
}

#[interrupt]
fn UART0() {
    UART0.interrupt_clear().write(Uart::RECEIVED);
    while let Some(byte) = UART0.receive() {
        match byte {
            Ok(byte) => RECEIVED.push(byte),
            // Only this interrupt writes the count, so a load and a store do.
            Err(_) => LINE_ERRORS.store(
                LINE_ERRORS.load(Ordering::Relaxed).wrapping_add(1),
                Ordering::Relaxed,
            ),
        }
    }
}
