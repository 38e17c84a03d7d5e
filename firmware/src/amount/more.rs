//! The quantities of the pages that not every gauge has.

use seamwright_core::units::flow::Flow;
use seamwright_core::units::{
    Current, CurrentUnit, Decimal, Energy, EnergyUnit, Length, LengthUnit, Mass, MassUnit,
    Pressure, PressureUnit,
};

use super::{Amount, Text, Units, at_most};

/// Newtons of a pound-force: NIST SP 811, appendix B (from memory).
const POUND_FORCE: f64 = 4.448_221_615_260_5;
/// Litres of a cubic foot, exactly: the cube of 3.048 dm.
const CUBIC_FOOT: f64 = 28.316_846_592;

/// From here on a figure is shown as more than this.
const AMPLE: f64 = 100.0;

impl Amount {
    /// A number with a fixed count of decimals.
    #[must_use]
    pub fn of(value: f64, places: u8, unit: &'static str) -> Self {
        Self::decimal(Decimal::new(value, places), unit)
    }

    /// A current in whole amperes.
    #[must_use]
    pub fn current(current: Current) -> Self {
        Self::of(current.in_unit(CurrentUnit::Ampere), 0, "A")
    }

    /// A pressure over the air outside: kPa or psi to three figures, but no finer than the gauges of such tests read.
    #[must_use]
    pub fn pressure(pressure: Pressure, units: Units) -> Self {
        let (unit, symbol, places) = match units {
            Units::Metric => (PressureUnit::Kilopascal, "kPa", 2),
            Units::Inch => (PressureUnit::Psi, "psi", 3),
        };
        let value = pressure.in_unit(unit);
        Self::decimal(
            at_most(places, Decimal::with_figures(value, 3), value),
            symbol,
        )
    }

    /// A stress in N/mm² or thousands of psi, to three figures, no finer than a hundredth.
    #[must_use]
    pub fn stress(stress: Pressure, units: Units) -> Self {
        let (unit, symbol, by) = match units {
            Units::Metric => (PressureUnit::Megapascal, "MPa", 1.0),
            Units::Inch => (PressureUnit::Psi, "ksi", 1e-3),
        };
        let value = by * stress.in_unit(unit);
        Self::decimal(at_most(2, Decimal::with_figures(value, 3), value), symbol)
    }

    /// The mass of a whole tank to three figures: kilograms or pounds, from 10 000 on tonnes or thousands of pounds.
    #[must_use]
    pub fn weight(mass: Mass, units: Units) -> Self {
        let (unit, symbol) = match units {
            Units::Metric => (MassUnit::Kilogram, "t"),
            Units::Inch => (MassUnit::Pound, "klb"),
        };
        let value = mass.in_unit(unit);
        if value < super::TEN_THOUSAND {
            return Self::mass(mass, units);
        }
        Self::decimal(Decimal::with_figures(value / 1_000.0, 3), symbol)
    }

    /// A force in newtons: N or lbf to three figures, no finer than a tenth; from 10 000 on thousands of them, then
    /// millions.
    #[must_use]
    pub fn force(newtons: f64, units: Units) -> Self {
        let (value, [small, large, huge]) = match units {
            Units::Metric => (newtons, ["N", "kN", "MN"]),
            Units::Inch => (newtons / POUND_FORCE, ["lbf", "klbf", "Mlbf"]),
        };
        let (value, symbol) = if value < super::TEN_THOUSAND {
            (value, small)
        } else if value < 1_000.0 * super::TEN_THOUSAND {
            (value / 1_000.0, large)
        } else {
            (value / 1e6, huge)
        };
        Self::decimal(at_most(1, Decimal::with_figures(value, 3), value), symbol)
    }

    /// An energy to three figures, no finer than a tenth of a joule; from 1000 J on kilojoules.
    #[must_use]
    pub fn energy(energy: Energy) -> Self {
        let value = energy.in_unit(EnergyUnit::Joule);
        let (value, symbol) = if value < 999.5 {
            (value, "J")
        } else {
            (value / 1_000.0, "kJ")
        };
        Self::decimal(at_most(1, Decimal::with_figures(value, 3), value), symbol)
    }

    /// A flow of gas: whole L/min, or whole ft³/h.
    #[must_use]
    pub fn flow(flow: Flow, units: Units) -> Self {
        let litres = flow.litres_per_minute();
        match units {
            Units::Metric => Self::of(litres, 0, "L\nmin"),
            Units::Inch => Self::of(litres * 60.0 / CUBIC_FOOT, 0, "ft³\n/h"),
        }
    }

    /// A sheet that is to be bought, rounded up so that it is never too thin: to a tenth of a millimetre, or a
    /// thousandth of an inch.
    #[must_use]
    pub fn thickness_up(thickness: Length, units: Units) -> Self {
        let (unit, places, steps) = match units {
            Units::Metric => (LengthUnit::Millimetre, 1, 10.0),
            Units::Inch => (LengthUnit::Inch, 3, 1_000.0),
        };
        // A hair, so that 3 mm is not 3.1.
        let up = libm::ceil(thickness.in_unit(unit) * steps - 1e-9) / steps;
        Self::of(up, places, unit.symbol())
    }

    /// How many times over something holds: to a hundredth below ten, and past a hundred just that.
    #[must_use]
    pub fn reserve(times: f64) -> Self {
        if times < 9.995 {
            // Rounded down: 1.499 is not yet the 1.5 that is wanted.
            Self::of(libm::floor(times * 100.0 + 1e-9) / 100.0, 2, "×")
        } else if times < AMPLE {
            Self::of(libm::floor(times * 10.0 + 1e-9) / 10.0, 1, "×")
        } else {
            Self::of(AMPLE, 0, "×\nor more")
        }
    }

    /// Two amounts of one kind as one: `1.6-2.4 mm`; one of them where they read alike.
    #[must_use]
    pub fn span(least: &Self, most: &Self) -> Self {
        let mut number = least.number.clone();
        if least != most {
            // Two of the longest that are shown so have 20 signs.
            let _ = number.push('-');
            let _ = number.push_str(&most.number);
        }
        Self {
            number,
            fraction: None,
            unit: most.unit,
        }
    }

    /// The number alone.
    #[must_use]
    pub const fn number(&self) -> &Text {
        &self.number
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sheet_to_buy_is_never_too_thin() {
        let up = |mm| {
            Amount::thickness_up(Length::new(mm, LengthUnit::Millimetre), Units::Metric).text()
        };
        assert_eq!(up(3.0), "3.0 mm");
        assert_eq!(up(3.01), "3.1 mm");
    }

    #[test]
    fn a_reserve_is_never_shown_larger_than_it_is() {
        let text = |times| Amount::reserve(times).text();
        assert_eq!(text(1.499_9), "1.49 ×");
        assert_eq!(text(1.5), "1.50 ×");
        assert_eq!(text(12.37), "12.3 ×");
        assert_eq!(text(1e6), "100 × or more");
    }

    #[test]
    fn pressures_and_forces_read_as_instruments_do() {
        let kpa = |pa| Amount::pressure(Pressure::from_pascals(pa), Units::Metric).text();
        assert_eq!(kpa(3_432.0), "3.43 kPa");
        assert_eq!(kpa(35_000.0), "35.0 kPa");
        // 6894.757 Pa are a pound-force on a square inch (NIST SP 811, appendix B, from memory).
        let psi = Amount::pressure(Pressure::from_pascals(6_894.757), Units::Inch);
        assert_eq!(psi.text(), "1.00 psi");
        assert_eq!(Amount::force(412.34, Units::Metric).text(), "412 N");
        assert_eq!(Amount::force(4.448_221_6, Units::Inch).text(), "1.0 lbf");
    }

    #[test]
    fn a_span_of_one_is_one() {
        let mm = |value| Amount::of(value, 1, "mm");
        assert_eq!(Amount::span(&mm(1.6), &mm(2.4)).text(), "1.6-2.4 mm");
        assert_eq!(Amount::span(&mm(1.6), &mm(1.6)).text(), "1.6 mm");
    }
}
