//! True power of an arc whose current and voltage are not steady.
//!
//! The power of an arc is the mean over time of the product of voltage and current at each instant
//! (ISO/TR 18491:2015, method C; ASME IX QW-409.1(c); both from memory). The product of two meter
//! readings is that only for a steady arc: meters for direct current show means, meters for alternating
//! current show root mean squares, and either product may lie some per cent to one side or the other.

use super::energy::Arc;
use crate::input::limits::RATED_CURRENT;
use crate::units::range::RangeError;
use crate::units::{Current, Figure, Power, Ratio, Time, Voltage};

/// Highest current in amperes: a guard against slips.
pub(crate) const MOST_CURRENT: f64 = RATED_CURRENT.1.si();
/// Highest arc voltage in volts: a guard against slips.
pub(crate) const MOST_VOLTAGE: f64 = 500.0;

/// The share by which the true power may differ from current times voltage before that is worth a word: common
/// practice, no source.
const APART: f64 = 0.05;

/// Voltage and current of the arc while both are steady; magnitudes, whatever the polarity.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct ArcLevel {
    /// Across the arc.
    pub voltage: Voltage,
    /// Through it.
    pub current: Current,
}

impl ArcLevel {
    fn checked(self) -> Result<[f64; 2], RangeError> {
        Ok([
            Figure::Voltage.above(self.voltage.si(), 0.0, MOST_VOLTAGE)?,
            Figure::Current.above(self.current.si(), 0.0, MOST_CURRENT)?,
        ])
    }
}

/// A cycle of alternating current with a square wave: a level for each polarity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cycle {
    /// Share of the cycle with the electrode negative.
    share: f64,
    /// Volts and amperes, electrode negative first.
    levels: [[f64; 2]; 2],
}

impl Cycle {
    /// A cycle by its balance and its levels. `balance` is the share of the time with the electrode
    /// negative, from 0 to 1; each polarity has its own voltage and current.
    ///
    /// # Errors
    /// [`RangeError`] for the balance or a level.
    pub fn square(
        balance: Ratio,
        negative: ArcLevel,
        positive: ArcLevel,
    ) -> Result<Self, RangeError> {
        Ok(Self {
            share: Figure::Balance.within(balance.si(), 0.0, 1.0)?,
            levels: [negative.checked()?, positive.checked()?],
        })
    }

    /// The mean over a cycle of `of(volts, amperes)`.
    fn mean(&self, of: fn(f64, f64) -> f64) -> f64 {
        let [a, b] = self.levels.map(|[u, i]| of(u, i));
        self.share * a + (1.0 - self.share) * b
    }

    /// True power: `b U₁ I₁ + (1 − b) U₂ I₂`, the mean of the product.
    #[must_use]
    pub fn power(&self) -> Power {
        Power::from_watts(self.mean(|u, i| u * i))
    }

    /// Mean of the current's magnitude.
    #[must_use]
    pub fn mean_current(&self) -> Current {
        Current::from_amperes(self.mean(|_, i| i))
    }

    /// Root mean square of the current: what a meter for alternating current shows.
    #[must_use]
    pub fn rms_current(&self) -> Current {
        Current::from_amperes(libm::sqrt(self.mean(|_, i| i * i)))
    }

    /// Root mean square of the voltage.
    #[must_use]
    pub fn rms_voltage(&self) -> Voltage {
        Voltage::from_volts(libm::sqrt(self.mean(|u, _| u * u)))
    }

    /// The voltage which with [`mean_current`](Self::mean_current) makes the true power, so that
    /// [`Arc`] may be given the two.
    #[must_use]
    pub fn effective_voltage(&self) -> Voltage {
        Voltage::from_volts(self.power().si() / self.mean_current().si())
    }

    /// Whether the true power is so far from what an arc's current and voltage make, 5 % of that, that they do not stand
    /// for it.
    #[must_use]
    pub fn departs_from(&self, arc: &Arc) -> bool {
        libm::fabs(self.power().si() / arc.power().si() - 1.0) > APART
    }
}

/// The wave of an alternating arc, as it is set and, where somebody measured that, with its levels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wave {
    /// Share of the time with the electrode negative.
    pub balance: Ratio,
    /// Cycles in a second, above zero.
    pub frequency: Option<f64>,
    /// The cycle with both its levels, where they are known.
    pub cycle: Option<Cycle>,
}

impl Wave {
    /// How long in each cycle the electrode is negative, and how long positive; `None` without a frequency.
    ///
    /// ```
    /// use seamwright_core::arc::power::Wave;
    /// use seamwright_core::units::{Ratio, Time};
    ///
    /// let wave = Wave { balance: Ratio::from_share(0.75), frequency: Some(125.0), cycle: None };
    /// // Of 8 ms.
    /// let [negative, positive] = wave.halves().ok_or("no frequency")?;
    /// assert_eq!([negative, positive].map(Time::si), [0.006, 0.002]);
    /// # Ok::<(), &str>(())
    /// ```
    #[must_use]
    pub fn halves(&self) -> Option<[Time; 2]> {
        let hertz = self.frequency?;
        let negative = self.balance.si();
        Some([negative, 1.0 - negative].map(|share| Time::from_seconds(share / hertz)))
    }
}
