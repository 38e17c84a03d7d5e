//! Whatever is typed, reading it ends well: a quantity, or an error that points into the text.

use proptest::prelude::*;
use seamwright_core::units;
use seamwright_core::units::{Length, LengthUnit, Quantity, Temperature, Volume};

fn ends_well<Q: Quantity>(text: &str) -> Result<(), TestCaseError> {
    match units::parse::<Q>(text) {
        Ok(quantity) => prop_assert!(quantity.si().is_finite()),
        Err(error) => {
            let span = error.span;
            prop_assert!(span.start <= span.end, "{:?} {:?}", text, error);
            prop_assert!(
                text.get(span.start..span.end).is_some(),
                "{:?} {:?}",
                text,
                error
            );
            prop_assert!(!error.to_string().is_empty());
        }
    }
    Ok(())
}

/// Pieces of what people write, in any order.
fn pieces() -> impl Strategy<Value = String> {
    let piece = prop_oneof![
        Just("12"),
        Just("5/8"),
        Just("0"),
        Just("."),
        Just(","),
        Just("-"),
        Just("−"),
        Just("+"),
        Just("/"),
        Just("⁄"),
        Just("½"),
        Just(" "),
        Just("\u{a0}"),
        Just("'"),
        Just("\""),
        Just("in"),
        Just("ft"),
        Just("mm"),
        Just("m"),
        Just("gal"),
        Just("US gal"),
        Just("°C"),
        Just("A"),
        Just("²"),
        Just("e"),
        Just("e9999"),
        Just("inches"),
        Just("99999999999999999999"),
        Just("é"),
        Just("x"),
    ];
    prop::collection::vec(piece, 0..9).prop_map(|pieces| pieces.concat())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(50_000))]

    #[test]
    fn any_text_ends_well(text in "\\PC{0,40}") {
        ends_well::<Length>(&text)?;
        ends_well::<Volume>(&text)?;
        ends_well::<Temperature>(&text)?;
    }

    #[test]
    fn any_pieces_end_well(text in pieces()) {
        ends_well::<Length>(&text)?;
        ends_well::<Volume>(&text)?;
        ends_well::<Temperature>(&text)?;
    }

    /// Mixed numbers and compounds mean what their parts say.
    #[test]
    fn feet_inches_and_fractions_add_up(
        feet in 0..1000_u32,
        inches in 0..12_u32,
        numerator in 1..64_u32,
        dash: bool,
        negative: bool,
    ) {
        let wanted = f64::from(feet * 12 + inches) + f64::from(numerator) / 64.0;
        let wanted = Length::new(if negative { -wanted } else { wanted }, LengthUnit::Inch);
        let sign = if negative { "-" } else { "" };
        let joint = if dash { "-" } else { " " };
        for text in [
            format!("{sign}{feet} ft {inches}{joint}{numerator}/64 in"),
            format!("{sign}{feet}'{joint}{inches} {numerator}/64\""),
            format!("{sign}{}{joint}{numerator}/64 inches", feet * 12 + inches),
        ] {
            prop_assert_eq!(Length::parse_with_unit(&text), Ok((wanted, LengthUnit::Inch)), "{}", text);
        }
    }

    /// Decimals are the nearest double of the number that is written.
    #[test]
    fn decimals_are_exact(number in any::<i32>(), places in 0..10_usize) {
        let text = format!("{:.places$} m", f64::from(number) / 10_f64.powi(i32::try_from(places).expect("small")));
        let wanted: f64 = text.trim_end_matches(" m").parse().expect("a number");
        prop_assert_eq!(Length::parse(&text), Ok(Length::from_metres(wanted)));
    }
}
