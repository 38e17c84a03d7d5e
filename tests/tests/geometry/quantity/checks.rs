//! Units and sheet gauges against published figures.
//!
//! `data/quantity/checks.json` holds figures that were gathered and evaluated apart from this project,
//! each with its source and tolerance; every one of them must be known here.

use seamwright_core::heat::loss::radiation;
use seamwright_core::units::constant::{GAS, GRAVITY};
use seamwright_core::units::gauge::SheetGauge;
use seamwright_core::units::{
    Force, ForceUnit, Length, LengthUnit, Mass, MassUnit, Pressure, PressureUnit, Temperature,
    TemperatureUnit, Torque, TorqueUnit, Volume, VolumeUnit,
};
use seamwright_tests::Outcome;
use seamwright_tests::checks::{expect_near, rows};
use seamwright_tests::near::Tolerance;
use seamwright_tests::published::{Source, from_memory};
use serde_json::Value;
use std::f64::consts::PI;

const CHECKS: &str = "quantity/checks.json";

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

/// They are definitions and formulae in full, so that more can be asked for than their own tolerance.
#[test]
pub(crate) fn every_gathered_figure_agrees() -> Outcome {
    let checks = rows(CHECKS);
    assert_eq!(checks.len(), 52);
    for check in &checks {
        let id = check["id"].as_str().expect("an id");
        for key in check["expected"].as_object().expect("figures").keys() {
            let ours = ours(id, key, &check["inputs"]);
            expect_near(check, key, ours, Tolerance::relative(1e-12))?;
        }
    }
    Ok(())
}

/// A pound-force is a pound-force per square inch on a square inch, and a pound-force foot that on a foot: the gathered
/// psi, the inch and the foot make both (NIST SP 811, appendix B, from memory, has 4.448 222 and 1.355 818).
#[test]
pub(crate) fn pounds_force() -> Outcome {
    let inch = Length::new(1.0, LengthUnit::Inch).si();
    let foot = Length::new(1.0, LengthUnit::Foot).si();
    let force = Force::new(1.0, ForceUnit::PoundForce).si();
    let torque = Torque::new(1.0, TorqueUnit::PoundForceFoot).si();
    let psi = Pressure::new(1.0, PressureUnit::Psi).si();
    assert!((force / (psi * inch * inch) - 1.0).abs() < 1e-15);
    assert!((torque / (force * foot) - 1.0).abs() < 1e-15);
    let printed = from_memory("NIST SP 811, appendix B");
    let digits = Tolerance::absolute(5e-7);
    printed.near("Pound-force, N", force, 4.448_222, digits)?;
    printed.near("Pound-force foot, N m", torque, 1.355_818, digits)?;
    Ok(())
}

/// The SI of 2019 fixes Boltzmann's, Avogadro's and Planck's constants and the speed of light (from memory); the gas
/// constant is the product of the first two, and Stefan and Boltzmann's is 2π⁵k⁴/(15 h³ c²).
#[test]
pub(crate) fn constants_of_physics() -> Outcome {
    let (boltzmann, avogadro) = (1.380_649e-23, 6.022_140_76e23);
    let (planck, light) = (6.626_070_15e-34_f64, 299_792_458.0_f64);
    let fixed = from_memory("SI of 2019, fixed constants");
    let digits = Tolerance::relative(1e-9);
    let product = boltzmann * avogadro;
    fixed.near("Gas constant, J/(mol K)", GAS, product, digits)?;
    // Divided one by one: the cube of Planck's constant alone is past what a double holds well.
    let ratio = boltzmann / planck;
    let radiated = 2.0 / 15.0 * PI.powi(5) * ratio.powi(3) * boltzmann / (light * light);
    // A black body at 400 K sends out σ T⁴ and takes in that of 300 K.
    let ours = radiation(1.0, 100.0, 300.0) * 100.0 / (400.0_f64.powi(4) - 300.0_f64.powi(4));
    let figure = "Stefan and Boltzmann's constant, W/(m² K⁴)";
    fixed.near(figure, ours, radiated, digits)?;
    from_memory("3rd CGPM (1901)").near("Standard gravity, m/s²", GRAVITY, 9.806_65, digits)?;
    Ok(())
}

/// The weight of a square foot behind each steel gauge: 15 USC 206 by way of the gathered checks.
#[test]
fn steel_gauges_have_their_lawful_weight() {
    let checks = rows(CHECKS);
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

/// Where such a table stands nobody noted, so that it counts as remembered.
const TABLES: Source<'_> = from_memory("Sheet gauge tables to four decimals");

#[test]
pub(crate) fn gauges_round_to_the_printed_table() -> Outcome {
    for (number, aluminium, steel, stainless) in GAUGE_TABLE {
        for (system, name, printed) in [
            (SheetGauge::BrownSharpe, "Brown & Sharpe", aluminium),
            (
                SheetGauge::ManufacturersStandard,
                "Manufacturers' Standard",
                steel,
            ),
            (SheetGauge::UsStandard, "US Standard", stainless),
        ] {
            let inches = system
                .thickness(number)
                .expect("in the table")
                .in_unit(LengthUnit::Inch);
            // Half of the last place, and a hair for 0.03125, which the table rounds up.
            TABLES.near(
                &format!("{name} gauges 8 to 22, in"),
                inches,
                printed,
                Tolerance::absolute(0.5e-4 + 1e-12),
            )?;
        }
    }
    let seven = SheetGauge::ManufacturersStandard
        .thickness(7)
        .expect("in the table");
    assert_eq!(seven.number(LengthUnit::Inch, 3).to_string(), "0.179"); // 46 CFR
    Ok(())
}

/// NIST SP 811 (2008) appendix B and NIST Handbook 44 appendix C: exact definitions, from memory.
#[test]
pub(crate) fn exact_definitions_hold_to_a_unit_in_the_last_place() -> Outcome {
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
        from_memory("NIST SP 811 (2008), appendix B, and Handbook 44, appendix C").near(
            &format!("One {symbol} in SI units"),
            ours,
            defined,
            Tolerance::relative(f64::EPSILON),
        )?;
    }
    Ok(())
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
