//! Tells the log when the button lines have come to rest.
//!
//! Someone who looks for a worn button or a broken wire sees here what the pins read, before any
//! debouncing; a test learns that the gauge has acted on a press and redrawn.

use seamwright_firmware::buttons::{Button, Reading};

/// Longer than the debouncer needs to act on a change.
const SETTLED_AFTER_MS: u64 = 30;

/// What the lines read last, and whether that has been logged.
#[derive(Debug)]
pub(crate) struct Contacts {
    reading: Reading,
    since: u64,
    told: bool,
}

impl Contacts {
    pub(crate) const fn new() -> Self {
        Self {
            reading: Reading::NONE,
            since: 0,
            told: false,
        }
    }

    /// Takes the lines as they are at `now` (milliseconds), after the gauge has acted on them.
    pub(crate) fn watch(&mut self, now: u64, reading: Reading) {
        if reading != self.reading {
            *self = Self {
                reading,
                since: now,
                told: false,
            };
        } else if !self.told && now.saturating_sub(self.since) >= SETTLED_AFTER_MS {
            self.told = true;
            defmt::info!("buttons settled closed={=u8}", bits(reading));
        }
    }
}

/// One bit a button, in the order of [`Button::ALL`].
fn bits(reading: Reading) -> u8 {
    Button::ALL.iter().rev().fold(0, |bits, &button| {
        (bits << 1) | u8::from(reading.is_closed(button))
    })
}
