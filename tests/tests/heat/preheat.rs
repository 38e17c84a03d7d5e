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
use seamwright_tests::checks::{expect, expect_near, welding};
use seamwright_tests::near::Tolerance;
use seamwright_tests::published::seen;

/// Rows `T4.D1.2.max` and `T4.NAVSEA`; and 100 °C between runs for 6xxx, 120 °C for the rest, EN 1011-4 as
/// a maker of consumables reprints it (read).
#[test]
pub(super) fn preheat() -> Outcome {
    let check = welding("T4.D1.2.max");
    for name in ["5083", "5086", "5754", "6061", "6063", "6082"] {
        let alloy: Alloy = name.parse()?;
        assert!(is_sensitive(alloy), "{name}");
        let limit = preheat_limit(alloy).unwrap();
        expect(&check, "T_max_C", in_celsius(limit.value))?;
        assert_eq!(limit.source, Source::AwsD1Point2Preheat);
        let got = hold_limit(alloy).unwrap().value.in_unit(TimeUnit::Minute);
        expect_near(&check, "hold_max_min", got, Tolerance::absolute(1e-9))?;
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
        seen("EN 1011-4, as a maker of consumables reprints it").near(
            &format!("Highest between runs on {name}, °C"),
            got,
            expected,
            Tolerance::absolute(1e-9),
        )?;
    }
    // 5052 has nominally 2.5 % magnesium, under the 3 % of AWS D1.2.
    assert!(!is_sensitive(Alloy::A5052));
    assert_eq!(hold_limit(Alloy::A5052), None);

    let check = welding("T4.NAVSEA");
    let range = avoid(Alloy::A5086).unwrap().value;
    for (end, got) in range.iter().enumerate() {
        expect(&check, &format!("avoid_C/{end}"), in_celsius(*got))?;
    }
    let least = least_temperature(Alloy::A5086).value;
    expect(&check, "min_preheat_C", in_celsius(least))?;
    assert_eq!(avoid(Alloy::A5052), None);
    Ok(())
}
