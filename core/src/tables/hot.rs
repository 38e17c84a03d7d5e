//! Heat capacity and conductivity of hot metal.

use super::Family;
use crate::units::range::{OutOfRange, Value, within};
use crate::units::{Temperature, TemperatureUnit};

/// Molar mass of aluminium, kg/mol (CIAAW, from memory).
const ALUMINIUM_MOLAR: f64 = 0.026_981_538;
/// What solid aluminium at its melting point takes up to melt, in J/kg: 10.71 kJ/mol, seen in two tables.
pub const ALUMINIUM_FUSION: f64 = 10_710.0 / ALUMINIUM_MOLAR;

/// Shomate coefficients of solid aluminium, 298 to 933 K: NIST-JANAF (from memory).
const SHOMATE: [f64; 5] = [28.089_20, -5.414_849, 8.560_423, 3.427_370, -0.277_375];

const fn celsius(value: f64) -> Temperature {
    Temperature::new(value, TemperatureUnit::Celsius)
}

/// Temperatures for which [`heat_capacity`] has a figure: of pure aluminium 25 to 660 °C, of the steels
/// 20 to 600 °C.
#[must_use]
pub const fn range(family: Family) -> [Temperature; 2] {
    match family {
        Family::Aluminium => [
            Temperature::from_kelvins(298.0),
            Temperature::from_kelvins(933.45),
        ],
        Family::Stainless | Family::Steel => [celsius(20.0), celsius(600.0)],
    }
}

/// Heat capacity at a temperature within [`range`], in J/(kg K).
///
/// Aluminium: pure, NIST-JANAF (from memory). Stainless steel: EN 1993-1-2, annex C.3; carbon steel:
/// EN 1993-1-2, 3.4.1.2 (both from memory).
///
/// # Errors
/// [`OutOfRange`] outside it.
pub fn heat_capacity(family: Family, at: Temperature) -> Result<f64, OutOfRange> {
    let [least, most] = range(family);
    let at = within(at, least, most, Value::Temperature)?;
    let c = at.in_unit(TemperatureUnit::Celsius);
    Ok(match family {
        Family::Aluminium => {
            let [a, b, c, d, e] = SHOMATE;
            let t = at.si() / 1_000.0;
            (a + t * (b + t * (c + t * d)) + e / (t * t)) / ALUMINIUM_MOLAR
        }
        Family::Stainless => 450.0 + c * (0.28 + c * (-2.91e-4 + c * 1.34e-7)),
        Family::Steel => 425.0 + c * (0.773 + c * (-1.69e-3 + c * 2.22e-6)),
    })
}

/// Heat that a kilogram of solid aluminium takes from one temperature to another, in J/kg; negative
/// downwards: NIST-JANAF, integrated (from memory).
///
/// # Errors
/// [`OutOfRange`] with the first that is outside [`range`].
pub fn aluminium_heat(from: Temperature, to: Temperature) -> Result<f64, OutOfRange> {
    let [least, most] = range(Family::Aluminium);
    let [a, b, c, d, e] = SHOMATE;
    let upto = |at: Temperature| {
        let at = within(at, least, most, Value::Temperature)?;
        let t = at.si() / 1_000.0;
        let kilojoules = t * (a + t * (b / 2.0 + t * (c / 3.0 + t * d / 4.0))) - e / t;
        Ok(kilojoules * 1_000.0 / ALUMINIUM_MOLAR)
    };
    Ok(upto(to)? - upto(from)?)
}

/// Conductivity of a steel at 20 to 600 °C, in W/(m K): EN 1993-1-2, 3.4.1.3 and annex C.3 (from memory).
/// `Ok(None)` for aluminium, whose alloys differ too much for one curve.
///
/// # Errors
/// [`OutOfRange`] outside those.
pub fn conductivity(family: Family, at: Temperature) -> Result<Option<f64>, OutOfRange> {
    let [least, most] = range(family);
    let c = within(at, least, most, Value::Temperature)?.in_unit(TemperatureUnit::Celsius);
    Ok(match family {
        Family::Aluminium => None,
        Family::Stainless => Some(14.6 + 0.0127 * c),
        Family::Steel => Some(54.0 - 0.0333 * c),
    })
}
