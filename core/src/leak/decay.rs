//! How long a gauge needs before it shows a leak.

use super::LeakRate;
use crate::strength::Compliance;
use crate::units::constant::GAS;
use crate::units::range::{Limit, OutOfRange, RangeError, Value, within};
use crate::units::{Figure, Pressure, PressureUnit, Temperature, TemperatureUnit, Time, Volume};

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
const VAGUE: f64 = 100_000.0;
const VAGUE_KELVINS: f64 = 10.0;
/// No thin-walled tank sees a higher gauge pressure.
pub(super) const HIGHEST: Pressure = Pressure::from_pascals(1e6);
/// The most that a tank holds, in cubic metres.
const LARGEST: f64 = 1_000.0;

/// Lets a volume above zero and up to 1000 m³ through.
pub(super) fn volume(value: Volume) -> Result<f64, RangeError> {
    Figure::Volume.above(value.si(), 0.0, LARGEST)
}

/// Checks the volume alone, for an error that names it itself.
pub(super) fn volume_in(value: Volume) -> Result<(), OutOfRange> {
    const NONE: Volume = Volume::from_cubic_metres(0.0);
    if value > NONE {
        return within(
            value,
            NONE,
            Volume::from_cubic_metres(LARGEST),
            Value::Volume,
        )
        .map(|_| ());
    }
    Err(OutOfRange {
        value: Value::Volume(value),
        limit: Limit::Above(Value::Volume(NONE)),
    })
}

/// Lets a pressure of the air outside through, 50 to 110 kPa.
pub(super) fn barometer(value: Pressure) -> Result<f64, RangeError> {
    let [least, most] = OUTSIDE;
    Figure::Barometer.within(value.si(), least.si(), most.si())
}

/// Checks the barometer alone, for an error that names it itself.
pub(super) fn within_outside(value: Pressure) -> Result<(), OutOfRange> {
    let [least, most] = OUTSIDE;
    within(value, least, most, Value::Pressure).map(|_| ())
}

/// Lets a temperature of the air in the tank through, −50 to 150 °C.
fn air(value: Temperature) -> Result<f64, RangeError> {
    let [least, most] = AIR;
    Figure::AirTemperature.within(value.si(), least.si(), most.si())
}

/// Checks the temperature alone, for an error that names it itself.
pub(super) fn within_air(value: Temperature) -> Result<(), OutOfRange> {
    let [least, most] = AIR;
    within(value, least, most, Value::Temperature).map(|_| ())
}

/// How near the thermometer tells the air in the tank where nobody says, in K: how well it follows is most of it; common
/// practice, no source.
pub const USUAL_THERMOMETER: f64 = 0.5;
/// What a barometer is read to where nobody says; common practice, no source.
pub const USUAL_BAROMETER_STEP: Pressure = Pressure::new(1.0, PressureUnit::Millibar);

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
    /// [`RangeError`] unless the gauge reads to something above zero, the barometer to zero or more, both to
    /// at most 100 kPa, and the thermometer to 0 to 10 K.
    pub fn new(gauge: Pressure, kelvins: f64, barometer: Pressure) -> Result<Self, RangeError> {
        Figure::GaugeNearness.above(gauge.si(), 0.0, VAGUE)?;
        Figure::BarometerNearness.within(barometer.si(), 0.0, VAGUE)?;
        Figure::ThermometerNearness.within(kelvins, 0.0, VAGUE_KELVINS)?;
        Ok(Self {
            gauge,
            kelvins,
            barometer,
        })
    }

    /// A gauge and a barometer that are read to their steps, each known to half of one, and the thermometer in kelvins.
    ///
    /// # Errors
    /// As [`new`](Self::new).
    pub fn of_steps(
        gauge: Pressure,
        kelvins: f64,
        barometer: Pressure,
    ) -> Result<Self, RangeError> {
        let half = |step: Pressure| Pressure::from_pascals(0.5 * step.si());
        Self::new(half(gauge), kelvins, half(barometer))
    }

    /// How near the gauge reads.
    #[must_use]
    pub const fn gauge(&self) -> Pressure {
        self.gauge
    }

    /// How near the thermometer tells the air in the tank, in kelvins.
    #[must_use]
    pub const fn kelvins(&self) -> f64 {
        self.kelvins
    }

    /// How near the barometer reads.
    #[must_use]
    pub const fn barometer(&self) -> Pressure {
        self.barometer
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
    compliance: Compliance,
}

impl Decay {
    /// A volume of air at a gauge pressure and a temperature, with the barometer as it stands.
    ///
    /// # Errors
    /// [`RangeError`] unless the volume is above zero and at most 1000 m³, the barometer from 50 to 110 kPa, the gauge
    /// above zero and at most 1000 kPa, the air from −50 to 150 °C.
    pub fn new(
        of: Volume,
        gauge: Pressure,
        outside: Pressure,
        temperature: Temperature,
    ) -> Result<Self, RangeError> {
        volume(of)?;
        barometer(outside)?;
        Figure::GaugePressure.above(gauge.si(), 0.0, HIGHEST.si())?;
        air(temperature)?;
        Ok(Self {
            volume: of,
            pressure: Pressure::from_pascals(gauge.si() + outside.si()),
            temperature,
            compliance: Compliance::RIGID,
        })
    }

    /// The same with walls that give way: they keep the pressure up, so that a leak takes longer to show.
    #[must_use]
    pub const fn giving(self, compliance: Compliance) -> Self {
        Self { compliance, ..self }
    }

    /// How near its pressure is known, temperature and barometer made good.
    #[must_use]
    pub fn nearness(&self, instruments: &Instruments) -> Pressure {
        Pressure::from_pascals(instruments.nearness(self.pressure.si(), self.temperature.si()))
    }

    /// How long a leak takes to move the pressure by `measure` times the nearness of the reading:
    /// t = (V + p C) m Δp / Q, C the most of the compliance. With a measure of [`MEASURE`] the leak is then known to a fifth of itself by two readings,
    /// to a third by many.
    ///
    /// # Errors
    /// [`RangeError`] for a leak that is not above zero, or a measure outside 1 to 100.
    pub fn time_to_see(
        &self,
        leak: LeakRate,
        instruments: &Instruments,
        measure: f64,
    ) -> Result<Time, RangeError> {
        leak.checked()?;
        let gas = self.gas(instruments, measure)?;
        Ok(Time::from_seconds(gas / leak.moles()))
    }

    /// The moles that must be lost before the reading shows it.
    fn gas(&self, instruments: &Instruments, measure: f64) -> Result<f64, RangeError> {
        Figure::Measure.within(measure, 1.0, 100.0)?;
        let fall = measure * self.nearness(instruments).si();
        let volume = self.volume.si() + self.pressure.si() * self.compliance.most();
        Ok(volume * fall / (GAS * self.temperature.si()))
    }
}
