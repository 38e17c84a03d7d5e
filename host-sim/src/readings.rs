//! Readings of a leak test, instruments, leak rates and pours, as they are given on the command line.

use seamwright_core::capacity::Pour;
use seamwright_core::leak::{LeakRate, Reading};
use seamwright_core::units::{Quantity, Temperature, TemperatureUnit, parse};

use crate::failure::Failure;

/// Units of a leak rate, with what they are.
const RATES: [(&str, Kind); 7] = [
    ("sccm", Kind::Sccm),
    ("cm³/min", Kind::Sccm),
    ("Pa m³/s", Kind::Throughput(1.0)),
    ("Pa m3/s", Kind::Throughput(1.0)),
    ("Pa·m³/s", Kind::Throughput(1.0)),
    ("mbar L/s", Kind::Throughput(0.1)),
    ("mbar·L/s", Kind::Throughput(0.1)),
];

#[derive(Clone, Copy, Debug)]
enum Kind {
    /// Standard cubic centimetres a minute.
    Sccm,
    /// So many Pa·m³/s.
    Throughput(f64),
}

/// A leak rate as it was written; a throughput is one of gas at a temperature yet to be told.
#[derive(Clone, Copy, Debug)]
pub struct Rate {
    value: f64,
    kind: Kind,
}

impl Rate {
    /// Reads `"2 sccm"` or `"0.003 Pa m³/s"`.
    ///
    /// # Errors
    /// What is no leak rate above zero.
    pub fn parse(name: &str, text: &str) -> Result<Self, Failure> {
        let found = RATES.iter().find_map(|(unit, kind)| {
            let number = text.trim().strip_suffix(unit)?.trim();
            Some((number.parse::<f64>().ok()?, *kind))
        });
        match found {
            Some((value, kind)) if value > 0.0 && value.is_finite() => Ok(Self { value, kind }),
            _ => Err(Failure::input(
                format!("{name} \"{text}\" is no leak rate"),
                "write a number above zero and its unit, as \"2 sccm\", \"0.003 Pa m³/s\" or \"0.03 mbar L/s\"",
            )),
        }
    }

    /// In moles, of air at a temperature.
    #[must_use]
    pub fn of_air(self, at: Temperature) -> LeakRate {
        match self.kind {
            Kind::Sccm => LeakRate::from_sccm(self.value),
            Kind::Throughput(unit) => LeakRate::from_throughput(self.value * unit, at),
        }
    }
}

/// A quantity that is part of an option; `told` names it in a message.
fn part<Q: Quantity>(told: &str, text: &str) -> Result<Q, Failure> {
    let text = text.trim();
    parse(text).map_err(|error| {
        Failure::input(
            format!("{told} \"{text}\" is not {}: {error}", Q::ABOUT.what),
            format!(
                "write a number and its unit; the units of {} are {}",
                Q::ABOUT.what,
                Q::ABOUT.symbols.join(", ")
            ),
        )
    })
}

/// One pour: `"2 L at 31 mm"`, the volume all that was poured in so far.
///
/// # Errors
/// What is not a volume at a depth.
pub fn pour(text: &str) -> Result<Pour, Failure> {
    let Some((volume, depth)) = text.split_once(" at ") else {
        return Err(Failure::input(
            format!("--pour \"{text}\" is no pour"),
            "write all that was poured in so far and what the rod reads then, as \"2 L at 31 mm\"",
        ));
    };
    let told = format!("--pour \"{text}\":");
    Ok(Pour {
        measured: part(&told, volume)?,
        depth: part(&told, depth)?,
    })
}

/// One reading: `"0 min, 20.0 kPa, 21.3 °C, 1013 hPa"`.
///
/// # Errors
/// What of the four is missing or wrong.
pub fn reading(text: &str) -> Result<Reading, Failure> {
    let parts: Vec<&str> = text.split(',').collect();
    let &[time, gauge, temperature, barometer] = parts.as_slice() else {
        return Err(Failure::input(
            format!("--reading \"{text}\" has {} parts, not four", parts.len()),
            "write time, gauge, air in the tank and barometer, as \"0 min, 20.0 kPa, 21.3 °C, 1013 hPa\"",
        ));
    };
    let told = |what: &str| format!("--reading \"{text}\": the {what}");
    Ok(Reading {
        time: part(&told("time"), time)?,
        gauge: part(&told("gauge pressure"), gauge)?,
        temperature: part(&told("temperature"), temperature)?,
        barometer: part(&told("barometer"), barometer)?,
    })
}

/// A difference of temperatures in kelvins: `"0.5 K"`, `"0.5 °C"` or `"1 °F"`.
///
/// # Errors
/// What is no temperature.
pub fn kelvins(name: &str, text: &str) -> Result<f64, Failure> {
    let (value, unit) = Temperature::parse_with_unit(text).map_err(|error| {
        Failure::input(
            format!("{name} \"{text}\" is no difference of temperatures: {error}"),
            "write a number and its unit, as \"0.5 K\"",
        )
    })?;
    let share = match unit {
        TemperatureUnit::Fahrenheit => 5.0 / 9.0,
        TemperatureUnit::Celsius | TemperatureUnit::Kelvin => 1.0,
    };
    Ok(value.in_unit(unit) * share)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn readings_and_rates() {
        let one = reading("2 min, 2.9 psi,70 °F, 29.92 inHg").unwrap();
        assert!((one.time.si() - 120.0).abs() < 1e-9);
        // 2.9 psi and 29.92 inHg by NIST SP 811: 19995 Pa and 101321 Pa.
        assert!((one.gauge.si() - 19_995.0).abs() < 1.0);
        assert!((one.barometer.si() - 101_321.0).abs() < 1.0);
        assert!((kelvins("--thermometer-near", "0.9 °F").unwrap() - 0.5).abs() < 1e-12);
        assert!((kelvins("--thermometer-near", "0.5 °C").unwrap() - 0.5).abs() < 1e-12);
        let at = Temperature::new(0.0, TemperatureUnit::Celsius);
        // 1 atm·cm³ a minute at 0 °C is 101325 Pa × 1e-6 m³ / 60 s.
        let sccm = Rate::parse("--allow", "1 sccm").unwrap().of_air(at);
        let written = Rate::parse("--allow", "0.00168875 Pa m³/s")
            .unwrap()
            .of_air(at);
        assert!((sccm.moles() / written.moles() - 1.0).abs() < 1e-9);
        let mbar = Rate::parse("--allow", "0.0168875 mbar L/s")
            .unwrap()
            .of_air(at);
        assert!((mbar.moles() / written.moles() - 1.0).abs() < 1e-12);
        for wrong in ["", "2", "0 sccm", "-1 sccm", "NaN sccm", "inf sccm", "2 L"] {
            assert!(Rate::parse("--allow", wrong).is_err(), "{wrong}");
        }
    }
}
