//! How the loop learns what a thumb has done: by looking between two pieces of its work, or from an
//! interrupt that has looked all the while.

use core::cell::RefCell;

use critical_section::Mutex;
use heapless::{Deque, Vec};
use seamwright_firmware::buttons::{Debouncer, Event, Keys, Reading};

/// Events that wait for a busy loop.
const WAITING: usize = 8;

/// What a look at the buttons brings.
#[derive(Clone, Debug)]
pub struct Look {
    /// The contacts as they read last, bounce and all.
    pub reading: Reading,
    /// What was done since the last look, and when, in milliseconds; wraps.
    pub events: Vec<(Event, u32), WAITING>,
}

/// The buttons, as the loop asks for them.
pub trait Hand {
    /// What was done by `now`, in milliseconds since start-up; `None` while the buttons cannot be read.
    fn look(&mut self, now: u64) -> Option<Look>;
}

/// Buttons that are read whenever the loop comes round: for a gauge whose work between two looks is
/// shorter than a press.
#[derive(Debug)]
pub struct Polled<K> {
    keys: K,
    debouncer: Debouncer,
}

impl<K> Polled<K> {
    /// Looks at these.
    pub fn new(keys: K) -> Self {
        Self {
            keys,
            debouncer: Debouncer::new(),
        }
    }
}

impl<K: Keys> Hand for Polled<K> {
    fn look(&mut self, now: u64) -> Option<Look> {
        let reading = self.keys.read().ok()?;
        // The debouncer's clock may wrap.
        let now = now as u32;
        let events = self.debouncer.poll(now, reading);
        Some(Look {
            reading,
            events: events.into_iter().map(|event| (event, now)).collect(),
        })
    }
}

/// Buttons that an interrupt reads every millisecond, so that a press in the middle of a long piece of
/// work is acted on after it, and not lost.
#[derive(Debug)]
pub struct Sampled(Mutex<RefCell<State>>);

#[derive(Debug)]
struct State {
    debouncer: Option<Debouncer>,
    reading: Reading,
    waiting: Deque<(Event, u32), WAITING>,
}

impl Default for Sampled {
    fn default() -> Self {
        Self::new()
    }
}

impl Sampled {
    /// Nothing seen yet.
    #[must_use]
    pub const fn new() -> Self {
        Self(Mutex::new(RefCell::new(State {
            debouncer: None,
            reading: Reading::NONE,
            waiting: Deque::new(),
        })))
    }

    /// Takes the contacts as they are at `now`, in milliseconds; for the interrupt to call. A ninth
    /// event that would wait is lost.
    pub fn sample(&self, now: u32, reading: Reading) {
        critical_section::with(|cs| {
            let state = &mut *self.0.borrow_ref_mut(cs);
            state.reading = reading;
            let debouncer = state.debouncer.get_or_insert_with(Debouncer::new);
            for event in debouncer.poll(now, reading) {
                // A busy gauge owes no burst of repeats.
                if !matches!(event, Event::Repeat(_)) || state.waiting.is_empty() {
                    let _ = state.waiting.push_back((event, now));
                }
            }
        });
    }
}

impl Hand for &Sampled {
    fn look(&mut self, _now: u64) -> Option<Look> {
        critical_section::with(|cs| {
            let state = &mut *self.0.borrow_ref_mut(cs);
            let mut events = Vec::new();
            while let Some(event) = state.waiting.pop_front() {
                // Room for all that can wait.
                let _ = events.push(event);
            }
            Some(Look {
                reading: state.reading,
                events,
            })
        })
    }
}
