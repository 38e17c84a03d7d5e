//! What is typed in for a leak test, by two buttons: figures that go up and down by steps.

use seamwright_core::leak::{Instruments, LeakRate, Reading, Sought};
use seamwright_core::units::range::RangeError;
use seamwright_core::units::{Pressure, PressureUnit, Temperature, TemperatureUnit};

use crate::amount::{Amount, Units};
use crate::buttons::Step;

/// Leak rates that may be sought, in sccm.
const LEAKS: &[f64] = &[
    0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1_000.0,
];
/// Steps that gauges are read to, in kPa and in psi.
const GAUGES: [&[f64]; 2] = [
    &[0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0],
    &[0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1],
];
/// How near thermometers tell the air in a tank, in K and in °F.
const THERMOMETERS: &[f64] = &[0.1, 0.2, 0.5, 1.0, 2.0, 5.0];
/// Steps that barometers are read to, in hPa and in inHg.
const BAROMETERS: [&[f64]; 2] = [&[0.1, 0.2, 0.5, 1.0, 2.0, 5.0], &[0.01, 0.02, 0.05, 0.1]];
/// What stands there until something else is chosen: leak, gauge, thermometer, barometer (common practice, no
/// source; the leak rate is only where to begin, for no rule has one).
const USUAL: [[f64; 4]; 2] = [[10.0, 0.1, 0.5, 1.0], [10.0, 0.01, 1.0, 0.05]];

/// The most that can be typed as a gauge pressure, in pascals: no test here comes near it.
const MOST_GAUGE: f64 = 99_000.0;
/// Temperatures of the air in the tank that can be typed, in kelvins, and pressures of the air outside, in pascals: as
/// far as readings are judged.
const AIR: [f64; 2] = [223.15, 423.15];
const OUTSIDE: [f64; 2] = [50_000.0, 110_000.0];
/// Steps of a temperature, in °C or °F.
const DEGREE: f64 = 0.1;
/// A repeat goes by so many steps.
const COARSE: f64 = 10.0;
/// Kelvins of a degree Fahrenheit.
const FAHRENHEIT: f64 = 5.0 / 9.0;

/// The leak that is sought and what it is read with; zeros, and all that is below, until it is chosen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Asked {
    sccm: f64,
    gauge: f64,
    kelvins: f64,
    barometer: f64,
}

/// A field of what is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ask {
    /// The leak rate that counts as tight.
    Leak,
    /// What the gauge is read to.
    Gauge,
    /// How near the thermometer is.
    Thermometer,
    /// What the barometer is read to.
    Barometer,
}

impl Ask {
    /// In their order.
    pub const ALL: [Self; 4] = [Self::Leak, Self::Gauge, Self::Thermometer, Self::Barometer];
}

const fn system(units: Units) -> usize {
    match units {
        Units::Metric => 0,
        Units::Inch => 1,
    }
}

fn of<T: Copy + Default>(both: &[T; 2], units: Units) -> T {
    both.get(system(units)).copied().unwrap_or_default()
}

/// The unit of the gauge and of the barometer.
pub(crate) const fn pressures(units: Units) -> [PressureUnit; 2] {
    match units {
        Units::Metric => [PressureUnit::Kilopascal, PressureUnit::Millibar],
        Units::Inch => [PressureUnit::Psi, PressureUnit::InchOfMercury],
    }
}

const fn degrees(units: Units) -> TemperatureUnit {
    match units {
        Units::Metric => TemperatureUnit::Celsius,
        Units::Inch => TemperatureUnit::Fahrenheit,
    }
}

const fn kelvins_of_degree(units: Units) -> f64 {
    match units {
        Units::Metric => 1.0,
        Units::Inch => FAHRENHEIT,
    }
}

/// The next of a list above or below a value, or the value nearest it at an end.
fn along(list: &[f64], value: f64, up: bool) -> f64 {
    // A value that was chosen is one of the list but for its last bits.
    let next = if up {
        list.iter().find(|one| **one > value * (1.0 + 1e-6))
    } else {
        list.iter().rev().find(|one| **one < value * (1.0 - 1e-6))
    };
    next.copied().unwrap_or(value)
}

/// As few decimals as show a step.
fn places(step: f64) -> u8 {
    let whole = |places: &i32| {
        let steps = step * libm::pow(10.0, f64::from(*places));
        libm::fabs(steps - libm::round(steps)) < 1e-6
    };
    (0..3).find(whole).unwrap_or(3) as u8
}

impl Asked {
    pub(super) const NOTHING: Self = Self {
        sccm: 0.0,
        gauge: 0.0,
        kelvins: 0.0,
        barometer: 0.0,
    };

    /// With what is usual where nothing was chosen.
    pub(super) fn or_usual(self, units: Units) -> Self {
        let [sccm, gauge, degrees, barometer] = of(&USUAL, units);
        let [gauge_unit, barometer_unit] = pressures(units);
        let or = |own: f64, usual: f64| if own > 0.0 { own } else { usual };
        Self {
            sccm: or(self.sccm, sccm),
            gauge: or(self.gauge, Pressure::new(gauge, gauge_unit).si()),
            kelvins: or(self.kelvins, degrees * kelvins_of_degree(units)),
            barometer: or(
                self.barometer,
                Pressure::new(barometer, barometer_unit).si(),
            ),
        }
    }

    /// One step of one field.
    pub(super) fn change(&mut self, field: Ask, up: bool, units: Units) {
        *self = self.or_usual(units);
        let [gauge, barometer] = pressures(units);
        let pressure = |list: &[f64], value: f64, unit: PressureUnit| {
            let now = Pressure::from_pascals(value).in_unit(unit);
            Pressure::new(along(list, now, up), unit).si()
        };
        match field {
            Ask::Leak => self.sccm = along(LEAKS, self.sccm, up),
            Ask::Gauge => {
                self.gauge = pressure(of::<&[f64]>(&GAUGES, units), self.gauge, gauge);
            }
            Ask::Thermometer => {
                let degree = kelvins_of_degree(units);
                self.kelvins = along(THERMOMETERS, self.kelvins / degree, up) * degree;
            }
            Ask::Barometer => {
                let list = of::<&[f64]>(&BAROMETERS, units);
                self.barometer = pressure(list, self.barometer, barometer);
            }
        }
    }

    /// A field as it is shown.
    pub(crate) fn amount(&self, field: Ask, units: Units) -> Amount {
        let [gauge, barometer] = pressures(units);
        let pressure = |value: f64, unit: PressureUnit| {
            let value = Pressure::from_pascals(value).in_unit(unit);
            Amount::of(value, places(value), symbol(unit))
        };
        match field {
            Ask::Leak => Amount::of(self.sccm, places(self.sccm), "sccm"),
            Ask::Gauge => pressure(self.gauge, gauge),
            Ask::Thermometer => {
                let value = self.kelvins / kelvins_of_degree(units);
                let unit = match units {
                    Units::Metric => "K",
                    Units::Inch => "°F",
                };
                Amount::of(value, places(value), unit)
            }
            Ask::Barometer => pressure(self.barometer, barometer),
        }
    }

    /// The leak rate that counts as tight.
    pub(super) const fn allowed(&self) -> LeakRate {
        LeakRate::from_sccm(self.sccm)
    }

    /// How near the instruments read: what is read to a step is known to half of it.
    pub(super) fn instruments(&self) -> Result<Instruments, RangeError> {
        Instruments::of_steps(
            Pressure::from_pascals(self.gauge),
            self.kelvins,
            Pressure::from_pascals(self.barometer),
        )
    }

    /// The same as a plan asks for it, in air of room temperature.
    pub(super) fn sought(&self) -> Result<Sought, RangeError> {
        Ok(Sought {
            leak: self.allowed(),
            instruments: self.instruments()?,
            temperature: Temperature::new(20.0, TemperatureUnit::Celsius),
        })
    }
}

/// As `millibar` is called where the weather is told.
pub(crate) const fn symbol(unit: PressureUnit) -> &'static str {
    match unit {
        PressureUnit::Millibar => "hPa",
        other => other.symbol(),
    }
}

/// A reading as it is being typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Typed {
    /// By the gauge.
    pub gauge: Pressure,
    /// Of the air in the tank.
    pub temperature: Temperature,
    /// The air outside.
    pub barometer: Pressure,
}

/// A field of a reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Field {
    /// The gauge.
    Gauge,
    /// The thermometer.
    Air,
    /// The barometer.
    Barometer,
}

impl Typed {
    pub(super) const NOTHING: Self = Self {
        gauge: Pressure::from_pascals(0.0),
        temperature: Temperature::from_kelvins(0.0),
        barometer: Pressure::from_pascals(0.0),
    };

    /// What stands there before the first reading: the pressure that was asked for, a room and a day like most.
    pub(super) const fn at_first(gauge: Pressure) -> Self {
        Self {
            gauge,
            temperature: Temperature::new(20.0, TemperatureUnit::Celsius),
            barometer: Pressure::new(1_013.0, PressureUnit::Millibar),
        }
    }

    /// A reading, to go on from.
    pub(crate) const fn of(reading: &Reading) -> Self {
        Self {
            gauge: reading.gauge,
            temperature: reading.temperature,
            barometer: reading.barometer,
        }
    }

    /// One step of one field, no further than what can be read.
    pub(super) fn change(&mut self, field: Field, step: Step, asked: &Asked, units: Units) {
        let [gauge, barometer] = pressures(units);
        match field {
            Field::Gauge => {
                let by = Pressure::from_pascals(asked.gauge).in_unit(gauge);
                let value = stepped(self.gauge.in_unit(gauge), by, step);
                let value = Pressure::new(value, gauge).si();
                // Not to nothing: a tank without pressure shows no leak.
                self.gauge =
                    Pressure::from_pascals(libm::fmin(libm::fmax(value, asked.gauge), MOST_GAUGE));
            }
            Field::Air => {
                let unit = degrees(units);
                let value = stepped(self.temperature.in_unit(unit), DEGREE, step);
                let value = Temperature::new(value, unit).si();
                self.temperature = Temperature::from_kelvins(bounded(value, AIR));
            }
            Field::Barometer => {
                let by = Pressure::from_pascals(asked.barometer).in_unit(barometer);
                let value = stepped(self.barometer.in_unit(barometer), by, step);
                let value = Pressure::new(value, barometer).si();
                self.barometer = Pressure::from_pascals(bounded(value, OUTSIDE));
            }
        }
    }

    /// A field as it is shown.
    pub(crate) fn amount(&self, field: Field, asked: &Asked, units: Units) -> Amount {
        let [gauge, barometer] = pressures(units);
        let pressure = |value: Pressure, by: f64, unit: PressureUnit| {
            let by = Pressure::from_pascals(by).in_unit(unit);
            Amount::of(value.in_unit(unit), places(by), symbol(unit))
        };
        match field {
            Field::Gauge => pressure(self.gauge, asked.gauge, gauge),
            Field::Air => {
                let unit = degrees(units);
                Amount::of(self.temperature.in_unit(unit), 1, unit.symbol())
            }
            Field::Barometer => pressure(self.barometer, asked.barometer, barometer),
        }
    }
}

fn bounded(value: f64, [least, most]: [f64; 2]) -> f64 {
    libm::fmin(libm::fmax(value, least), most)
}

/// The value a step on, on the grid of the steps.
fn stepped(value: f64, by: f64, step: Step) -> f64 {
    let count = if step.coarse { COARSE } else { 1.0 };
    let signed = if step.up { count } else { -count };
    (libm::round(value / by) + signed) * by
}

#[cfg(test)]
mod tests {
    use super::*;

    const UP: Step = Step {
        up: true,
        coarse: false,
    };

    #[test]
    fn lists_go_by_ones_twos_and_fives_and_end() {
        let mut asked = Asked::NOTHING.or_usual(Units::Metric);
        for expected in ["20 sccm", "50 sccm", "100 sccm"] {
            asked.change(Ask::Leak, true, Units::Metric);
            assert_eq!(asked.amount(Ask::Leak, Units::Metric).text(), expected);
        }
        for _ in 0..40 {
            asked.change(Ask::Gauge, false, Units::Metric);
        }
        let gauge = asked.amount(Ask::Gauge, Units::Metric).text();
        assert_eq!(gauge, "0.001 kPa");
        // A half of the step is how near it reads.
        assert!(asked.instruments().is_ok());
    }

    #[test]
    fn a_reading_goes_by_the_steps_of_its_instrument() {
        let asked = Asked::NOTHING.or_usual(Units::Metric);
        let mut typed = Typed::at_first(Pressure::from_pascals(3_432.0));
        typed.change(Field::Gauge, UP, &asked, Units::Metric);
        let text = |typed: &Typed, field| typed.amount(field, &asked, Units::Metric).text();
        assert_eq!(text(&typed, Field::Gauge), "3.5 kPa");
        typed.change(Field::Air, UP, &asked, Units::Metric);
        assert_eq!(text(&typed, Field::Air), "20.1 °C");
        let coarse = Step {
            up: false,
            coarse: true,
        };
        typed.change(Field::Barometer, coarse, &asked, Units::Metric);
        assert_eq!(text(&typed, Field::Barometer), "1003 hPa");
        for _ in 0..1_000 {
            typed.change(Field::Gauge, coarse, &asked, Units::Metric);
        }
        assert_eq!(text(&typed, Field::Gauge), "0.1 kPa");
    }
}
