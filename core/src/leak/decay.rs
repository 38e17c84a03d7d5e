//! How long a gauge needs before it shows a leak.

use super::{GAS, LeakError, LeakRate, What};
use crate::units::range::{Limit, OutOfRange, Value, within};
use crate::units::{Pressure, Temperature, TemperatureUnit, Time, Volume};

/// How many times the nearness of the reading the pressure should fall before it is called a leak: the
/// ten to one of measuring practice (common practice, no source).
pub const MEASURE: f64 = 10.0;

/// Between these the pressure outside can be anywhere that tanks are made: 5 km up, and the deepest high.
const OUTSIDE: [Pressure; 2] = [
    Pressure::from_pascals(50_000.0),
    Pressure::from_pascals(110_000.0),
];
/// The air in the tank: −50 °C to 150 °C.
const AIR: [Temperature; 2] = [
    Temperature::new(-50.0, TemperatureUnit::Celsius),
    Temperature::new(150.0, TemperatureUnit::Celsius),
];
/// The most that an instrument may be off by: a mark of 100 kPa says nothing of a tank.
const VAGUE: Pressure = Pressure::from_pascals(100_000.0);
const VAGUE_KELVINS: f64 = 10.0;
/// No thin-walled tank sees a higher gauge pressure.
pub(super) const HIGHEST: Pressure = Pressure::from_pascals(1e6);
const NONE: Pressure = Pressure::from_pascals(0.0);

pub(super) fn volume(value: Volume) -> Result<(), LeakError> {
    volume_in(value).map_err(range(What::Volume))
}

pub(super) fn volume_in(value: Volume) -> Result<(), OutOfRange> {
    const NONE: Volume = Volume::from_cubic_metres(0.0);
    const MOST: Volume = Volume::from_cubic_metres(1_000.0);
    above(value, NONE, MOST, Value::Volume)
}

pub(super) fn barometer(value: Pressure) -> Result<(), LeakError> {
    within_outside(value).map_err(range(What::Barometer))
}

pub(super) fn within_outside(value: Pressure) -> Result<(), OutOfRange> {
    let [least, most] = OUTSIDE;
    within(value, least, most, Value::Pressure).map(|_| ())
}

pub(super) fn within_air(value: Temperature) -> Result<(), OutOfRange> {
    let [least, most] = AIR;
    within(value, least, most, Value::Temperature).map(|_| ())
}

/// Lets a value above `none` and up to `most` through.
pub(super) fn above<T: Copy + PartialOrd>(
    value: T,
    none: T,
    most: T,
    show: fn(T) -> Value,
) -> Result<(), OutOfRange> {
    if value > none {
        return within(value, none, most, show).map(|_| ());
    }
    Err(OutOfRange {
        value: show(value),
        limit: Limit::Above(show(none)),
    })
}

pub(super) fn range(what: What) -> impl Fn(OutOfRange) -> LeakError {
    move |error| LeakError::Range { what, error }
}

/// How near the instruments read: each within plus or minus this of the truth.
///
/// For a dial or a display that is in order, half of its smallest division or half of its last digit; for
/// the thermometer also how well it follows the air in the tank, which is mostly the larger part. An error
/// that stays the same through the test cancels and does not count.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Instruments {
    gauge: Pressure,
    kelvins: f64,
    barometer: Pressure,
}

impl Instruments {
    /// The gauge, the thermometer in kelvins, the barometer.
    ///
    /// # Errors
    /// [`LeakError`] unless the gauge reads to something above zero, the barometer to zero or more, both to
    /// at most 100 kPa, and the thermometer to 0 to 10 K.
    pub fn new(gauge: Pressure, kelvins: f64, barometer: Pressure) -> Result<Self, LeakError> {
        above(gauge, NONE, VAGUE, Value::Pressure).map_err(range(What::GaugeNearness))?;
        within(barometer, NONE, VAGUE, Value::Pressure).map_err(range(What::BarometerNearness))?;
        if !(0.0..=VAGUE_KELVINS).contains(&kelvins) {
            return Err(LeakError::Thermometer(kelvins));
        }
        Ok(Self {
            gauge,
            kelvins,
            barometer,
        })
    }

    /// How near an absolute pressure `p` Pa at `t` K, made good for temperature and barometer, is known,
    /// in pascals: the root of the squares of the gauge, of p ΔT / T, and of the barometer.
    pub(super) fn nearness(&self, p: f64, t: f64) -> f64 {
        let warm = p * self.kelvins / t;
        let (g, b) = (self.gauge.si(), self.barometer.si());
        libm::sqrt(g * g + warm * warm + b * b)
    }
}

/// A tank of air whose pressure is watched.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Decay {
    volume: Volume,
    /// Absolute.
    pressure: Pressure,
    temperature: Temperature,
}

impl Decay {
    /// A volume of air at a gauge pressure and a temperature, with the barometer as it stands.
    ///
    /// # Errors
    /// [`LeakError::Range`] unless the volume is above zero and at most 1000 m³, the barometer from 50 to 110 kPa, the gauge
    /// above zero and at most 1000 kPa, the air from −50 to 150 °C.
    pub fn new(
        of: Volume,
        gauge: Pressure,
        outside: Pressure,
        temperature: Temperature,
    ) -> Result<Self, LeakError> {
        volume(of)?;
        barometer(outside)?;
        above(gauge, NONE, HIGHEST, Value::Pressure).map_err(range(What::Gauge))?;
        within_air(temperature).map_err(range(What::Temperature))?;
        Ok(Self {
            volume: of,
            pressure: Pressure::from_pascals(gauge.si() + outside.si()),
            temperature,
        })
    }

    /// What a change of so many kelvins does to the pressure of a tank that does not leak: dp = p dT / T.
    #[must_use]
    pub const fn warming(&self, kelvins: f64) -> Pressure {
        Pressure::from_pascals(self.pressure.si() * kelvins / self.temperature.si())
    }

    /// How near its pressure is known, temperature and barometer made good.
    #[must_use]
    pub fn nearness(&self, instruments: &Instruments) -> Pressure {
        Pressure::from_pascals(instruments.nearness(self.pressure.si(), self.temperature.si()))
    }

    /// How long a leak takes to move the pressure by `measure` times the nearness of the reading:
    /// t = V m Δp / Q. With a measure of [`MEASURE`] the leak is then known to about a sixth of itself.
    ///
    /// # Errors
    /// [`LeakError::Leak`] or [`LeakError::Measure`].
    pub fn time_to_see(
        &self,
        leak: LeakRate,
        instruments: &Instruments,
        measure: f64,
    ) -> Result<Time, LeakError> {
        if !(leak.moles() > 0.0 && leak.moles().is_finite()) {
            return Err(LeakError::Leak(leak));
        }
        let gas = self.gas(instruments, measure)?;
        Ok(Time::from_seconds(gas / leak.moles()))
    }

    /// The least leak that a test of this length shows, by the same law.
    ///
    /// # Errors
    /// [`LeakError::Range`] unless the time is above zero and at most a million seconds, or [`LeakError::Measure`].
    pub fn least_leak(
        &self,
        time: Time,
        instruments: &Instruments,
        measure: f64,
    ) -> Result<LeakRate, LeakError> {
        let (none, most) = (Time::from_seconds(0.0), Time::from_seconds(1e6));
        above(time, none, most, Value::Time).map_err(range(What::Time))?;
        let gas = self.gas(instruments, measure)?;
        Ok(LeakRate::from_moles(gas / time.si()))
    }

    /// The moles that must be lost before the reading shows it.
    fn gas(&self, instruments: &Instruments, measure: f64) -> Result<f64, LeakError> {
        if !(1.0..=100.0).contains(&measure) {
            return Err(LeakError::Measure(measure));
        }
        let fall = measure * self.nearness(instruments).si();
        Ok(self.volume.si() * fall / (GAS * self.temperature.si()))
    }
}
