//! A value past its limit.
//!
//! [`OutOfRange`] is a quantity and the limit that it passed, for whoever names it himself: the wire's
//! [`JobError`](crate::tank::JobError), a reading of a leak test, a mark of a dipstick. [`RangeError`] is a
//! [`Figure`] of a calculation that is past its limit; it says the name, the unit and a way out as well.

use core::fmt;

use super::figure::Figure;
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
pub enum Limit<T = Value> {
    /// This or more.
    AtLeast(T),
    /// This or less.
    AtMost(T),
    /// More than this.
    Above(T),
    /// Less than this.
    Below(T),
}

impl<T> Limit<T> {
    /// The limit with its value made into another by `with`.
    fn map<U>(self, with: impl FnOnce(T) -> U) -> Limit<U> {
        match self {
            Self::AtLeast(v) => Limit::AtLeast(with(v)),
            Self::AtMost(v) => Limit::AtMost(with(v)),
            Self::Above(v) => Limit::Above(with(v)),
            Self::Below(v) => Limit::Below(with(v)),
        }
    }
}

impl<T: fmt::Display> fmt::Display for Limit<T> {
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

/// A figure of a calculation past its limit.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct RangeError {
    /// Which figure.
    pub figure: Figure,
    /// What was given, in the SI unit of the figure.
    pub value: f64,
    /// What is allowed, in the same unit.
    pub limit: Limit<f64>,
}

impl fmt::Display for RangeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let figure = self.figure;
        let (space, unit) = (figure.space(), figure.unit());
        write!(
            f,
            "{} is {}{space}{unit}: it must be {}{space}{unit}; {}",
            figure.name(),
            figure.shown(self.value),
            self.limit.map(|limit| figure.shown(limit)),
            figure.way_out()
        )
    }
}

impl core::error::Error for RangeError {}

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

/// What is checked before a figure goes into a calculation.
impl Figure {
    /// Lets a value through where its lower limit `holds` and it is at most `most`; what is not a number lies
    /// nowhere.
    fn kept(
        self,
        value: f64,
        (holds, low): (bool, Limit<f64>),
        most: f64,
    ) -> Result<f64, RangeError> {
        if holds && value <= most {
            return Ok(value);
        }
        Err(RangeError {
            figure: self,
            value,
            limit: if value > most {
                Limit::AtMost(most)
            } else {
                low
            },
        })
    }

    /// Lets a value in the SI unit through between `least` and `most`, both allowed.
    pub(crate) fn within(self, value: f64, least: f64, most: f64) -> Result<f64, RangeError> {
        self.kept(value, (value >= least, Limit::AtLeast(least)), most)
    }

    /// Lets a value in the SI unit through above `floor` and up to `most`.
    pub(crate) fn above(self, value: f64, floor: f64, most: f64) -> Result<f64, RangeError> {
        self.kept(value, (value > floor, Limit::Above(floor)), most)
    }
}

#[cfg(test)]
mod tests {
    extern crate std;
    use std::string::ToString;

    use super::*;

    #[test]
    fn a_figure_past_its_limit_names_value_limit_unit_and_way_out() {
        let past = Figure::Travel.within(0.0, 1e-4, 0.1).unwrap_err();
        assert_eq!(
            past.to_string(),
            "the travel speed is 0.000 mm/min: it must be at least 6.000 mm/min; check the speed and its unit"
        );
        let cold = Figure::AirTemperature.within(20.0, 223.15, 423.15);
        assert_eq!(
            cold.unwrap_err().to_string(),
            "the air temperature is -253.1 °C: it must be at least -50.00 °C; check the temperature and its unit"
        );
        let wide = Figure::Angle.above(4.0, 0.0, core::f64::consts::PI);
        assert_eq!(
            wide.unwrap_err().to_string(),
            "the angle is 229.2°: it must be at most 180.0°; check the angle between the sheets"
        );
        assert!(Figure::Gap.within(f64::NAN, 0.0, 1.0).is_err());
        assert!(Figure::Power.above(f64::INFINITY, 0.0, 1e6).is_err());
        assert_eq!(
            Figure::Rise.above(0.0, 0.0, 1e6).unwrap_err().limit,
            Limit::Above(0.0)
        );
        assert_eq!(Figure::Gap.within(1.0, 0.0, 1.0), Ok(1.0));
    }

    #[test]
    fn every_figure_has_a_name_and_a_way_out() {
        for figure in Figure::ALL {
            assert!(!figure.name().is_empty() && !figure.way_out().is_empty());
        }
    }
}
