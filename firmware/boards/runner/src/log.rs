//! A log in a queue: defmt frames that a board sends when it has time.
//!
//! Frames go through a queue that the main loop empties, so that writing a line never waits for the
//! wire and never holds interrupts off while it does. What finds no room is dropped and counted.
#![expect(
    unsafe_code,
    reason = "defmt's logger trait is unsafe, and its encoder needs a static of ours"
)]

use core::{
    cell::UnsafeCell,
    sync::atomic::{AtomicBool, Ordering},
};

use crate::Ring;

static QUEUE: Ring<1024> = Ring::new();

/// Whether a frame is being written.
static BUSY: AtomicBool = AtomicBool::new(false);

struct State {
    encoder: UnsafeCell<defmt::Encoder>,
    restore: UnsafeCell<critical_section::RestoreState>,
}

// SAFETY: the cells are touched only between `acquire` and `release`, with interrupts masked on a
// single core, so by one context at a time.
unsafe impl Sync for State {}

static STATE: State = State {
    encoder: UnsafeCell::new(defmt::Encoder::new()),
    restore: UnsafeCell::new(critical_section::RestoreState::invalid()),
};

/// Sends what is queued for as long as the port `has_room`, and tells once of what was lost; `told` is
/// how much of that was told before.
pub fn drain(has_room: impl Fn() -> bool, send: impl Fn(u8), told: &mut u32) {
    while has_room() {
        let Some(byte) = QUEUE.pop() else {
            let lost = QUEUE.lost();
            if lost != *told {
                *told = lost;
                defmt::warn!("log bytes lost={=u32}", lost);
            }
            return;
        };
        send(byte);
    }
}

/// Sends all that is queued; `send` waits for the port.
pub fn flush(send: impl Fn(u8)) {
    while let Some(byte) = QUEUE.pop() {
        send(byte);
    }
}

/// Gives up a frame that a panic or a fault cut short, so that the cause can be logged.
pub fn abandon_frame() {
    if BUSY.swap(false, Ordering::Relaxed) {
        // A zero ends the broken frame; a decoder drops it and goes on with the next.
        QUEUE.push(0);
    }
}

fn enqueue(bytes: &[u8]) {
    for &byte in bytes {
        QUEUE.push(byte);
    }
}

#[defmt::global_logger]
struct Logger;

// SAFETY: `acquire` masks interrupts until `release`, and there is one core, so frames never mix.
unsafe impl defmt::Logger for Logger {
    fn acquire() {
        // SAFETY: paired with the release in `release`, in the order taken.
        let restore = unsafe { critical_section::acquire() };
        BUSY.store(true, Ordering::Relaxed);
        // SAFETY: interrupts are masked: nothing else holds a reference to the cell.
        unsafe { *STATE.restore.get() = restore };
        // SAFETY: as above.
        let encoder = unsafe { &mut *STATE.encoder.get() };
        encoder.start_frame(enqueue);
    }

    /// Left to the board, which has the port.
    unsafe fn flush() {}

    unsafe fn release() {
        // SAFETY: still between `acquire` and `release`: nothing else holds a reference.
        let encoder = unsafe { &mut *STATE.encoder.get() };
        encoder.end_frame(enqueue);
        BUSY.store(false, Ordering::Relaxed);
        // SAFETY: as above.
        let restore = unsafe { *STATE.restore.get() };
        // SAFETY: `acquire` stored this state when it masked interrupts.
        unsafe { critical_section::release(restore) };
    }

    unsafe fn write(bytes: &[u8]) {
        // SAFETY: defmt writes only between `acquire` and `release`.
        let encoder = unsafe { &mut *STATE.encoder.get() };
        encoder.write(bytes, enqueue);
    }
}
