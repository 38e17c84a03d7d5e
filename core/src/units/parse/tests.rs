//! What reads, what does not, and what is said about it.

extern crate std;

use std::string::ToString;

use super::super::{
    Angle, Area, Current, Length, LengthUnit, LineEnergy, Pressure, Quantity, Ratio, Speed,
    Temperature, Time, Unit, Volume,
};
use super::{ParseCause, ParseError};

fn error<Q: Quantity>(text: &str) -> ParseError {
    super::parse::<Q>(text).expect_err(text)
}

#[test]
fn lengths_read() {
    use LengthUnit::{Centimetre, Foot, Inch, Metre, Millimetre};
    let table: &[(&str, f64, LengthUnit)] = &[
        ("320 mm", 320.0, Millimetre),
        ("320mm", 320.0, Millimetre),
        ("  320 \t mm ", 320.0, Millimetre),
        ("+1.5 cm", 1.5, Centimetre),
        ("-1.5 cm", -1.5, Centimetre),
        ("− 1.5 cm", -1.5, Centimetre),
        (".5 m", 0.5, Metre),
        ("5. m", 5.0, Metre),
        ("1.2e-3 m", 0.0012, Metre),
        ("2E2 millimetres", 200.0, Millimetre),
        ("0 mm", 0.0, Millimetre),
        ("5/8 in", 0.625, Inch),
        ("5 / 8 in", 0.625, Inch),
        ("5⁄8in", 0.625, Inch),
        ("9/8 in", 1.125, Inch),
        ("1/3 in", 1.0 / 3.0, Inch),
        ("12 5/8 in", 12.625, Inch),
        ("12-5/8 in", 12.625, Inch),
        ("-12 5/8\"", -12.625, Inch),
        ("12⅝″", 12.625, Inch),
        ("12 ⅝ inches", 12.625, Inch),
        ("12-⅝ in", 12.625, Inch),
        ("½ in", 0.5, Inch),
        ("1/2 ft", 0.5, Foot),
        ("2 1/2'", 2.5, Foot),
        ("3 ft", 3.0, Foot),
        ("3 ft 2 5/8 in", 38.625, Inch),
        ("3ft2in", 38.0, Inch),
        ("3 ft 5/8 in", 36.625, Inch),
        ("3' 2 5/8\"", 38.625, Inch),
        ("3'-2 5/8\"", 38.625, Inch),
        ("3' - 2''", 38.0, Inch),
        ("3 feet 2.25 inches", 38.25, Inch),
        ("-3 ft 2 in", -38.0, Inch),
        ("3 ft 14 in", 50.0, Inch),
    ];
    for (text, value, unit) in table {
        let read = Length::parse_with_unit(text);
        assert_eq!(read, Ok((Length::new(*value, *unit), *unit)), "{text}");
    }
}

#[test]
fn other_quantities_read() {
    let si = |text, read: Result<f64, ParseError>, wanted: f64| {
        let read = read.expect(text);
        assert!(
            (read - wanted).abs() <= 1e-15 * wanted.abs(),
            "{text}: {read} and not {wanted}"
        );
    };
    let volume = |text| Volume::parse(text).map(Volume::si);
    si("6.2 L", volume("6.2 L"), 0.0062);
    si("1.4 US gal", volume("1.4 US gal"), 1.4 * 0.003_785_411_784);
    si(
        "1.4 US   gal",
        volume("1.4 US   gal"),
        1.4 * 0.003_785_411_784,
    );
    si("1 imp qt", volume("1 imp qt"), 0.001_136_522_5);
    si("2 m3", volume("2 m3"), 2.0);
    si("95 A", Current::parse("95 A").map(Current::si), 95.0);
    si(
        "0.2 bar",
        Pressure::parse("0.2 bar").map(Pressure::si),
        20_000.0,
    );
    si(
        "20 °C",
        Temperature::parse("20 °C").map(Temperature::si),
        293.15,
    );
    si(
        "-40 F",
        Temperature::parse("-40 F").map(Temperature::si),
        233.15,
    );
    si(
        "90°",
        Angle::parse("90°").map(Angle::si),
        core::f64::consts::FRAC_PI_2,
    );
    si("5 %", Ratio::parse("5 %").map(Ratio::si), 0.05);
    si(
        "10 in/min",
        Speed::parse("10 in/min").map(Speed::si),
        0.254 / 60.0,
    );
    si("1.5 min", Time::parse("1.5 min").map(Time::si), 90.0);
    si(
        "3 in2",
        Area::parse("3 in2").map(Area::si),
        3.0 * 0.000_645_16,
    );
    si(
        "1 kJ/mm",
        LineEnergy::parse("1 kJ/mm").map(LineEnergy::si),
        1e6,
    );
}

/// The text, the cause, and the part that is marked.
#[test]
fn lengths_refused() {
    let unknown = |nearest| ParseCause::UnknownUnit { nearest };
    let current = ParseCause::OtherQuantity {
        unit: "A",
        what: "a current",
    };
    let gallon = ParseCause::OtherQuantity {
        unit: "US gal",
        what: "a volume",
    };
    let table: &[(&str, ParseCause, &str)] = &[
        ("", ParseCause::Empty, ""),
        ("   ", ParseCause::Empty, ""),
        ("mm", ParseCause::NotANumber, "mm"),
        ("-", ParseCause::NotANumber, ""),
        ("--5 mm", ParseCause::NotANumber, "-5"),
        ("wide, 5 mm", ParseCause::NotANumber, "wide,"),
        (". mm", ParseCause::NotANumber, "."),
        ("nan mm", ParseCause::NotANumber, "nan"),
        ("inf mm", ParseCause::NotANumber, "inf"),
        ("1.2.3 mm", ParseCause::NotANumber, "1.2.3"),
        ("12-5 mm", ParseCause::NotANumber, "12-5"),
        ("12, mm", ParseCause::NotANumber, "12,"),
        ("1.234,5 mm", ParseCause::NotANumber, "1.234,5"),
        ("5/ in", ParseCause::NotANumber, "5/"),
        ("5/8/2 in", ParseCause::NotANumber, "5/8/2"),
        ("1'000 mm", ParseCause::NotFeetThenInches, "mm"),
        (
            "12,5 mm",
            ParseCause::DecimalComma {
                value: 12.5,
                places: 1,
            },
            "12,5",
        ),
        (
            "1,250 mm",
            ParseCause::DecimalComma {
                value: 1.25,
                places: 3,
            },
            "1,250",
        ),
        ("1 000 mm", ParseCause::TwoNumbers, "1 000"),
        ("12 -5/8 in", ParseCause::TwoNumbers, "12 -5/8"),
        ("5/0 in", ParseCause::ZeroDenominator, "0"),
        ("12 5/0 in", ParseCause::ZeroDenominator, "0"),
        ("12 9/8 in", ParseCause::ImproperFraction, "9/8"),
        ("12 8/8 in", ParseCause::ImproperFraction, "8/8"),
        ("12.5 5/8 in", ParseCause::FractionAfterDecimal, "12.5 5/8"),
        ("12.5/8 in", ParseCause::FractionAfterDecimal, "12.5/8"),
        (
            "5/8 mm",
            ParseCause::FractionNotUsual {
                value: 0.625,
                unit: "mm",
            },
            "5/8",
        ),
        (
            "12 ½ mm",
            ParseCause::FractionNotUsual {
                value: 12.5,
                unit: "mm",
            },
            "12 ½",
        ),
        ("320", ParseCause::MissingUnit, ""),
        ("3 ft 2", ParseCause::MissingUnit, ""),
        ("320 mn", unknown(Some("mm")), "mn"),
        ("320 MM", unknown(Some("mm")), "MM"),
        ("320 milimeter", unknown(Some("mm")), "milimeter"),
        ("12 Inch", unknown(Some("in")), "Inch"),
        ("320 x", unknown(None), "x"),
        ("320 xyzmm", unknown(None), "xyzmm"),
        ("320 xymm", unknown(Some("mm")), "xymm"),
        ("320 furlongs", unknown(None), "furlongs"),
        (
            "320 a-very-long-word-for-a-unit-of-length",
            unknown(None),
            "a-very-long-word-for-a-unit-of-length",
        ),
        ("95 A", current, "A"),
        ("95 amps", current, "amps"),
        ("95 A ac", current, "A"),
        ("2 gal", gallon, "gal"),
        (
            "3 ft2",
            ParseCause::OtherQuantity {
                unit: "ft²",
                what: "an area",
            },
            "ft2",
        ),
        (
            "3 m/s",
            ParseCause::OtherQuantity {
                unit: "m/s",
                what: "a speed",
            },
            "m/s",
        ),
        ("5 in 3 ft", ParseCause::NotFeetThenInches, "3 ft"),
        ("3 m 20 cm", ParseCause::NotFeetThenInches, "20 cm"),
        ("3.5 ft 2 in", ParseCause::NotFeetThenInches, "3.5"),
        ("3 ft 20 mm", ParseCause::NotFeetThenInches, "mm"),
        ("320 mm wide", ParseCause::TrailingText, "wide"),
        ("320 mm, wide", ParseCause::TrailingText, ", wide"),
        ("3 ft 2 in long", ParseCause::TrailingText, "long"),
        ("1e999 mm", ParseCause::TooLarge, "1e999"),
        ("-1e308 m 5", ParseCause::NotFeetThenInches, "5"),
    ];
    for (text, cause, marked) in table {
        let error = error::<Length>(text);
        assert_eq!(
            (error.cause, error.span.of(text)),
            (*cause, *marked),
            "{text}"
        );
        assert!(
            error.span.start <= error.span.end && error.span.end <= text.len(),
            "{text}"
        );
    }
}

#[test]
fn a_missing_thing_is_marked_where_it_is_missing() {
    assert_eq!(
        error::<Length>("320  ").span,
        super::Span { start: 3, end: 3 }
    );
    assert_eq!(error::<Length>(" -").span, super::Span { start: 2, end: 2 });
}

#[test]
fn too_large_only_as_the_si_number() {
    let text = "1e308 bar";
    let error = error::<Pressure>(text);
    assert_eq!(
        (error.cause, error.span.of(text)),
        (ParseCause::TooLarge, text)
    );
    let digits = ["9"; 400].concat();
    assert_eq!(
        self::error::<Length>(&(digits + " mm")).cause,
        ParseCause::TooLarge
    );
}

#[test]
fn gallons_quarts_and_pints_need_a_country() {
    for (text, us, imperial) in [
        ("2 gal", "US gal", "imp gal"),
        ("2 gallons", "US gal", "imp gal"),
        ("2 qt", "US qt", "imp qt"),
        ("2 pt", "US pt", "imp pt"),
        ("2 fl oz", "US fl oz", "imp fl oz"),
    ] {
        assert_eq!(
            error::<Volume>(text).cause,
            ParseCause::AmbiguousUnit { us, imperial }
        );
    }
}

#[test]
fn every_cause_says_what_to_do() {
    for (text, said) in [
        (
            "",
            "nothing is written here; write a length such as 12.5 mm or 12 5/8 in",
        ),
        (
            "x",
            "this is not a number; write a length such as 12.5 mm or 12 5/8 in",
        ),
        (
            "12,5 mm",
            "a comma is not read in a number; write 12.5 with a point",
        ),
        (
            "1,250 mm",
            "a comma can mean two things here; write 1.250 with a point, or 1250 without a break",
        ),
        (
            "1,25000000000000000000000 mm",
            "a comma is not read in a number; write it with a point, such as 12.5",
        ),
        (
            "1 000 mm",
            "two numbers stand side by side; write one without spaces in it, such as 12.5 mm or 12 5/8 in",
        ),
        (
            "1/0 in",
            "nothing can be divided by 0; write a fraction such as 5/8",
        ),
        (
            "1 9/8 in",
            "the fraction after a whole number must be less than 1; write it as in 12 5/8",
        ),
        (
            "1.5 1/8 in",
            "a decimal and a fraction do not go together; write 12.625 or 12 5/8",
        ),
        (
            "5/8 mm",
            "mm is not read with fractions, only in and ft are; write 0.6250 mm",
        ),
        (
            "12",
            "a length needs its unit after the number: mm, cm, m, in or ft",
        ),
        (
            "12 mn",
            "this is no unit of a length; did you mean mm? Known are mm, cm, m, in or ft",
        ),
        (
            "12 x",
            "this is no unit of a length; use mm, cm, m, in or ft",
        ),
        (
            "95 A",
            "A is a current, and a length is wanted here; use mm, cm, m, in or ft",
        ),
        (
            "1 m 1 m",
            "a length in two parts is whole feet and then inches; write it as in 3 ft 2 5/8 in, or with one unit",
        ),
        (
            "1e999 m",
            "this number is too large to calculate with; write a smaller one",
        ),
        (
            "1 m long",
            "something more follows after the unit; take it away",
        ),
    ] {
        assert_eq!(error::<Length>(text).to_string(), said, "{text}");
    }
    let said =
        "this is one size in the US and another in imperial measure; write US gal or imp gal";
    assert_eq!(error::<Volume>("1 gal").to_string(), said);
    assert_eq!(
        error::<Angle>("").to_string(),
        "nothing is written here; write an angle such as 12.5°"
    );
    assert_eq!(
        error::<Current>("12").to_string(),
        "a current needs its unit after the number: A"
    );
}

/// Each spelling of one quantity reads as its own unit, and as no unit of another quantity.
#[test]
fn spellings_are_told_apart() {
    fn spellings<Q: Quantity>() -> impl Iterator<Item = &'static str> {
        Q::Unit::ALL.iter().flat_map(|unit| {
            let unit = *unit;
            [unit.symbol()]
                .into_iter()
                .chain(unit.aliases().iter().copied())
                .inspect(move |spelling| {
                    let text = std::format!("7 {spelling}");
                    assert_eq!(
                        super::parse_with_unit::<Q>(&text),
                        Ok((Q::of(7.0, unit), unit)),
                        "{text}"
                    );
                })
        })
    }
    use crate::units as q;
    let mut all: std::vec::Vec<&str> = spellings::<Length>().chain(spellings::<Area>()).collect();
    all.extend(
        spellings::<Volume>()
            .chain(spellings::<Pressure>())
            .chain(spellings::<Temperature>()),
    );
    all.extend(
        spellings::<Current>()
            .chain(spellings::<q::Voltage>())
            .chain(spellings::<Speed>()),
    );
    all.extend(
        spellings::<Time>()
            .chain(spellings::<Angle>())
            .chain(spellings::<Ratio>()),
    );
    all.extend(
        spellings::<q::Mass>()
            .chain(spellings::<LineEnergy>())
            .chain(spellings::<q::Energy>()),
    );
    let count = all.len();
    all.sort_unstable();
    all.dedup();
    assert_eq!(all.len(), count, "a spelling stands for two units");
}
