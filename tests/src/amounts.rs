//! Quantities from and to the units in which figures are printed.

// A helper that cannot go on stops its test at once.
#![allow(clippy::unwrap_used)]

use seamwright_core::capacity::Lean;
use seamwright_core::units::{
    Angle, AngleUnit, Current, Length, LengthUnit, Pressure, PressureUnit, Ratio, Temperature,
    TemperatureUnit, Time, Voltage, Volume, VolumeUnit,
};

/// A length in millimetres.
#[must_use]
pub fn mm(value: f64) -> Length {
    Length::new(value, LengthUnit::Millimetre)
}

/// A length in inches.
#[must_use]
pub fn inch(value: f64) -> Length {
    Length::new(value, LengthUnit::Inch)
}

/// An angle in degrees.
#[must_use]
pub fn degrees(value: f64) -> Angle {
    Angle::new(value, AngleUnit::Degree)
}

/// A tank's lean, pitch and roll in degrees.
///
/// # Panics
/// Past what a tank may lean.
#[must_use]
pub fn lean(pitch: f64, roll: f64) -> Lean {
    Lean::new(degrees(pitch), degrees(roll)).unwrap()
}

/// A volume in litres.
#[must_use]
pub fn litres(value: f64) -> Volume {
    Volume::new(value, VolumeUnit::Litre)
}

/// A temperature in degrees Celsius.
#[must_use]
pub fn celsius(value: f64) -> Temperature {
    Temperature::new(value, TemperatureUnit::Celsius)
}

/// A pressure in megapascals, which are newtons on a square millimetre.
#[must_use]
pub fn mpa(value: f64) -> Pressure {
    Pressure::new(value, PressureUnit::Megapascal)
}

/// A time in seconds.
#[must_use]
pub fn seconds(value: f64) -> Time {
    Time::from_seconds(value)
}

/// A current in amperes.
#[must_use]
pub fn amps(value: f64) -> Current {
    Current::from_amperes(value)
}

/// A voltage in volts.
#[must_use]
pub fn volts(value: f64) -> Voltage {
    Voltage::from_volts(value)
}

/// A ratio as a share of one.
#[must_use]
pub fn share(value: f64) -> Ratio {
    Ratio::from_share(value)
}

/// Millimetres in a length.
#[must_use]
pub fn in_mm(length: Length) -> f64 {
    length.in_unit(LengthUnit::Millimetre)
}

/// Inches in a length.
#[must_use]
pub fn in_inch(length: Length) -> f64 {
    length.in_unit(LengthUnit::Inch)
}

/// Litres in a volume.
#[must_use]
pub fn in_litres(volume: Volume) -> f64 {
    volume.in_unit(VolumeUnit::Litre)
}

/// Degrees Celsius of a temperature.
#[must_use]
pub fn in_celsius(temperature: Temperature) -> f64 {
    temperature.in_unit(TemperatureUnit::Celsius)
}

/// Megapascals of a pressure.
#[must_use]
pub fn in_mpa(pressure: Pressure) -> f64 {
    pressure.in_unit(PressureUnit::Megapascal)
}
