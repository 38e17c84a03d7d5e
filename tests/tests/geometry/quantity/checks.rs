//! Units and sheet gauges against published figures.
//!
//! `data/quantity/checks.json` holds figures that were gathered and evaluated apart from this project,
//! each with its source and tolerance; every one of them must be known here.

use seamwright_core::units::gauge::SheetGauge;
use seamwright_core::units::{
    Length, LengthUnit, Mass, MassUnit, Pressure, PressureUnit, Temperature, TemperatureUnit,
    Volume, VolumeUnit,
};
use serde_json::Value;

const CHECKS: &str = include_str!("../../../data/quantity/checks.json");

/// What we make of the figure `key` of the check `id`.
fn ours(id: &str, key: &str, inputs: &Value) -> f64 {
    let volume = |unit| Volume::new(1.0, unit);
    let pressure = |unit| Pressure::new(1.0, unit).si();
    match key {
        "US_gal_m3" => volume(VolumeUnit::UsGallon).si(),
        "US_gal_in3" => volume(VolumeUnit::UsGallon).in_unit(VolumeUnit::CubicInch),
        "imp_gal_m3" => volume(VolumeUnit::ImperialGallon).si(),
        "imp_gal_in3" => volume(VolumeUnit::ImperialGallon).in_unit(VolumeUnit::CubicInch),
        "imp_qt_m3" => volume(VolumeUnit::ImperialQuart).si(),
        "imp_floz_ml" => volume(VolumeUnit::ImperialFluidOunce).in_unit(VolumeUnit::Millilitre),
        "ft3_m3" => volume(VolumeUnit::CubicFoot).si(),
        "lb_kg" => Mass::new(1.0, MassUnit::Pound).si(),
        "psi_Pa" => pressure(PressureUnit::Psi),
        "inHg_Pa_conv" => pressure(PressureUnit::InchOfMercury),
        "atm" => pressure(PressureUnit::Atmosphere),
        "bar" => pressure(PressureUnit::Bar),
        "inch" | "ussg_inch" => {
            let system = match inputs["system"].as_str().expect("a system") {
                "Brown & Sharpe/AWG" => SheetGauge::BrownSharpe,
                "Manufacturers' Standard (steel)" if key == "inch" => {
                    SheetGauge::ManufacturersStandard
                }
                "Manufacturers' Standard (steel)" => SheetGauge::UsStandard,
                other => panic!("{id}: no such system: {other}"),
            };
            let number = inputs["gauge"]
                .as_u64()
                .and_then(|n| u8::try_from(n).ok())
                .expect("a gauge");
            system
                .thickness(number)
                .expect(id)
                .in_unit(LengthUnit::Inch)
        }
        other => panic!("{id}: no such figure: {other}"),
    }
}

#[test]
fn every_gathered_figure_agrees() {
    let checks: Vec<Value> = serde_json::from_str(CHECKS).expect("the checks are JSON");
    assert_eq!(checks.len(), 52);
    for check in &checks {
        let id = check["id"].as_str().expect("an id");
        let tolerance = check["tolerance"]["value"].as_f64().expect("a tolerance");
        for (key, expected) in check["expected"].as_object().expect("figures") {
            let expected = expected.as_f64().expect("a number");
            let allowed = match check["tolerance"]["type"].as_str() {
                Some("relative") => tolerance * expected.abs(),
                Some("absolute") => tolerance,
                other => panic!("{id}: no such tolerance: {other:?}"),
            };
            let ours = ours(id, key, &check["inputs"]);
            let source = &check["source"];
            assert!(
                (ours - expected).abs() <= allowed,
                "{id} {key}: {ours} and not {expected} ({source})"
            );
            // The gathered figures are definitions and formulae in full, so we can ask for more.
            let tight = expected.abs() * 1e-12;
            assert!(
                (ours - expected).abs() <= tight,
                "{id} {key}: {ours} and {expected} part in the twelfth digit"
            );
        }
    }
}

/// The weight of a square foot behind each steel gauge: 15 USC 206 by way of the gathered checks.
#[test]
fn steel_gauges_have_their_lawful_weight() {
    let checks: Vec<Value> = serde_json::from_str(CHECKS).expect("the checks are JSON");
    let mut seen = 0;
    for check in checks
        .iter()
        .filter(|check| !check["inputs"]["oz_per_ft2"].is_null())
    {
        let inputs = &check["inputs"];
        let number = inputs["gauge"]
            .as_u64()
            .and_then(|n| u8::try_from(n).ok())
            .expect("a gauge");
        let inches = SheetGauge::UsStandard
            .thickness(number)
            .expect("in the table")
            .in_unit(LengthUnit::Inch);
        let ounces = inputs["oz_per_ft2"].as_f64().expect("a weight");
        assert!(
            (inches * 40.0 * 16.0 - ounces).abs() < 1e-9,
            "gauge {number}: {inches} in, {ounces} oz/ft²"
        );
        seen += 1;
    }
    assert_eq!(seen, 17);
}

/// Gauge, aluminium (Brown & Sharpe), carbon steel (Manufacturers' Standard), stainless (US Standard,
/// nominal), in inches to four decimals as sheet tables print them. Gathered apart from this project
/// with the checks above, and named to no one handbook; carbon steel 14 and 12 stand so in the tables
/// of 46 CFR, as does 7.
const GAUGE_TABLE: [(u8, f64, f64, f64); 9] = [
    (8, 0.1285, 0.1644, 0.1719),
    (10, 0.1019, 0.1345, 0.1406),
    (11, 0.0907, 0.1196, 0.1250),
    (12, 0.0808, 0.1046, 0.1094),
    (14, 0.0641, 0.0747, 0.0781),
    (16, 0.0508, 0.0598, 0.0625),
    (18, 0.0403, 0.0478, 0.0500),
    (20, 0.0320, 0.0359, 0.0375),
    (22, 0.0253, 0.0299, 0.0313),
];

#[test]
fn gauges_round_to_the_printed_table() {
    for (number, aluminium, steel, stainless) in GAUGE_TABLE {
        for (system, printed) in [
            (SheetGauge::BrownSharpe, aluminium),
            (SheetGauge::ManufacturersStandard, steel),
            (SheetGauge::UsStandard, stainless),
        ] {
            let inches = system
                .thickness(number)
                .expect("in the table")
                .in_unit(LengthUnit::Inch);
            // Half of the last place, and a hair for 0.03125, which the table rounds up.
            assert!(
                (inches - printed).abs() <= 0.5e-4 + 1e-12,
                "{system:?} {number}: {inches} and not {printed}"
            );
        }
    }
    let seven = SheetGauge::ManufacturersStandard
        .thickness(7)
        .expect("in the table");
    assert_eq!(seven.number(LengthUnit::Inch, 3).to_string(), "0.179"); // 46 CFR
}

/// NIST SP 811 (2008) appendix B and NIST Handbook 44 appendix C: exact definitions, from memory.
#[test]
fn exact_definitions_hold_to_a_unit_in_the_last_place() {
    let volume = |unit| Volume::new(1.0, unit).si();
    let figures = [
        ("in", Length::new(1.0, LengthUnit::Inch).si(), 0.0254),
        ("ft", Length::new(1.0, LengthUnit::Foot).si(), 0.3048),
        ("lb", Mass::new(1.0, MassUnit::Pound).si(), 0.453_592_37),
        ("US gal", volume(VolumeUnit::UsGallon), 0.003_785_411_784),
        ("US qt", volume(VolumeUnit::UsQuart), 0.000_946_352_946),
        ("US pt", volume(VolumeUnit::UsPint), 0.000_473_176_473),
        (
            "US fl oz",
            volume(VolumeUnit::UsFluidOunce),
            0.000_029_573_529_562_5,
        ),
        ("imp gal", volume(VolumeUnit::ImperialGallon), 0.004_546_09),
        ("imp qt", volume(VolumeUnit::ImperialQuart), 0.001_136_522_5),
        ("imp pt", volume(VolumeUnit::ImperialPint), 0.000_568_261_25),
        (
            "imp fl oz",
            volume(VolumeUnit::ImperialFluidOunce),
            0.000_028_413_062_5,
        ),
        ("in³", volume(VolumeUnit::CubicInch), 0.000_016_387_064),
        ("ft³", volume(VolumeUnit::CubicFoot), 0.028_316_846_592),
        (
            "psi",
            Pressure::new(1.0, PressureUnit::Psi).si(),
            6_894.757_293_168_361,
        ),
        (
            "inH2O",
            Pressure::new(1.0, PressureUnit::InchOfWater).si(),
            249.0889,
        ),
    ];
    for (symbol, ours, defined) in figures {
        assert!(
            (ours - defined).abs() <= defined * f64::EPSILON,
            "{symbol}: {ours} and not {defined}"
        );
    }
}

/// Fixed points of the scales, and the one reading that both share.
#[test]
fn temperatures_meet_at_their_fixed_points() {
    use TemperatureUnit::{Celsius, Fahrenheit, Kelvin};
    for (celsius, fahrenheit, kelvin) in [
        (0.0, 32.0, 273.15),
        (100.0, 212.0, 373.15),
        (-40.0, -40.0, 233.15),
        (-273.15, -459.67, 0.0),
    ] {
        for (value, unit) in [
            (celsius, Celsius),
            (fahrenheit, Fahrenheit),
            (kelvin, Kelvin),
        ] {
            let temperature = Temperature::new(value, unit);
            for (other, other_unit) in [
                (celsius, Celsius),
                (fahrenheit, Fahrenheit),
                (kelvin, Kelvin),
            ] {
                assert!(
                    (temperature.in_unit(other_unit) - other).abs() < 2e-13,
                    "{value} {unit:?} in {other_unit:?}"
                );
            }
        }
    }
}
