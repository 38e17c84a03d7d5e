//! What a leak test tells of itself.

use seamwright_core::advice::caution::Caution;
use seamwright_core::leak::{Leak, LeakPlan, LeakRule, Reading, ReadingError};

use super::super::scene::{Outcome, Seen, Site, sheets};
use super::super::stopwatch::Stopwatch;
use super::super::typed::{Asked, Typed};
use super::{LeakTest, SECOND, bit};
use crate::amount::Units;

impl LeakTest {
    /// The rule that it goes by.
    #[must_use]
    pub const fn rule(&self) -> LeakRule {
        self.rule
    }

    /// Which screen of a plan is shown, one, and how many there are.
    #[must_use]
    pub fn place(&self, plan: &LeakPlan, site: &Site<'_>) -> (usize, usize, usize) {
        (
            usize::from(self.line),
            1,
            sheets(plan, self.way, site).count(),
        )
    }

    /// What may be said of the seams: that none leaks only once the tank has stood.
    #[must_use]
    pub fn sights(&self, plan: &LeakPlan) -> &'static [Seen] {
        if self.has_stood(plan) {
            &[Seen::NotYet, Seen::Leak, Seen::Dry]
        } else {
            &[Seen::NotYet, Seen::Leak]
        }
    }

    /// Which screenful of the scene is read.
    #[must_use]
    pub fn part(&self) -> usize {
        usize::from(self.part)
    }

    /// The timer.
    #[must_use]
    pub const fn watch(&self) -> &Stopwatch {
        &self.watch
    }

    /// The readings so far.
    #[must_use]
    pub fn readings(&self) -> &[Reading] {
        &self.readings
    }

    /// Whether it takes no more of them.
    #[must_use]
    pub fn is_full(&self) -> bool {
        self.readings.is_full()
    }

    /// The reading that is being typed, and when it was taken.
    #[must_use]
    pub const fn typed(&self) -> (Typed, u64) {
        (self.typed, self.taken)
    }

    /// What is sought and what it is read with.
    #[must_use]
    pub fn asked(&self, units: Units) -> Asked {
        self.asked.or_usual(units)
    }

    /// Whether a caution was acknowledged.
    #[must_use]
    pub const fn has_acknowledged(&self, caution: Caution) -> bool {
        self.acknowledged & bit(caution) != 0
    }

    /// What the readings come to; `None` of fewer than two.
    #[must_use]
    pub fn outcome(&self, site: &Site<'_>) -> Option<Result<Outcome, ReadingError>> {
        if self.readings.len() < 2 {
            return None;
        }
        let vessel = site.vessel.as_ref().ok()?;
        let asked = self.asked(site.units);
        let instruments = asked.instruments().ok()?;
        let allowed = asked.allowed();
        let read = || {
            let leak = Leak::of(
                vessel.volume,
                vessel.compliance,
                &self.readings,
                &instruments,
            )?;
            Ok(Outcome {
                leak,
                verdict: leak.judge(allowed)?,
                allowed,
                tells: leak.time_to_tell(allowed),
            })
        };
        Some(read())
    }

    /// Whether it has stood as long as the plan wants.
    #[must_use]
    pub fn has_stood(&self, plan: &LeakPlan) -> bool {
        self.watch.milliseconds() as f64 >= plan.hold.si() * SECOND
    }
}
