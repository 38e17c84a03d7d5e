//! Printing: decimals, fractions of an inch, gauges.

extern crate std;

use std::format;
use std::string::ToString;

use super::gauge::SheetGauge;
use super::{
    Angle, AngleUnit, Decimal, FeetInches, InchFraction, InchStep, Length, LengthUnit, Temperature,
    TemperatureUnit,
};

const TWO_TO_64: f64 = 4_294_967_296.0 * 4_294_967_296.0;

#[test]
fn decimals_print() {
    let table: &[(f64, u8, &str)] = &[
        (0.0, 0, "0"),
        (0.0, 2, "0.00"),
        (-0.0, 1, "0.0"),
        (-0.04, 1, "0.0"),
        (-0.06, 1, "-0.1"),
        (320.0, 1, "320.0"),
        (12.345, 1, "12.3"),
        // Exact halves go to the even digit.
        (0.5, 0, "0"),
        (1.5, 0, "2"),
        (2.5, 0, "2"),
        (0.125, 2, "0.12"),
        (0.375, 2, "0.38"),
        // The double is below its decimal half.
        (1.005, 2, "1.00"),
        (9.995, 1, "10.0"),
        (999.96, 1, "1000.0"),
        (-999.96, 1, "-1000.0"),
        (0.1, 20, "0.10000000000000000555"),
        (0.1, 255, "0.10000000000000000555"),
        (5e-324, 20, "0.00000000000000000000"),
        (6e-21, 20, "0.00000000000000000001"),
        (4_503_599_627_370_495.5, 0, "4503599627370496"),
        (9_007_199_254_740_992.0, 1, "9007199254740992.0"),
        (TWO_TO_64.next_down(), 1, "18446744073709549568.0"),
        (TWO_TO_64, 1, ">1.8e19"),
        (-1e300, 1, "<-1.8e19"),
        (f64::INFINITY, 1, ">1.8e19"),
        (f64::NEG_INFINITY, 1, "<-1.8e19"),
        (f64::NAN, 1, "no value"),
    ];
    for (value, places, wanted) in table {
        let number = Decimal::new(*value, *places);
        assert_eq!(number.text(), *wanted, "{value:?} to {places}");
        assert_eq!(number.to_string(), *wanted, "{value:?} to {places}");
    }
}

#[test]
fn significant_figures_keep_the_whole_part() {
    let table: &[(f64, u8, &str)] = &[
        (1234.5, 3, "1234"),
        (12.345, 3, "12.3"),
        (0.012_345, 3, "0.0123"),
        (9.996, 3, "10.0"),
        (0.099_96, 3, "0.100"),
        (-2.0, 3, "-2.00"),
        (0.0, 3, "0.00"),
        (0.0, 0, "0"),
        (7.0, 1, "7"),
        (7.25, 0, "7"),
        (1e-30, 3, "0.00000000000000000000"),
        (f64::NAN, 3, "no value"),
    ];
    for (value, figures, wanted) in table {
        assert_eq!(
            Decimal::with_figures(*value, *figures).text(),
            *wanted,
            "{value} to {figures}"
        );
    }
}

#[test]
fn format_strings_are_obeyed() {
    let number = Decimal::new(-3.25, 1);
    assert_eq!(
        format!("[{number:>8}] [{number:<8}] [{number:08}]"),
        "[    -3.2] [-3.2    ] [-00003.2]"
    );
    assert_eq!(format!("{:+}", Decimal::new(3.25, 1)), "+3.2");
    let length = Length::from_metres(0.32).display(LengthUnit::Millimetre, 1);
    assert_eq!(
        format!("[{length:>10}] [{length:^10}]"),
        "[  320.0 mm] [ 320.0 mm ]"
    );
    assert_eq!(
        format!("[{:>10}]", Decimal::new(f64::NAN, 0)),
        "[  no value]"
    );
}

#[test]
fn units_print() {
    let length = Length::from_metres(0.32);
    assert_eq!(length.display(LengthUnit::Millimetre, 1).text(), "320.0 mm");
    assert_eq!(length.number(LengthUnit::Millimetre, 1).text(), "320.0");
    assert_eq!(
        Angle::new(45.0, AngleUnit::Degree)
            .display(AngleUnit::Degree, 0)
            .text(),
        "45°"
    );
    let boiling = Temperature::new(212.0, TemperatureUnit::Fahrenheit);
    assert_eq!(
        boiling.display(TemperatureUnit::Celsius, 2).text(),
        "100.00 °C"
    );
    assert_eq!(
        Temperature::new(0.0, TemperatureUnit::Celsius)
            .number(TemperatureUnit::Kelvin, 2)
            .text(),
        "273.15"
    );
}

/// Inches, the step, and the fraction and the feet that they print as.
#[test]
fn inch_fractions_print() {
    let table: &[(f64, InchStep, &str, &str)] = &[
        (12.625, InchStep::Sixteenth, "12 5/8 in", "1 ft 0 5/8 in"),
        (0.625, InchStep::Eighth, "5/8 in", "5/8 in"),
        (0.0, InchStep::Half, "0 in", "0 in"),
        (-0.01, InchStep::Sixteenth, "0 in", "0 in"),
        (-12.625, InchStep::Eighth, "-12 5/8 in", "-1 ft 0 5/8 in"),
        (38.625, InchStep::Eighth, "38 5/8 in", "3 ft 2 5/8 in"),
        (36.0, InchStep::Eighth, "36 in", "3 ft 0 in"),
        (35.999, InchStep::SixtyFourth, "36 in", "3 ft 0 in"),
        (0.3, InchStep::SixtyFourth, "19/64 in", "19/64 in"),
        (0.3, InchStep::ThirtySecond, "5/16 in", "5/16 in"),
        // Half way goes to the even sixteenth: 1/32 to 0, 3/32 to 2/16, 5/32 to 2/16.
        (1.0 / 32.0, InchStep::Sixteenth, "0 in", "0 in"),
        (3.0 / 32.0, InchStep::Sixteenth, "1/8 in", "1/8 in"),
        (5.0 / 32.0, InchStep::Sixteenth, "1/8 in", "1/8 in"),
        (7.0 / 32.0, InchStep::Sixteenth, "1/4 in", "1/4 in"),
        (-3.0 / 32.0, InchStep::Sixteenth, "-1/8 in", "-1/8 in"),
        (-1.0 / 32.0, InchStep::Sixteenth, "0 in", "0 in"),
    ];
    for (inches, step, wanted, in_feet) in table {
        let length = Length::new(*inches, LengthUnit::Inch);
        let fraction = InchFraction::nearest(length, *step).expect(wanted);
        assert_eq!(fraction.text(), *wanted, "{inches} in to {step:?}");
        assert_eq!(fraction.to_string(), *wanted);
        assert_eq!(
            FeetInches::nearest(length, *step)
                .expect(wanted)
                .to_string(),
            *in_feet
        );
    }
}

/// Every half step up to 40 in, whatever the metres made of it.
#[test]
fn every_tie_goes_to_the_even_step() {
    for step in InchStep::ALL {
        let denominator = u32::from(step.denominator());
        for below in 0..40 * denominator {
            let inches = (f64::from(below) + 0.5) / f64::from(denominator);
            for inches in [inches, -inches] {
                let fraction =
                    InchFraction::nearest(Length::new(inches, LengthUnit::Inch), step).unwrap();
                let numerator = fraction.whole * denominator
                    + u32::from(fraction.numerator) * denominator / u32::from(fraction.denominator);
                assert_eq!(numerator, below + below % 2, "{inches} in to {step:?}");
            }
        }
    }
}

#[test]
fn fractions_are_reduced_and_give_the_length_back() {
    for step in InchStep::ALL {
        for steps in 0_u8..200 {
            let length = Length::new(
                f64::from(steps) / f64::from(step.denominator()),
                LengthUnit::Inch,
            );
            let fraction = InchFraction::nearest(length, step).unwrap();
            assert_eq!(fraction.length(), length);
            assert!(
                fraction.numerator % 2 == 1
                    || (fraction.numerator == 0 && fraction.denominator == 1)
            );
            assert!(fraction.numerator < fraction.denominator);
        }
    }
}

#[test]
fn no_fraction_of_what_is_no_length() {
    for metres in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1.1e8, -1.1e8] {
        assert_eq!(
            InchFraction::nearest(Length::from_metres(metres), InchStep::Half),
            None
        );
        assert_eq!(
            FeetInches::nearest(Length::from_metres(metres), InchStep::Half),
            None
        );
    }
    assert!(InchFraction::nearest(Length::from_metres(1.09e8), InchStep::SixtyFourth).is_some());
}

#[test]
fn gauges_end_where_they_say() {
    for gauge in [
        SheetGauge::BrownSharpe,
        SheetGauge::ManufacturersStandard,
        SheetGauge::UsStandard,
    ] {
        for number in 0..=u8::MAX {
            assert_eq!(
                gauge.thickness(number).is_some(),
                gauge.numbers().contains(&number)
            );
        }
        let thicknesses = gauge
            .numbers()
            .map(|number| gauge.thickness(number).unwrap().si());
        assert!(
            thicknesses.is_sorted_by(|thick, thin| thick > thin),
            "{gauge:?}"
        );
    }
}
