//! A value that a message can show, and the limit that it passed.

use core::fmt;

use super::{
    Angle, AngleUnit, Area, AreaUnit, Current, CurrentUnit, Energy, EnergyUnit, Length, LengthUnit,
    Pressure, PressureUnit, Ratio, RatioUnit, Speed, SpeedUnit, Temperature, TemperatureUnit, Time,
    TimeUnit, Voltage, VoltageUnit, Volume, VolumeUnit,
};

/// A value of any kind that an error shows.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Value {
    /// A length, shown in millimetres.
    Length(Length),
    /// A volume, shown in litres.
    Volume(Volume),
    /// An angle, shown in degrees.
    Angle(Angle),
    /// A share, shown per cent.
    Ratio(Ratio),
    /// A current.
    Current(Current),
    /// A voltage.
    Voltage(Voltage),
    /// A speed, shown in millimetres per minute.
    Speed(Speed),
    /// A number of things.
    Count(u32),
    /// A temperature, shown in degrees Celsius.
    Temperature(Temperature),
    /// A pressure, shown in kilopascals.
    Pressure(Pressure),
    /// A time, shown in seconds.
    Time(Time),
    /// An energy, shown in joules.
    Energy(Energy),
    /// An area, shown in square centimetres.
    Area(Area),
}

impl fmt::Display for Value {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Length(v) => v.display(LengthUnit::Millimetre, 2).fmt(f),
            Self::Volume(v) => v.display(VolumeUnit::Litre, 3).fmt(f),
            Self::Angle(v) => v.display(AngleUnit::Degree, 2).fmt(f),
            Self::Ratio(v) => v.display(RatioUnit::Percent, 1).fmt(f),
            Self::Current(v) => v.display(CurrentUnit::Ampere, 1).fmt(f),
            Self::Voltage(v) => v.display(VoltageUnit::Volt, 1).fmt(f),
            Self::Speed(v) => v.display(SpeedUnit::MillimetrePerMinute, 1).fmt(f),
            Self::Count(v) => v.fmt(f),
            Self::Temperature(v) => v.display(TemperatureUnit::Celsius, 1).fmt(f),
            Self::Pressure(v) => v.display(PressureUnit::Kilopascal, 3).fmt(f),
            Self::Time(v) => v.display(TimeUnit::Second, 1).fmt(f),
            Self::Energy(v) => v.display(EnergyUnit::Joule, 1).fmt(f),
            Self::Area(v) => v.display(AreaUnit::SquareCentimetre, 1).fmt(f),
        }
    }
}

/// The limit that a value must keep.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Limit {
    /// This or more.
    AtLeast(Value),
    /// This or less.
    AtMost(Value),
    /// More than this.
    Above(Value),
    /// Less than this.
    Below(Value),
}

impl fmt::Display for Limit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::AtLeast(v) => write!(f, "at least {v}"),
            Self::AtMost(v) => write!(f, "at most {v}"),
            Self::Above(v) => write!(f, "above {v}"),
            Self::Below(v) => write!(f, "below {v}"),
        }
    }
}

/// A value past its limit.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct OutOfRange {
    /// What was asked for.
    pub value: Value,
    /// What is allowed.
    pub limit: Limit,
}

impl fmt::Display for OutOfRange {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "{} is out of range: it must be {}",
            self.value, self.limit
        )
    }
}

impl core::error::Error for OutOfRange {}

/// Lets `value` through where it lies between `least` and `most`, both allowed; a value that is not a
/// number lies nowhere.
pub(crate) fn within<T: Copy + PartialOrd>(
    value: T,
    least: T,
    most: T,
    show: fn(T) -> Value,
) -> Result<T, OutOfRange> {
    if value >= least && value <= most {
        Ok(value)
    } else if value > most {
        Err(OutOfRange {
            value: show(value),
            limit: Limit::AtMost(show(most)),
        })
    } else {
        Err(OutOfRange {
            value: show(value),
            limit: Limit::AtLeast(show(least)),
        })
    }
}
