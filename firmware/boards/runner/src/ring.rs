//! A byte queue between an interrupt and the main loop, which counts what it had no room for.

use core::cell::{Cell, RefCell};

use critical_section::Mutex;
use heapless::Deque;

/// Up to `N` bytes, first in, first out.
#[derive(Debug)]
pub struct Ring<const N: usize> {
    bytes: Mutex<RefCell<Deque<u8, N>>>,
    lost: Mutex<Cell<u32>>,
}

impl<const N: usize> Default for Ring<N> {
    fn default() -> Self {
        Self::new()
    }
}

impl<const N: usize> Ring<N> {
    /// An empty queue.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            bytes: Mutex::new(RefCell::new(Deque::new())),
            lost: Mutex::new(Cell::new(0)),
        }
    }

    /// Queues a byte, or counts it as lost.
    pub fn push(&self, byte: u8) {
        critical_section::with(|cs| {
            if self.bytes.borrow_ref_mut(cs).push_back(byte).is_err() {
                let lost = self.lost.borrow(cs);
                lost.set(lost.get().saturating_add(1));
            }
        });
    }

    /// Takes the oldest byte, if there is one.
    pub fn pop(&self) -> Option<u8> {
        critical_section::with(|cs| self.bytes.borrow_ref_mut(cs).pop_front())
    }

    /// How many bytes are queued.
    pub fn held(&self) -> usize {
        critical_section::with(|cs| self.bytes.borrow_ref(cs).len())
    }

    /// How many bytes would find room.
    pub fn room(&self) -> usize {
        N - self.held()
    }

    /// How many bytes found no room since start.
    pub fn lost(&self) -> u32 {
        critical_section::with(|cs| self.lost.borrow(cs).get())
    }
}
