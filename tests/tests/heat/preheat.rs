//! Preheat against published figures; the source stands beside each check.
//!
//! `data/welding/checks.json` holds figures gathered and evaluated apart from this project, each with its
//! source and tolerance.

use seamwright_core::tables::preheat::{
    avoid, hold_limit, interpass_limit, is_sensitive, least_temperature, preheat_limit,
};
use seamwright_core::tables::{Alloy, Source};
use seamwright_core::units::TimeUnit;
use seamwright_tests::Outcome;
use seamwright_tests::amounts::in_celsius;
use seamwright_tests::checks::{number, tolerance, welding};
use seamwright_tests::near::{Tolerance, near};

/// Rows `T4.D1.2.max` and `T4.NAVSEA`; and 100 °C between runs for 6xxx, 120 °C for the rest, EN 1011-4 as
/// a maker of consumables reprints it (read).
#[test]
fn preheat() -> Outcome {
    let check = welding("T4.D1.2.max");
    let most = number(&check["expected"]["T_max_C"]);
    let hold = number(&check["expected"]["hold_max_min"]);
    for name in ["5083", "5086", "5754", "6061", "6063", "6082"] {
        let alloy: Alloy = name.parse()?;
        assert!(is_sensitive(alloy), "{name}");
        let limit = preheat_limit(alloy).unwrap();
        near(name, in_celsius(limit.value), most, tolerance(&check))?;
        assert_eq!(limit.source, Source::AwsD1Point2Preheat);
        let got = hold_limit(alloy).unwrap().value.in_unit(TimeUnit::Minute);
        near(name, got, hold, Tolerance::absolute(1e-9))?;
    }
    for (name, expected) in [
        ("1100", 120.0),
        ("3003", 120.0),
        ("5052", 120.0),
        ("5083", 120.0),
        ("6061", 100.0),
        ("6082", 100.0),
    ] {
        let got = in_celsius(interpass_limit(name.parse()?).value);
        near(name, got, expected, Tolerance::absolute(1e-9))?;
    }
    // 5052 has nominally 2.5 % magnesium, under the 3 % of AWS D1.2.
    assert!(!is_sensitive(Alloy::A5052));
    assert_eq!(hold_limit(Alloy::A5052), None);

    let check = welding("T4.NAVSEA");
    let range = avoid(Alloy::A5086).unwrap().value;
    for (got, expected) in range
        .iter()
        .zip(check["expected"]["avoid_C"].as_array().unwrap())
    {
        near(
            "5086",
            in_celsius(*got),
            number(expected),
            tolerance(&check),
        )?;
    }
    let least = least_temperature(Alloy::A5086).value;
    let expected = number(&check["expected"]["min_preheat_C"]);
    near("5086", in_celsius(least), expected, tolerance(&check))?;
    assert_eq!(avoid(Alloy::A5052), None);
    Ok(())
}
