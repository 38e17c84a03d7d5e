//! A byte queue between an interrupt and the main loop, which counts what it had no room for.

use core::cell::{Cell, RefCell};

use critical_section::Mutex;
use heapless::Deque;

/// Up to `N` bytes, first in, first out.
pub(crate) struct Ring<const N: usize> {
    bytes: Mutex<RefCell<Deque<u8, N>>>,
    lost: Mutex<Cell<u32>>,
}

impl<const N: usize> Ring<N> {
    pub(crate) const fn new() -> Self {
        Self {
            bytes: Mutex::new(RefCell::new(Deque::new())),
            lost: Mutex::new(Cell::new(0)),
        }
    }

    /// Queues a byte, or counts it as lost.
    pub(crate) fn push(&self, byte: u8) {
        critical_section::with(|cs| {
            if self.bytes.borrow_ref_mut(cs).push_back(byte).is_err() {
                let lost = self.lost.borrow(cs);
                lost.set(lost.get().saturating_add(1));
            }
        });
    }

    pub(crate) fn pop(&self) -> Option<u8> {
        critical_section::with(|cs| self.bytes.borrow_ref_mut(cs).pop_front())
    }

    /// How many bytes found no room since start.
    pub(crate) fn lost(&self) -> u32 {
        critical_section::with(|cs| self.lost.borrow(cs).get())
    }
}
