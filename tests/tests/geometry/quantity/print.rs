//! Printing against `core::fmt`, and printing then reading.

use proptest::prelude::*;
use seamwright_core::units;
use seamwright_core::units::print::MAX_PLACES;
use seamwright_core::units::{
    Decimal, FeetInches, InchFraction, InchStep, Length, LengthUnit, Quantity, Unit, WithUnit,
};

/// What the standard library prints, without the sign of a zero.
fn standard(value: f64, places: u8) -> String {
    let text = format!("{value:.0$}", usize::from(places));
    match text.strip_prefix('-') {
        Some(zero) if zero.chars().all(|c| matches!(c, '0' | '.')) => zero.to_owned(),
        _ => text,
    }
}

/// Every double below 2^64, and more often those that a shop meets.
fn doubles() -> impl Strategy<Value = f64> {
    let any_bits = any::<u64>()
        .prop_map(f64::from_bits)
        .prop_filter("in range", |value| value.abs() < 2_f64.powi(64));
    let any_exponent =
        (any::<u64>(), -75..64_i32, any::<bool>()).prop_map(|(bits, exponent, negative)| {
            // A mantissa of 53 bits, from 1 to less than 2.
            let mantissa = f64::from_bits((bits >> 12) | 1.0_f64.to_bits());
            mantissa * 2_f64.powi(exponent) * if negative { -1.0 } else { 1.0 }
        });
    // Whole numbers over a power of two: half way between two decimals.
    let halves =
        (any::<i32>(), 0..24_i32).prop_map(|(number, power)| f64::from(number) / 2_f64.powi(power));
    // Decimals as they are written.
    let decimals =
        (any::<i32>(), 0..9_i32).prop_map(|(number, power)| f64::from(number) / 10_f64.powi(power));
    prop_oneof![1 => any_bits, 3 => any_exponent, 2 => halves, 2 => decimals]
}

/// Prints and reads `value` of every unit of `Q`, and gives back how far it came out in steps of the
/// last digit, without what the double itself cannot tell.
fn round_trip<Q: Quantity>(value: f64, places: u8) -> Result<(), TestCaseError> {
    for unit in Q::Unit::ALL {
        let quantity = Q::of(value, *unit);
        let in_unit = quantity.in_unit(*unit);
        let text = format!("{} {}", Decimal::new(in_unit, places), unit.symbol());
        let (read, read_unit) = units::parse_with_unit::<Q>(&text)
            .map_err(|e| TestCaseError::fail(format!("{text}: {e}")))?;
        prop_assert_eq!(read_unit, *unit);
        let off = (read.in_unit(*unit) - in_unit).abs();
        // Into SI and out again rounds four times; a scale's zero is at most 460 of its degrees.
        let doubt = 4.0
            * f64::EPSILON
            * (in_unit.abs() + 460.0 * f64::from(u8::from(Q::ABOUT.what == "a temperature")));
        let half = 0.5 * 10_f64.powi(-i32::from(places));
        prop_assert!(
            off <= half * (1.0 + 1e-9) + doubt,
            "{} read as {:?}, {} off",
            text,
            read,
            off
        );
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200_000))]

    #[test]
    fn prints_as_the_standard_library_does(value in doubles(), places in 0..=MAX_PLACES) {
        let ours = Decimal::new(value, places);
        prop_assert_eq!(String::from(ours.text().as_str()), standard(value, places));
        prop_assert_eq!(ours.to_string(), standard(value, places));
    }

    #[test]
    fn figures_are_enough_and_no_more(digits in 1.0..10.0_f64, power in -8..18_i32, figures in 1..12_u8) {
        let value = digits * 10_f64.powi(power);
        let number = Decimal::with_figures(value, figures);
        let shown = |text: &str| {
            let digits = text.chars().filter(char::is_ascii_digit);
            digits.skip_while(|digit| *digit == '0').count()
        };
        prop_assert!(shown(&number.text()) >= usize::from(figures));
        if let Some(fewer) = number.places().checked_sub(1) {
            prop_assert!(shown(&Decimal::new(value, fewer).text()) < usize::from(figures));
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(10_000))]

    #[test]
    fn what_is_printed_reads_back(value in -1e6..1e6_f64, places in 0..9_u8) {
        use seamwright_core::units as q;
        round_trip::<Length>(value, places)?;
        round_trip::<q::Area>(value, places)?;
        round_trip::<q::Volume>(value, places)?;
        round_trip::<q::Pressure>(value, places)?;
        round_trip::<q::Temperature>(value, places)?;
        round_trip::<q::Current>(value, places)?;
        round_trip::<q::Voltage>(value, places)?;
        round_trip::<q::Speed>(value, places)?;
        round_trip::<q::Time>(value, places)?;
        round_trip::<q::Angle>(value, places)?;
        round_trip::<q::Ratio>(value, places)?;
        round_trip::<q::Mass>(value, places)?;
        round_trip::<q::LineEnergy>(value, places)?;
        round_trip::<q::Energy>(value, places)?;
        round_trip::<q::Force>(value, places)?;
        round_trip::<q::Power>(value, places)?;
        round_trip::<q::Density>(value, places)?;
        round_trip::<q::Torque>(value, places)?;
    }

    #[test]
    fn a_displayed_quantity_reads_back(metres in -100.0..100.0_f64, places in 0..6_u8) {
        for unit in LengthUnit::ALL {
            let shown: WithUnit = Length::from_metres(metres).display(*unit, places);
            prop_assert_eq!(shown.to_string(), String::from(shown.text().as_str()));
            let (_, read_unit) = Length::parse_with_unit(&shown.text()).expect("it reads");
            prop_assert_eq!(read_unit, *unit);
        }
    }

    #[test]
    fn inch_fractions_read_back(inches in -10_000.0..10_000.0_f64, step in 0..InchStep::ALL.len()) {
        let step = InchStep::ALL[step];
        let length = Length::new(inches, LengthUnit::Inch);
        let fraction = InchFraction::nearest(length, step).expect("in range");
        let half_step = 0.5 / f64::from(step.denominator());
        let off = (fraction.length().in_unit(LengthUnit::Inch) - inches).abs();
        prop_assert!(off <= half_step + 1e-11, "{} for {} in, {} off", fraction, inches, off);
        prop_assert_eq!(Length::parse(&fraction.text()), Ok(fraction.length()));
        let in_feet = FeetInches::from(fraction);
        prop_assert_eq!(Length::parse(&in_feet.text()), Ok(fraction.length()));
    }
}
