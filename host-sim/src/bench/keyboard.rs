//! Keys as they come, read on a thread of their own.
//!
//! The thread is there for the day the terminal goes away: reading one that has hung up may keep that
//! thread for ever, while the session still sees the signal and ends.

use std::io;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel};
use std::thread;
use std::time::{Duration, Instant};

use crossterm::event::{self, KeyEvent};

/// How long the thread waits for a key before it looks whether it is still wanted.
const LOOK: Duration = Duration::from_millis(40);
/// How long the session waits for the thread to notice that it is not.
const CLOSING: Duration = Duration::from_millis(500);

/// The keyboard of the terminal.
#[derive(Debug)]
pub(super) struct Keyboard {
    keys: Receiver<io::Result<KeyEvent>>,
    unwanted: Arc<AtomicBool>,
}

impl Keyboard {
    /// Starts reading.
    pub(super) fn open() -> io::Result<Self> {
        let (sender, keys) = channel();
        let unwanted = Arc::new(AtomicBool::new(false));
        thread::Builder::new().name("keyboard".to_owned()).spawn({
            let unwanted = Arc::clone(&unwanted);
            move || read(&sender, &unwanted)
        })?;
        Ok(Self { keys, unwanted })
    }

    /// The next key, or `None` if there is none within `limit`.
    pub(super) fn next(&self, limit: Duration) -> io::Result<Option<KeyEvent>> {
        match self.keys.recv_timeout(limit) {
            Ok(key) => key.map(Some),
            Err(RecvTimeoutError::Timeout) => Ok(None),
            Err(RecvTimeoutError::Disconnected) => Err(io::ErrorKind::UnexpectedEof.into()),
        }
    }

    /// Stops reading, so that whatever is typed from now on is another program's.
    pub(super) fn close(&self) {
        self.unwanted.store(true, Ordering::Relaxed);
        let end = Instant::now() + CLOSING;
        // The channel is cut when the thread ends. Joining it instead could wait for ever.
        while let Some(left) = end.checked_duration_since(Instant::now()) {
            if matches!(
                self.keys.recv_timeout(left),
                Err(RecvTimeoutError::Disconnected)
            ) {
                return;
            }
        }
    }
}

fn read(sender: &Sender<io::Result<KeyEvent>>, unwanted: &AtomicBool) {
    while !unwanted.load(Ordering::Relaxed) {
        let event = match event::poll(LOOK) {
            Ok(false) => continue,
            Ok(true) => event::read(),
            Err(error) => Err(error),
        };
        let sent = match event {
            Ok(event::Event::Key(key)) => sender.send(Ok(key)),
            // A change of size is seen when the next picture is drawn.
            Ok(_) => continue,
            Err(error) => {
                let _ = sender.send(Err(error));
                return;
            }
        };
        if sent.is_err() {
            return;
        }
    }
}
