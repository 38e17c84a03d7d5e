//! What a whole order of welding takes.

use crate::heat::TemperatureRise;
use crate::units::{Ratio, Temperature, Time};

/// What welding all stitches in one order takes, as it is simulated.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct OrderTotals {
    /// From the first arc to the end of the last, in s.
    pub(super) job: f64,
    /// With the arc burning, in s.
    pub(super) arc: f64,
    /// Moving from stitch to stitch, in s.
    pub(super) moves: f64,
    /// Waiting beside the moves, in s.
    pub(super) waits: f64,
    /// The waits, in s, in which the metal was cool enough and power source or torch alone had to rest.
    pub(super) rests: f64,
    /// The hottest start, in K over the surroundings.
    pub(super) hottest: f64,
    /// Temperature of the surroundings, in K.
    pub(super) ambient: f64,
    /// The largest pull, see [`OrderTotals::pull`].
    pub(super) pull: f64,
}

impl OrderTotals {
    pub(super) const NONE: Self = Self {
        job: 0.0,
        arc: 0.0,
        moves: 0.0,
        waits: 0.0,
        rests: 0.0,
        hottest: 0.0,
        ambient: 0.0,
        pull: 0.0,
    };

    /// From the first arc to the end of the last.
    #[must_use]
    pub const fn job(&self) -> Time {
        Time::from_seconds(self.job)
    }

    /// With the arc burning.
    #[must_use]
    pub const fn arc(&self) -> Time {
        Time::from_seconds(self.arc)
    }

    /// Moving from one stitch to the next.
    #[must_use]
    pub const fn moves(&self) -> Time {
        Time::from_seconds(self.moves)
    }

    /// All waits beside the moves: for the metal to cool and for power source and torch to rest.
    #[must_use]
    pub const fn waits(&self) -> Time {
        Time::from_seconds(self.waits)
    }

    /// The waits while the metal was too warm, whether or not power source and torch needed their rest as well.
    #[must_use]
    pub const fn metal_waits(&self) -> Time {
        Time::from_seconds(self.waits - self.rests)
    }

    /// The waits in which the metal was cool enough and power source or torch alone had to rest.
    #[must_use]
    pub const fn rests(&self) -> Time {
        Time::from_seconds(self.rests)
    }

    /// The hottest metal at the start of any stitch, just before the arc.
    #[must_use]
    pub const fn hottest_start(&self) -> Temperature {
        Temperature::from_kelvins(self.ambient + self.hottest)
    }

    /// How far that is above the surroundings.
    #[must_use]
    pub const fn hottest_rise(&self) -> TemperatureRise {
        TemperatureRise::from_kelvins(self.hottest)
    }

    /// The largest pull to one side on the way, 0 to about 1: the first moment of what is welded about the middle of the
    /// welds, over the sum of all lengths by their distances. A measure of this project, not a prediction of distortion.
    #[must_use]
    pub const fn pull(&self) -> Ratio {
        Ratio::from_share(self.pull)
    }

    /// Whether this is the better of two orders: the shorter job, of equals the less lopsided.
    #[must_use]
    pub fn beats(&self, other: &Self) -> bool {
        self.job < other.job || (self.job <= other.job && self.pull < other.pull)
    }
}

/// What an order takes where the metal takes up another share of the arc's power than the job says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UptakeTotals {
    /// The share that is taken up.
    pub uptake: Ratio,
    /// What the order takes then.
    pub totals: OrderTotals,
}
