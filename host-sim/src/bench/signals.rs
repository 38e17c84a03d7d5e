//! The signals that end a session, noted instead of obeyed while the terminal is ours.

use std::io;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use signal_hook::SigId;
use signal_hook::consts::{SIGHUP, SIGINT, SIGQUIT, SIGTERM};

/// Watches from [`Signals::watch`] until dropped.
#[derive(Debug)]
pub(super) struct Signals {
    caught: Arc<AtomicUsize>,
    registered: Vec<SigId>,
}

impl Signals {
    pub(super) fn watch() -> io::Result<Self> {
        let mut signals = Self {
            caught: Arc::new(AtomicUsize::new(0)),
            registered: Vec::new(),
        };
        for signal in [SIGTERM, SIGHUP, SIGINT, SIGQUIT] {
            let number = usize::try_from(signal).unwrap_or(0);
            signals.registered.push(signal_hook::flag::register_usize(
                signal,
                Arc::clone(&signals.caught),
                number,
            )?);
        }
        Ok(signals)
    }

    /// The last signal that came.
    pub(super) fn caught(&self) -> Option<i32> {
        i32::try_from(self.caught.load(Ordering::SeqCst))
            .ok()
            .filter(|signal| *signal != 0)
    }
}

impl Drop for Signals {
    fn drop(&mut self) {
        for id in self.registered.drain(..) {
            signal_hook::low_level::unregister(id);
        }
    }
}
