//! Parts of a plan in threads, as many at once as the machine has processors.

use std::sync::{Mutex, PoisonError};
use std::thread;

use seamwright_core::weld::Crew;

/// Has each worker's piece done in whichever thread is free.
#[derive(Clone, Copy, Debug)]
pub(super) struct Threads {
    most: usize,
}

impl Threads {
    /// As many as the machine runs at once.
    pub(super) fn of_machine() -> Self {
        let most = thread::available_parallelism().map_or(1, std::num::NonZero::get);
        Self { most }
    }
}

impl Crew for Threads {
    fn each<W: Send>(&self, workers: &mut [W], work: impl Fn(usize, &mut W) + Sync) {
        let count = self.most.min(workers.len());
        let left = Mutex::new(workers.iter_mut().enumerate());
        let go_on = || {
            loop {
                // Nothing that is called under the lock panics.
                let next = left.lock().unwrap_or_else(PoisonError::into_inner).next();
                let Some((place, worker)) = next else { break };
                work(place, worker);
            }
        };
        thread::scope(|scope| {
            // This thread is one of them.
            for _ in 1..count {
                scope.spawn(go_on);
            }
            go_on();
        });
    }
}
