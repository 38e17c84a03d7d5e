//! Quantities as the gauge shows them, in millimetres and litres or in inches and US gallons.

mod more;

use core::fmt::Write;

use seamwright_core::units::{
    Angle, AngleUnit, Decimal, InchFraction, InchStep, Length, LengthUnit, LineEnergy,
    LineEnergyUnit, Mass, MassUnit, Speed, SpeedUnit, Temperature, TemperatureUnit, Time, Volume,
    VolumeUnit,
};
use seamwright_core::weld::StepCause;

use crate::figures::Figure;

/// Which units the gauge shows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Units {
    /// Millimetres, litres, J/mm.
    #[default]
    Metric,
    /// Inches to the nearest 1/16, US gallons, kJ/in.
    Inch,
}

impl Units {
    /// The other choice.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Metric => Self::Inch,
            Self::Inch => Self::Metric,
        }
    }

    /// What is chosen, in words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Metric => "metric",
            Self::Inch => "inch",
        }
    }

    /// The units themselves.
    #[must_use]
    pub const fn symbols(self) -> &'static str {
        match self {
            Self::Metric => "mm, L, J/mm",
            Self::Inch => "1/16 in, gal, kJ/in",
        }
    }
}

/// An amount as short text.
pub type Text = heapless::String<40>;

/// A quantity as it is shown: a number, perhaps a fraction, and a unit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Amount {
    number: Text,
    fraction: Option<(u32, u32)>,
    unit: &'static str,
}

/// From here on, whole millimetres and litres take too many digits to be shown large.
const TEN_THOUSAND: f64 = 10_000.0;

impl Amount {
    /// A decimal number.
    fn decimal(number: Decimal, unit: &'static str) -> Self {
        let mut text = Text::new();
        // The longest number is shorter than the text's room, here and below.
        let _ = text.push_str(&number.text());
        Self {
            number: text,
            fraction: None,
            unit,
        }
    }

    /// A length: whole millimetres, from 10 m on metres; or inches to the nearest 1/16.
    #[must_use]
    pub fn length(length: Length, units: Units) -> Self {
        let mm = length.in_unit(LengthUnit::Millimetre);
        match units {
            Units::Metric if mm < TEN_THOUSAND => Self::decimal(Decimal::new(mm, 0), "mm"),
            Units::Metric => Self::decimal(Decimal::new(length.si(), 2), "m"),
            Units::Inch => match InchFraction::nearest(length, InchStep::Sixteenth) {
                Some(inches) => Self::inches(inches),
                None => Self::decimal(Decimal::new(length.in_unit(LengthUnit::Inch), 0), "in"),
            },
        }
    }

    fn inches(inches: InchFraction) -> Self {
        let mut number = Text::new();
        if inches.negative {
            let _ = number.push('-');
        }
        if inches.whole > 0 || inches.numerator == 0 {
            let _ = write!(number, "{}", inches.whole);
        }
        let parts = (u32::from(inches.numerator), u32::from(inches.denominator));
        Self {
            number,
            fraction: (parts.0 > 0).then_some(parts),
            unit: "in",
        }
    }

    /// A length in whole millimetres however long, or in inches: for a column whose heading has the unit.
    #[must_use]
    pub fn column_length(length: Length, units: Units) -> Self {
        match units {
            Units::Metric => {
                Self::decimal(Decimal::new(length.in_unit(LengthUnit::Millimetre), 0), "")
            }
            Units::Inch => Self {
                unit: "",
                ..Self::length(length, units)
            },
        }
    }

    /// A sheet's thickness: millimetres to a hundredth, without needless noughts; or inches to a
    /// thousandth, as sheet is sold.
    #[must_use]
    pub fn thickness(thickness: Length, units: Units) -> Self {
        let (unit, places) = match units {
            Units::Metric => (LengthUnit::Millimetre, 2),
            Units::Inch => (LengthUnit::Inch, 3),
        };
        let digits = Decimal::new(thickness.in_unit(unit), places).text();
        let digits = match units {
            Units::Metric => digits.trim_end_matches('0').trim_end_matches('.'),
            Units::Inch => digits.as_str(),
        };
        let mut number = Text::new();
        let _ = number.push_str(digits);
        Self {
            number,
            fraction: None,
            unit: unit.symbol(),
        }
    }

    /// A number of pieces of one length: `4×79 mm`.
    #[must_use]
    pub fn times(count: u16, length: Length, units: Units) -> Self {
        let each = Self::length(length, units);
        let mut number = Text::new();
        let _ = write!(number, "{count}×{}", each.number);
        Self { number, ..each }
    }

    /// A mass to three figures: kilograms or pounds.
    #[must_use]
    pub fn mass(mass: Mass, units: Units) -> Self {
        let (unit, symbol) = match units {
            Units::Metric => (MassUnit::Kilogram, "kg"),
            Units::Inch => (MassUnit::Pound, "lb"),
        };
        let value = mass.in_unit(unit);
        Self::decimal(at_most(3, Decimal::with_figures(value, 3), value), symbol)
    }

    /// A volume to three figures, but no finer than the thousandth: litres, from 10 000 L on cubic
    /// metres; or US gallons, from 10 000 gal on thousands of them.
    #[must_use]
    pub fn volume(volume: Volume, units: Units) -> Self {
        let (unit, symbol, big) = match units {
            Units::Metric => (VolumeUnit::Litre, "L", "m³"),
            Units::Inch => (VolumeUnit::UsGallon, "US\ngal", "US\nkgal"),
        };
        let value = volume.in_unit(unit);
        let (value, symbol) = if value < TEN_THOUSAND {
            (value, symbol)
        } else {
            (value / 1_000.0, big)
        };
        Self::decimal(at_most(3, Decimal::with_figures(value, 3), value), symbol)
    }

    /// An energy for each length of seam, to three figures: J/mm or kJ/in, and a thousand times more or
    /// less where that is easier to read.
    #[must_use]
    pub fn line_energy(energy: LineEnergy, units: Units) -> Self {
        let (unit, [small, usual, large]) = match units {
            Units::Metric => (LineEnergyUnit::JoulePerMillimetre, ["J/m", "J/mm", "kJ/mm"]),
            Units::Inch => (LineEnergyUnit::KilojoulePerInch, ["J/in", "kJ/in", "MJ/in"]),
        };
        let value = energy.in_unit(unit);
        let (value, symbol) = match value {
            // What would round to four figures goes up a step.
            999.5.. => (value / 1_000.0, large),
            0.999_5.. => (value, usual),
            _ => (value * 1_000.0, small),
        };
        Self::decimal(at_most(2, Decimal::with_figures(value, 3), value), symbol)
    }

    /// A travel speed: whole mm/min, or in/min to a tenth.
    #[must_use]
    pub fn speed(speed: Speed, units: Units) -> Self {
        let (unit, places) = match units {
            Units::Metric => (SpeedUnit::MillimetrePerMinute, 0),
            Units::Inch => (SpeedUnit::InchPerMinute, 1),
        };
        Self::decimal(Decimal::new(speed.in_unit(unit), places), unit.symbol())
    }

    /// An angle to a tenth of a degree, whole where it is whole.
    #[must_use]
    pub fn angle(angle: Angle) -> Self {
        let tenths = Decimal::new(angle.in_unit(AngleUnit::Degree), 1).text();
        let mut number = Text::new();
        let _ = number.push_str(tenths.strip_suffix(".0").unwrap_or(&tenths));
        Self {
            number,
            fraction: None,
            unit: "°",
        }
    }

    /// A time: seconds, from 100 s on minutes to a tenth, from 100 min on hours to a tenth.
    #[must_use]
    pub fn time(time: Time) -> Self {
        Self::time_in(time, ["s", "min", "h"])
    }

    /// The same as a wait, with what it is for as its unit's second line.
    #[must_use]
    pub fn wait(time: Time, cause: Option<StepCause>) -> Self {
        let units = match cause {
            None => ["s\nwait", "min\nwait", "h\nwait"],
            Some(StepCause::Metal) => ["s\ncool", "min\ncool", "h\ncool"],
            Some(StepCause::PowerSource | StepCause::Torch) => ["s\nrest", "min\nrest", "h\nrest"],
        };
        Self::time_in(time, units)
    }

    fn time_in(time: Time, [seconds, minutes, hours]: [&'static str; 3]) -> Self {
        let value = time.si();
        if value < 99.5 {
            Self::decimal(Decimal::new(value, 0), seconds)
        } else if value < 99.95 * 60.0 {
            Self::decimal(Decimal::new(value / 60.0, 1), minutes)
        } else {
            Self::decimal(Decimal::new(value / 3_600.0, 1), hours)
        }
    }

    /// A temperature in whole degrees.
    #[must_use]
    pub fn temperature(temperature: Temperature, units: Units) -> Self {
        let unit = match units {
            Units::Metric => TemperatureUnit::Celsius,
            Units::Inch => TemperatureUnit::Fahrenheit,
        };
        Self::decimal(Decimal::new(temperature.in_unit(unit), 0), unit.symbol())
    }

    /// As a large figure.
    #[must_use]
    pub fn figure(&self) -> Figure<'_> {
        Figure {
            number: &self.number,
            fraction: self.fraction,
            unit: self.unit,
        }
    }

    /// As small text on one line: `12 5/8 in`, `317 mm`, `90°`.
    #[must_use]
    pub fn text(&self) -> Text {
        let mut text = self.number.clone();
        if let Some((numerator, denominator)) = self.fraction {
            let between = if text.chars().any(|sign| sign.is_ascii_digit()) {
                " "
            } else {
                ""
            };
            let _ = write!(text, "{between}{numerator}/{denominator}");
        }
        if !matches!(self.unit, "°" | "") {
            let _ = text.push(' ');
        }
        for sign in self.unit.chars() {
            let _ = text.push(if sign == '\n' { ' ' } else { sign });
        }
        text
    }
}

/// No more decimals than `places`.
fn at_most(places: u8, number: Decimal, value: f64) -> Decimal {
    if number.places() > places {
        Decimal::new(value, places)
    } else {
        number
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn length(mm: f64, units: Units) -> Text {
        Amount::length(Length::new(mm, LengthUnit::Millimetre), units).text()
    }

    #[test]
    fn lengths_read_as_a_rule_does() {
        assert_eq!(length(316.6, Units::Metric), "317 mm");
        assert_eq!(length(12_345.0, Units::Metric), "12.35 m");
        assert_eq!(length(320.675, Units::Inch), "12 5/8 in");
        assert_eq!(length(7.9375, Units::Inch), "5/16 in");
        assert_eq!(length(25.4, Units::Inch), "1 in");
        assert_eq!(length(0.0, Units::Inch), "0 in");
        assert_eq!(length(-7.9375, Units::Inch), "-5/16 in");
    }

    #[test]
    fn a_wait_says_what_it_is_for() {
        for (cause, unit) in [
            (None, "s\nwait"),
            (Some(StepCause::Metal), "s\ncool"),
            (Some(StepCause::PowerSource), "s\nrest"),
            (Some(StepCause::Torch), "s\nrest"),
        ] {
            let wait = Amount::wait(Time::from_seconds(34.0), cause);
            assert_eq!(wait.figure().unit, unit);
        }
    }

    #[test]
    fn volumes_have_three_figures() {
        let litres =
            |value, units| Amount::volume(Volume::new(value, VolumeUnit::Litre), units).text();
        assert_eq!(litres(6.214, Units::Metric), "6.21 L");
        assert_eq!(litres(62.14, Units::Metric), "62.1 L");
        assert_eq!(litres(1234.5, Units::Metric), "1234 L");
        assert_eq!(litres(0.012_345, Units::Metric), "0.012 L");
        assert_eq!(litres(0.0, Units::Metric), "0.00 L");
        assert_eq!(litres(12_345.0, Units::Metric), "12.3 m³");
        // 231 cubic inches of 16.387064 mL make a US gallon (NIST Handbook 44, appendix C, from memory).
        assert_eq!(litres(231.0 * 0.016_387_064, Units::Inch), "1.00 US gal");
    }

    #[test]
    fn angles_drop_a_needless_decimal() {
        let angle = |value| Amount::angle(Angle::new(value, AngleUnit::Degree)).text();
        assert_eq!(angle(90.0), "90°");
        assert_eq!(angle(135.04), "135°");
        assert_eq!(angle(-2.5), "-2.5°");
    }
}
