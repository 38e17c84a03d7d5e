//! From bouncing contacts to presses, repeats and holds. Time is passed in, in milliseconds.

use debouncr::{DebouncerStateful, Edge, Repeat4, debounce_stateful_4};

use super::{Button, Event, Reading};

/// Contacts are sampled this often at most, in milliseconds.
const SAMPLE_MS: u32 = 5;
/// Select held this long goes back.
const HOLD_MS: u32 = 600;
/// Up or down held this long starts to repeat.
const REPEAT_AFTER_MS: u32 = 500;
/// From then on it repeats this often.
const REPEAT_EVERY_MS: u32 = 120;

/// What one sample brought: at most one event from each button.
pub type Events = heapless::Vec<Event, 5>;

/// One button's state.
struct Key {
    button: Button,
    contact: DebouncerStateful<u8, Repeat4>,
    thumb: Thumb,
}

/// What the thumb is doing on one button.
#[derive(Clone, Copy, Debug)]
enum Thumb {
    /// Off the button, or on it since before we looked.
    Off,
    /// On it; `due` is when the next repeat or the hold falls.
    On { due: u32 },
    /// On it still, with nothing more to come of it.
    Spent,
}

/// Debounces the five buttons.
///
/// A contact counts as changed when four samples at least 5 ms apart agree, 15 ms after the change
/// at best, and shorter closures are noise. A button whose contact is closed at power-on counts as
/// held since before, so it does nothing until it has been seen open: a stuck or shorted button
/// never presses itself, and lines that read low until first driven do no harm.
pub struct Debouncer {
    keys: [Key; 5],
    sampled: Option<u32>,
}

impl core::fmt::Debug for Debouncer {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.debug_list()
            .entries(self.keys.iter().map(|key| (key.button, key.thumb)))
            .finish()
    }
}

impl Default for Debouncer {
    fn default() -> Self {
        Self::new()
    }
}

impl Debouncer {
    /// Starts with every button taken as held since before power-on.
    #[must_use]
    pub fn new() -> Self {
        Self {
            keys: Button::ALL.map(|button| Key {
                button,
                contact: debounce_stateful_4(true),
                thumb: Thumb::Off,
            }),
            sampled: None,
        }
    }

    /// Takes the contacts as they are at `now_ms` and returns what that means. May be called as
    /// often as one likes; readings less than 5 ms after the last sample are passed over. The clock
    /// may wrap.
    pub fn poll(&mut self, now_ms: u32, reading: Reading) -> Events {
        let mut events = Events::new();
        if self
            .sampled
            .is_some_and(|last| now_ms.wrapping_sub(last) < SAMPLE_MS)
        {
            return events;
        }
        self.sampled = Some(now_ms);
        for key in &mut self.keys {
            if let Some(event) = key.sample(now_ms, reading) {
                // One event a button at most, so there is always room.
                let _ = events.push(event);
            }
        }
        events
    }
}

impl Key {
    fn sample(&mut self, now: u32, reading: Reading) -> Option<Event> {
        let edge = self.contact.update(reading.is_closed(self.button));
        let select = self.button == Button::Select;
        match (edge, self.thumb) {
            (Some(Edge::Rising), _) => {
                let wait = match self.button {
                    Button::Select => HOLD_MS,
                    Button::Up | Button::Down => REPEAT_AFTER_MS,
                    Button::Left | Button::Right => {
                        self.thumb = Thumb::Spent;
                        return Some(Event::Press(self.button));
                    }
                };
                self.thumb = Thumb::On {
                    due: now.wrapping_add(wait),
                };
                (!select).then_some(Event::Press(self.button))
            }
            (Some(Edge::Falling), thumb) => {
                self.thumb = Thumb::Off;
                (select && matches!(thumb, Thumb::On { .. })).then_some(Event::Press(self.button))
            }
            (None, Thumb::On { due }) if has_come(now, due) => {
                if select {
                    self.thumb = Thumb::Spent;
                    Some(Event::Hold)
                } else {
                    // Counted from now: after a long calculation no burst of repeats is owed.
                    self.thumb = Thumb::On {
                        due: now.wrapping_add(REPEAT_EVERY_MS),
                    };
                    Some(Event::Repeat(self.button))
                }
            }
            _ => None,
        }
    }
}

/// Whether `due` is not after `now` on a clock that wraps.
const fn has_come(now: u32, due: u32) -> bool {
    now.wrapping_sub(due) < 1 << 31
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::vec::Vec;

    /// A bench for one debouncer: contacts that bounce, polled every millisecond.
    struct Bench {
        debouncer: Debouncer,
        now: u32,
        noise: u32,
        seen: Vec<(u32, Event)>,
    }

    impl Bench {
        /// A bench on which every button has been seen open.
        fn ready(start: u32) -> Self {
            let mut bench = Self::at_power_on(start);
            bench.steady(Reading::NONE, 40);
            bench
        }

        fn at_power_on(start: u32) -> Self {
            Self {
                debouncer: Debouncer::new(),
                now: start,
                noise: 0x2545_F491,
                seen: Vec::new(),
            }
        }

        fn steady(&mut self, reading: Reading, ms: u32) {
            for _ in 0..ms {
                for event in self.debouncer.poll(self.now, reading) {
                    self.seen.push((self.now, event));
                }
                self.now = self.now.wrapping_add(1);
            }
        }

        /// Contacts that chatter at random between open and `reading` for `ms`.
        fn bouncing(&mut self, reading: Reading, ms: u32) {
            for _ in 0..ms {
                // Xorshift: any chatter will do, so long as it is the same in every run.
                self.noise ^= self.noise << 13;
                self.noise ^= self.noise >> 17;
                self.noise ^= self.noise << 5;
                let closed = self.noise & 1 == 1;
                self.steady(if closed { reading } else { Reading::NONE }, 1);
            }
        }

        fn tap(&mut self, button: Button, ms: u32) {
            let closed = Reading::NONE.with(button, true);
            self.bouncing(closed, 8);
            self.steady(closed, ms);
            self.bouncing(closed, 8);
            self.steady(Reading::NONE, 60);
        }

        fn events(&self) -> Vec<Event> {
            self.seen.iter().map(|(_, event)| *event).collect()
        }
    }

    #[test]
    fn one_bouncing_tap_is_one_press() {
        for button in Button::ALL {
            let mut bench = Bench::ready(0);
            for _ in 0..20 {
                bench.tap(button, 80);
            }
            assert_eq!(bench.events(), [Event::Press(button); 20], "{button:?}");
        }
    }

    #[test]
    fn chatter_without_a_press_is_nothing() {
        let mut bench = Bench::ready(0);
        for _ in 0..50 {
            bench.steady(Reading::ALL, 12);
            bench.steady(Reading::NONE, 9);
        }
        assert_eq!(bench.events(), []);
    }

    #[test]
    fn closed_at_power_on_is_not_pressed_until_seen_open() {
        let mut bench = Bench::at_power_on(0);
        bench.steady(Reading::ALL, 5_000);
        assert_eq!(bench.events(), []);
        bench.steady(Reading::NONE, 40);
        assert_eq!(bench.events(), [], "nor is letting go a press of select");
        bench.tap(Button::Select, 80);
        assert_eq!(bench.events(), [Event::Press(Button::Select)]);
    }

    #[test]
    fn select_held_goes_back_once_and_is_no_press() {
        let mut bench = Bench::ready(0);
        let from = bench.now;
        bench.tap(Button::Select, 2_000);
        assert_eq!(bench.events(), [Event::Hold]);
        let took = bench.seen[0].0 - from;
        assert!((600..650).contains(&took), "{took} ms");
    }

    #[test]
    fn up_and_down_repeat_and_the_others_do_not() {
        for button in Button::ALL {
            let mut bench = Bench::ready(0);
            bench.tap(button, 590);
            let repeats = match button {
                Button::Up | Button::Down => 1,
                _ => 0,
            };
            let events = bench.events();
            assert_eq!(events.len(), 1 + repeats, "{button:?}");
        }
        let mut bench = Bench::ready(0);
        bench.tap(Button::Up, 2_000);
        let times: Vec<_> = bench.seen.iter().map(|(at, _)| *at).collect();
        assert_eq!(bench.seen[1].1, Event::Repeat(Button::Up));
        assert_eq!(times[1] - times[0], 500);
        assert!(times[1..].windows(2).all(|pair| pair[1] - pair[0] == 120));
    }

    #[test]
    fn a_long_calculation_owes_no_burst_of_repeats() {
        let mut bench = Bench::ready(0);
        let up = Reading::NONE.with(Button::Up, true);
        bench.steady(up, 100);
        bench.now += 3_000;
        bench.steady(up, 100);
        assert_eq!(
            bench.events(),
            [Event::Press(Button::Up), Event::Repeat(Button::Up)]
        );
    }

    #[test]
    fn the_clock_may_wrap() {
        let mut bench = Bench::ready(u32::MAX - 150);
        bench.tap(Button::Select, 2_000);
        bench.tap(Button::Down, 80);
        assert_eq!(bench.events(), [Event::Hold, Event::Press(Button::Down)]);
    }

    #[test]
    fn two_thumbs_are_two_presses() {
        let mut bench = Bench::ready(0);
        let both = Reading::NONE
            .with(Button::Left, true)
            .with(Button::Down, true);
        bench.steady(both, 80);
        assert_eq!(
            bench.events(),
            [Event::Press(Button::Down), Event::Press(Button::Left)]
        );
    }
}
