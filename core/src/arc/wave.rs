//! True power of an arc whose current and voltage are not steady.
//!
//! The power of an arc is the mean over time of the product of voltage and current at each instant
//! (ISO/TR 18491:2015, method C; ASME IX QW-409.1(c); both from memory). The product of two meter
//! readings is that only for a steady arc: meters for direct current show means, meters for alternating
//! current show root mean squares, and either product may lie some per cent to one side or the other.
//! Samples must be taken together, some ten thousand in a second: Welding Journal (2010) on waveform
//! control, as quoted in the literature.

use core::f64::consts::{FRAC_2_PI, SQRT_2};

use crate::units::refuse::{Field, Refused, above, within};
use crate::units::{Current, Energy, Length, LineEnergy, Ratio, Speed, Time, Voltage};

/// Highest current in amperes: a guard against slips.
pub(crate) const MOST_CURRENT: f64 = 2_000.0;
/// Highest arc voltage in volts: a guard against slips.
pub(crate) const MOST_VOLTAGE: f64 = 500.0;

/// Voltage and current of the arc while both are steady; magnitudes, whatever the polarity.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Level {
    /// Across the arc.
    pub voltage: Voltage,
    /// Through it.
    pub current: Current,
}

impl Level {
    fn checked(self) -> Result<[f64; 2], Refused> {
        Ok([
            above(Field::Voltage, self.voltage.si(), 0.0, MOST_VOLTAGE)?,
            above(Field::Current, self.current.si(), 0.0, MOST_CURRENT)?,
        ])
    }
}

/// A cycle of two steady levels: alternating current with a square wave, or pulsed direct current.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cycle {
    /// Share of the cycle at the first level.
    share: f64,
    /// Volts and amperes of both.
    levels: [[f64; 2]; 2],
    alternating: bool,
}

impl Cycle {
    /// A steady arc on direct current.
    ///
    /// # Errors
    /// [`Refused`] for a voltage outside 0 to 500 V or a current outside 0 to 2000 A; nought is refused.
    pub fn steady(level: Level) -> Result<Self, Refused> {
        let level = level.checked()?;
        Ok(Self {
            share: 1.0,
            levels: [level; 2],
            alternating: false,
        })
    }

    /// Alternating current with a square wave. `balance` is the share of the time with the electrode
    /// negative, from 0 to 1; each polarity has its own voltage and current.
    ///
    /// # Errors
    /// [`Refused`] for the balance or a level.
    pub fn square(balance: Ratio, negative: Level, positive: Level) -> Result<Self, Refused> {
        Ok(Self {
            share: within(Field::Balance, balance.si(), 0.0, 1.0)?,
            levels: [negative.checked()?, positive.checked()?],
            alternating: true,
        })
    }

    /// Direct current that steps between a peak, held for `share` of the cycle, and a background.
    ///
    /// # Errors
    /// [`Refused`] for the share or a level.
    pub fn pulsed(share: Ratio, peak: Level, background: Level) -> Result<Self, Refused> {
        Ok(Self {
            share: within(Field::Pulse, share.si(), 0.0, 1.0)?,
            levels: [peak.checked()?, background.checked()?],
            alternating: false,
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

    /// Mean of the voltage's magnitude.
    #[must_use]
    pub fn mean_voltage(&self) -> Voltage {
        Voltage::from_volts(self.mean(|u, _| u))
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

    /// Net current from work to electrode-negative electrode: the mean with its sign. Of an alternating
    /// wave this is the part that a transformer would have to carry as direct current.
    #[must_use]
    pub fn net_current(&self) -> Current {
        let [[_, a], [_, b]] = self.levels;
        let back = if self.alternating { -b } else { b };
        Current::from_amperes(self.share * a + (1.0 - self.share) * back)
    }

    /// Times at the first and at the second level in each cycle of `hertz` cycles a second. Frequency
    /// changes these and the arc's behaviour, not the power.
    ///
    /// # Errors
    /// [`Refused`] unless the frequency is above 0 and at most 50 kHz.
    pub fn times(&self, hertz: f64) -> Result<[Time; 2], Refused> {
        let period = 1.0 / above(Field::Frequency, hertz, 0.0, 50_000.0)?;
        Ok([self.share, 1.0 - self.share].map(|share| Time::from_seconds(share * period)))
    }
}

/// Sinusoidal current through an arc whose voltage is square and in phase with it, as of a
/// transformer set: the arc holds its voltage while the current swings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sine {
    peak: f64,
    volts: [f64; 2],
}

impl Sine {
    /// Root mean square over mean magnitude of a sine, `π / (2√2)` = 1.1107: plain calculus.
    pub const FORM_FACTOR: f64 = 1.0 / (FRAC_2_PI * SQRT_2);

    /// From the root mean square of the current, which meters for alternating current show, and the
    /// voltages with the electrode negative and positive.
    ///
    /// # Errors
    /// [`Refused`] for a voltage outside 0 to 500 V or a current outside 0 to 2000 A; nought is refused.
    pub fn from_rms(current: Current, voltages: [Voltage; 2]) -> Result<Self, Refused> {
        Self::from_peak(Current::from_amperes(current.si() * SQRT_2), voltages)
    }

    /// From the mean of the current's magnitude.
    ///
    /// # Errors
    /// As [`from_rms`](Self::from_rms).
    pub fn from_mean(current: Current, voltages: [Voltage; 2]) -> Result<Self, Refused> {
        Self::from_peak(Current::from_amperes(current.si() / FRAC_2_PI), voltages)
    }

    /// From the highest value of the current.
    ///
    /// # Errors
    /// As [`from_rms`](Self::from_rms).
    pub fn from_peak(current: Current, voltages: [Voltage; 2]) -> Result<Self, Refused> {
        let [negative, positive] = voltages;
        let volts = |v: Voltage| above(Field::Voltage, v.si(), 0.0, MOST_VOLTAGE);
        Ok(Self {
            peak: above(Field::Current, current.si(), 0.0, MOST_CURRENT)?,
            volts: [volts(negative)?, volts(positive)?],
        })
    }

    /// Highest current.
    #[must_use]
    pub const fn peak_current(&self) -> Current {
        Current::from_amperes(self.peak)
    }

    /// Mean of the current's magnitude, `2/π` of the peak.
    #[must_use]
    pub fn mean_current(&self) -> Current {
        Current::from_amperes(self.peak * FRAC_2_PI)
    }

    /// Root mean square of the current, `1/√2` of the peak.
    #[must_use]
    pub fn rms_current(&self) -> Current {
        Current::from_amperes(self.peak / SQRT_2)
    }

    /// Root mean square of the voltage.
    #[must_use]
    pub fn rms_voltage(&self) -> Voltage {
        let [a, b] = self.volts;
        Voltage::from_volts(libm::sqrt(0.5 * (a * a + b * b)))
    }

    /// True power in watts: mean current times mean voltage, since each half of a sine holds the same
    /// charge. With equal voltages it is `2√2/π` = 0.9003 of the product of the two root mean squares.
    #[must_use]
    pub fn power(&self) -> f64 {
        let [a, b] = self.volts;
        self.mean_current().si() * 0.5 * (a + b)
    }
}

/// A sum that keeps what each addition rounds off: Kahan's summation as Neumaier mends it. An hour of
/// samples at 10 kHz is 36 million terms.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Sum {
    total: f64,
    lost: f64,
}

impl Sum {
    fn add(&mut self, term: f64) {
        let total = self.total + term;
        self.lost += if libm::fabs(self.total) >= libm::fabs(term) {
            (self.total - total) + term
        } else {
            (term - total) + self.total
        };
        self.total = total;
    }

    const fn value(self) -> f64 {
        self.total + self.lost
    }
}

/// Adds up samples of voltage and current taken together, each with its sign.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Tally {
    energy: Sum,
    time: Sum,
    volts_squared: Sum,
    amperes_squared: Sum,
}

impl Tally {
    /// Nothing yet.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a sample that stands for `time`.
    ///
    /// # Errors
    /// [`Refused`] for a magnitude past 500 V or 2000 A, or a time that is not above 0 and at most 1 s;
    /// nothing is added then.
    pub fn add(&mut self, voltage: Voltage, current: Current, time: Time) -> Result<(), Refused> {
        let u = within(Field::Voltage, voltage.si(), -MOST_VOLTAGE, MOST_VOLTAGE)?;
        let i = within(Field::Current, current.si(), -MOST_CURRENT, MOST_CURRENT)?;
        let dt = above(Field::Sample, time.si(), 0.0, 1.0)?;
        self.energy.add(u * i * dt);
        self.time.add(dt);
        self.volts_squared.add(u * u * dt);
        self.amperes_squared.add(i * i * dt);
        Ok(())
    }

    /// Instantaneous energy so far.
    #[must_use]
    pub const fn energy(&self) -> Energy {
        Energy::from_joules(self.energy.value())
    }

    /// Time covered so far.
    #[must_use]
    pub const fn time(&self) -> Time {
        Time::from_seconds(self.time.value())
    }

    /// Mean of the instantaneous power in watts; `None` before the first sample.
    #[must_use]
    pub fn power(&self) -> Option<f64> {
        let time = self.time.value();
        (time > 0.0).then(|| self.energy.value() / time)
    }

    /// Root mean squares of voltage and current; `None` before the first sample.
    #[must_use]
    pub fn rms(&self) -> Option<(Voltage, Current)> {
        let time = self.time.value();
        (time > 0.0).then(|| {
            let rms = |sum: Sum| libm::sqrt(sum.value() / time);
            (
                Voltage::from_volts(rms(self.volts_squared)),
                Current::from_amperes(rms(self.amperes_squared)),
            )
        })
    }
}

/// Arc energy from the energy counted along a seam, `IE / L`: ISO/TR 18491:2015, method B; ASME IX
/// QW-409.1(c), first form (both from memory).
///
/// # Errors
/// [`Refused`] unless the energy is from 0 to 1 GJ and the length above 0 and at most 1 km.
pub fn from_energy(energy: Energy, length: Length) -> Result<LineEnergy, Refused> {
    let energy = within(Field::Energy, energy.si(), 0.0, 1e9)?;
    let length = above(Field::SeamLength, length.si(), 0.0, 1_000.0)?;
    Ok(LineEnergy::from_joules_per_metre(energy / length))
}

/// Arc energy from the mean power and the travel speed, `IP / v`: ISO/TR 18491:2015, method C (from
/// memory).
///
/// # Errors
/// [`Refused`] unless the power in watts is from 0 to 1 MW and the speed above 0 and at most 1 m/s.
pub fn from_power(watts: f64, travel: Speed) -> Result<LineEnergy, Refused> {
    let watts = within(Field::Power, watts, 0.0, 1e6)?;
    let travel = above(Field::Travel, travel.si(), 0.0, 1.0)?;
    Ok(LineEnergy::from_joules_per_metre(watts / travel))
}

/// Arc energy from the mean power, the arc time and the length welded in it, `IP · t / L`: ASME IX
/// QW-409.1(c), second form (from memory).
///
/// # Errors
/// [`Refused`] for the power, for a time outside 0 to 100 h, or for the length.
pub fn from_power_and_time(watts: f64, time: Time, length: Length) -> Result<LineEnergy, Refused> {
    let watts = within(Field::Power, watts, 0.0, 1e6)?;
    let time = within(Field::ArcTime, time.si(), 0.0, 360_000.0)?;
    let length = above(Field::SeamLength, length.si(), 0.0, 1_000.0)?;
    Ok(LineEnergy::from_joules_per_metre(watts * time / length))
}
