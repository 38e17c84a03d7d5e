//! A stopwatch on a board's clock.

/// Milliseconds of a second.
const SECOND: u64 = 1_000;

/// Counts the milliseconds since it was started, from a clock of milliseconds that may start anywhere and wrap at
/// 2³² or at any greater power of two.
// All zeros while it is new: see `Tank::EMPTY`.
#[derive(Clone, Copy, Debug)]
pub struct Stopwatch {
    /// The clock when it was last told, its low half.
    last: u32,
    /// Whether it has been told at all.
    told: bool,
    runs: bool,
    elapsed: u64,
}

impl Stopwatch {
    pub(super) const fn new() -> Self {
        Self {
            last: 0,
            told: false,
            runs: false,
            elapsed: 0,
        }
    }

    /// Takes in the clock, and tells whether another second is shown now. Between two calls less than 2³² ms
    /// (49 days) pass.
    pub(super) const fn tick(&mut self, clock: u64) -> bool {
        // The low half is all that a clock of 32 bits has, and it wraps with every greater one.
        let now = clock as u32;
        let passed = if self.told {
            now.wrapping_sub(self.last)
        } else {
            0
        };
        self.last = now;
        self.told = true;
        if !self.runs {
            return false;
        }
        let before = self.seconds();
        self.elapsed = self.elapsed.saturating_add(passed as u64);
        self.seconds() != before
    }

    /// Starts it from zero.
    pub(super) const fn start(&mut self) {
        self.runs = true;
        self.elapsed = 0;
    }

    /// Stops it, at zero.
    pub(super) const fn reset(&mut self) {
        self.runs = false;
        self.elapsed = 0;
    }

    /// Milliseconds since it was started.
    #[must_use]
    pub const fn milliseconds(&self) -> u64 {
        self.elapsed
    }

    /// The same in whole seconds, as it is shown.
    #[must_use]
    pub const fn seconds(&self) -> u64 {
        self.elapsed / SECOND
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_counts_on_over_every_power_of_two() {
        for bits in 0..=64 {
            let edge = 1_u64.checked_shl(bits).unwrap_or(0);
            let mut watch = Stopwatch::new();
            watch.tick(edge.wrapping_sub(1_500));
            watch.start();
            let mut seconds = 0;
            for step in 1..=3_000 {
                let shown = watch.tick(edge.wrapping_sub(1_500).wrapping_add(step));
                seconds += u64::from(shown);
            }
            assert_eq!(watch.milliseconds(), 3_000, "2^{bits}");
            assert_eq!((watch.seconds(), seconds), (3, 3));
        }
    }

    #[test]
    fn a_clock_of_32_bits_may_wrap_by_itself() {
        let mut watch = Stopwatch::new();
        watch.tick(u64::from(u32::MAX) - 249);
        watch.start();
        assert!(!watch.tick(250));
        assert_eq!(watch.milliseconds(), 500);
        assert!(watch.tick(750));
        assert_eq!(watch.seconds(), 1);
    }

    #[test]
    fn it_starts_at_zero_whatever_the_clock_says() {
        let mut watch = Stopwatch::new();
        watch.start();
        assert!(!watch.tick(123_456_789));
        assert_eq!(watch.milliseconds(), 0);
        watch.tick(123_457_789);
        watch.start();
        assert_eq!(watch.milliseconds(), 0);
        watch.reset();
        assert!(!watch.tick(200_000_000));
        assert_eq!(watch.milliseconds(), 0);
    }
}
