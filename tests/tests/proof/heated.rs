//! What metal keeps when it is hot, and what that does to a tank's walls.

use seamwright_core::prelude::*;
use seamwright_core::strength::{StrengthError, Trial};
use seamwright_tests::Outcome;

fn celsius(value: f64) -> Temperature {
    Temperature::new(value, TemperatureUnit::Celsius)
}

/// Shares of the yield strength at 20 °C in hundredths, of alloys and tempers by name. Nothing here may promise more.
/// EN 1999-1-2, table 1a; EN 1993-1-2, table E.1 (class 4 sections) and annex C: standards for fire (all from memory).
const PUBLISHED: [(Alloy, f64, f64); 23] = [
    (Alloy::A5052, 100.0, 100.0),
    (Alloy::A5052, 150.0, 96.0),
    (Alloy::A5052, 200.0, 82.0),
    (Alloy::A5083, 100.0, 100.0),
    (Alloy::A5083, 150.0, 98.0),
    (Alloy::A5083, 200.0, 90.0),
    (Alloy::A5454, 150.0, 96.0),
    (Alloy::A5454, 200.0, 88.0),
    (Alloy::A6061, 100.0, 95.0),
    (Alloy::A6061, 150.0, 91.0),
    (Alloy::A6061, 200.0, 79.0),
    (Alloy::A6063, 100.0, 91.0),
    (Alloy::A6063, 200.0, 71.0),
    (Alloy::A6082, 100.0, 90.0),
    (Alloy::A6082, 150.0, 79.0),
    (Alloy::A6082, 200.0, 65.0),
    (Alloy::S304, 100.0, 82.0),
    (Alloy::S304, 200.0, 68.0),
    (Alloy::S304, 400.0, 60.0),
    (Alloy::S316, 100.0, 88.0),
    (Alloy::S316, 300.0, 71.0),
    (Alloy::S235, 200.0, 89.0),
    (Alloy::S235, 300.0, 78.0),
];

#[test]
fn no_more_is_kept_than_other_standards_have() -> Outcome {
    for (alloy, at, published) in PUBLISHED {
        let heated = alloy.heated(celsius(at)).ok_or("no figures")?;
        let kept = 100.0 * heated.strength.si();
        assert!(kept <= published + 1e-9, "{alloy} at {at}: {kept}");
        // Nor is it a figure without worth.
        assert!(kept > 0.5 * published, "{alloy} at {at}: {kept}");
        assert!(heated.source.is_some());
    }
    Ok(())
}

/// Hotter metal keeps less, without a jump, up to its limit and nothing past it.
#[test]
fn hotter_metal_keeps_less() -> Outcome {
    for alloy in Alloy::ALL.iter().copied() {
        let most = alloy.hottest_known().in_unit(TemperatureUnit::Celsius);
        let mut last = (1.0, 1.0);
        for at in -60..=(most as i32) {
            let heated = alloy.heated(celsius(f64::from(at))).ok_or("no figures")?;
            let now = (heated.strength.si(), heated.modulus.si());
            assert!(now.0 <= last.0 && now.1 <= last.1, "{alloy} at {at}");
            assert!(last.0 - now.0 < 0.0065, "{alloy} at {at}: {last:?} {now:?}");
            assert_eq!(heated.source.is_none(), at <= 20, "{alloy} at {at}");
            last = now;
        }
        assert_eq!(alloy.heated(celsius(most + 0.1)), None, "{alloy}");
        assert_eq!(alloy.heated(celsius(f64::NAN)), None, "{alloy}");
    }
    Ok(())
}

fn tank(alloy: Alloy, service: Option<f64>, hottest: Option<f64>) -> Outcome<Tank> {
    let mm = |value| Length::new(value, LengthUnit::Millimetre);
    let mut stock = StockDraft::of(alloy, mm(3.0));
    stock.temper = (alloy == Alloy::A6061).then_some(Temper::T6);
    let outside = Block::new(mm(300.0), mm(200.0), mm(150.0));
    let mut draft = Draft::new("Wax melter", outside, stock)?;
    draft.service.temperature = service.map(celsius);
    draft.service.pressure = Some(Pressure::new(20.0, PressureUnit::Kilopascal));
    if let Some(hottest) = hottest {
        draft.fill.liquid = Some(Liquid::Water);
        draft.fill.fill_temperature = Some(celsius(15.0));
        draft.fill.hottest = Some(celsius(hottest));
    }
    Ok(Tank::build(&draft)?)
}

/// A wall's reserve goes down as the share goes; one that bulges by its modulus bulges more; a test is made cold.
#[test]
fn walls_bear_less_when_hot() -> Outcome {
    let reserve = |tank: &Tank, trial| -> Outcome<f64> { Ok(tank.weakest(trial)?.reserve) };
    let cold = tank(Alloy::A5083, None, None)?;
    let own = reserve(&cold, Trial::Use)?;
    for (service, hottest, at) in [
        (Some(150.0), None, 150.0),
        (None, Some(95.0), 95.0),
        // The hotter of the two counts.
        (Some(60.0), Some(95.0), 95.0),
        (Some(120.0), Some(95.0), 120.0),
    ] {
        let hot = tank(Alloy::A5083, service, hottest)?;
        let share = Alloy::A5083.heated(celsius(at)).ok_or("no figures")?;
        let found = reserve(&hot, Trial::Use)? / own;
        // Its load is as it was, but for the density of water at 15 °C instead of 1000 kg/m³.
        assert!(
            (found / share.strength.si() - 1.0).abs() < 1e-3,
            "{at}: {found} {share:?}"
        );
        let test = Trial::Test(Pressure::new(10.0, PressureUnit::Kilopascal));
        assert!((reserve(&hot, test)? / reserve(&cold, test)? - 1.0).abs() < 1e-12);
    }
    Ok(())
}

#[test]
fn past_what_is_known_nothing_is_said() -> Outcome {
    let hot = tank(Alloy::A6061, Some(400.0), None)?;
    let told = hot.weakest(Trial::Use);
    assert!(
        matches!(told, Err(StrengthError::TooHot { .. })),
        "{told:?}"
    );
    let words = told
        .err()
        .map(|error| error.to_string())
        .unwrap_or_default();
    assert!(
        words.contains("400 °C") && words.contains("205 °C"),
        "{words}"
    );
    // A cold test can still be judged.
    assert!(hot.weakest(Trial::Test(Pressure::default())).is_ok());
    Ok(())
}

/// Beside a weld 5454 is no stronger than 83 N/mm² and 5005 than 35: Aluminum Design Manual, table of welded alloys, 12 and
/// 5 ksi (from memory).
#[test]
fn worked_sheet_is_soft_beside_a_weld() -> Outcome {
    for (alloy, temper, most) in [
        (Alloy::A5454, Temper::H32, 83.0),
        (Alloy::A5454, Temper::O, 83.0),
        (Alloy::A5005, Temper::H34, 35.0),
    ] {
        let thickness = Length::new(3.0, LengthUnit::Millimetre);
        let found = alloy.metal().as_welded(Some(temper), None, thickness);
        let found = found.ok_or("none")?.yield_strength;
        assert!(
            found.in_unit(PressureUnit::Megapascal) <= most + 1e-9,
            "{alloy}: {found:?}"
        );
    }
    Ok(())
}
