//! True power of an arc whose current and voltage are not steady.
//!
//! The power of an arc is the mean over time of the product of voltage and current at each instant
//! (ISO/TR 18491:2015, method C; ASME IX QW-409.1(c); both from memory). The product of two meter
//! readings is that only for a steady arc: meters for direct current show means, meters for alternating
//! current show root mean squares, and either product may lie some per cent to one side or the other.

use crate::units::range::RangeError;
use crate::units::{Current, Figure, Ratio, Voltage};

/// Highest current in amperes: a guard against slips.
pub(crate) const MOST_CURRENT: f64 = 2_000.0;
/// Highest arc voltage in volts: a guard against slips.
pub(crate) const MOST_VOLTAGE: f64 = 500.0;

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

    /// True power in watts: `b U₁ I₁ + (1 − b) U₂ I₂`, the mean of the product.
    #[must_use]
    pub fn power(&self) -> f64 {
        self.mean(|u, i| u * i)
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
    /// [`Arc`](super::Arc) may be given the two.
    #[must_use]
    pub fn effective_voltage(&self) -> Voltage {
        Voltage::from_volts(self.power() / self.mean_current().si())
    }
}
