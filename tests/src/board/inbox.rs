//! What a reader thread hands to the test: a growing list that can be waited on.

use std::{
    sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError},
    time::{Duration, Instant},
};

/// A list that one thread fills and another reads and waits on. Clones share the list.
#[derive(Debug)]
pub(super) struct Inbox<T>(Arc<Shared<T>>);

#[derive(Debug)]
struct Shared<T> {
    items: Mutex<Vec<T>>,
    grown: Condvar,
}

impl<T> Clone for Inbox<T> {
    fn clone(&self) -> Self {
        Self(Arc::clone(&self.0))
    }
}

impl<T> Inbox<T> {
    pub(super) fn new() -> Self {
        Self(Arc::new(Shared {
            items: Mutex::new(Vec::new()),
            grown: Condvar::new(),
        }))
    }

    /// The list. A reader thread that panicked leaves a list that is whole all the same.
    pub(super) fn items(&self) -> MutexGuard<'_, Vec<T>> {
        self.0.items.lock().unwrap_or_else(PoisonError::into_inner)
    }

    pub(super) fn extend(&self, items: impl IntoIterator<Item = T>) {
        self.items().extend(items);
        self.0.grown.notify_all();
    }

    /// Asks `find` about the list each time it grows, until it answers or `limit` has passed.
    pub(super) fn wait<R>(
        &self,
        limit: Duration,
        mut find: impl FnMut(&mut Vec<T>) -> Option<R>,
    ) -> Option<R> {
        let end = Instant::now() + limit;
        let mut items = self.items();
        loop {
            if let Some(found) = find(&mut items) {
                return Some(found);
            }
            let left = end.checked_duration_since(Instant::now())?;
            items = self
                .0
                .grown
                .wait_timeout(items, left)
                .unwrap_or_else(PoisonError::into_inner)
                .0;
        }
    }
}
