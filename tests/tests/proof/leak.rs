//! Leak tests against published figures; the source stands beside each check.
//!
//! `data/geometry/checks.json` and `data/welding/checks.json` hold figures gathered and evaluated apart
//! from this project, each with its source and tolerance; the tests below name those they use.

use seamwright_core::leak::{
    Decay, Instruments, Leak, LeakError, LeakRate, LeakRule, LeakVerdict, Method, MethodReason,
    Reading, Sought, StoredEnergy, Vessel, force, head_for, hold, pressure_under, weighs,
};
use seamwright_core::strength::Compliance;
use seamwright_core::units::constant::{GAS, WATER};
use seamwright_core::units::{
    Area, AreaUnit, Length, Pressure, PressureUnit, Temperature, Time, TimeUnit, Volume, VolumeUnit,
};
use seamwright_tests::Outcome;
use seamwright_tests::amounts::{litres, mm};
use seamwright_tests::checks::{
    expect, expect_near, expected, figure, geometry, number, source, welding,
};
use seamwright_tests::near::{Tolerance, near};
use seamwright_tests::published::{computed, from_memory, seen};

/// R as 40 CFR 1065.644 prints it.
const OLDER_GAS: f64 = 8.314_472;

pub(super) fn pa(value: f64) -> Pressure {
    Pressure::from_pascals(value)
}

fn psi(value: f64) -> Pressure {
    Pressure::new(value, PressureUnit::Psi)
}

fn m3(value: f64) -> Volume {
    Volume::from_cubic_metres(value)
}

fn kelvins(value: f64) -> Temperature {
    Temperature::from_kelvins(value)
}

pub(super) const ATMOSPHERE: f64 = 101_325.0;

pub(super) fn reading(seconds: f64, gauge: f64, kelvin: f64, barometer: f64) -> Reading {
    Reading {
        time: Time::from_seconds(seconds),
        gauge: pa(gauge),
        temperature: kelvins(kelvin),
        barometer: pa(barometer),
    }
}

fn gauge_only(gauge: f64) -> Instruments {
    Instruments::new(pa(gauge), 0.0, pa(0.0)).unwrap()
}

/// `pcc2-*`: ASME PCC-2 article 501 appendix II, and the plainer bound.
#[test]
pub(super) fn stored_energy_of_pcc2() -> Outcome {
    for id in ["pcc2-20000-0.05", "pcc2-20684-0.1", "pcc2-100000-0.2"] {
        let check = geometry(id);
        let given = &check["inputs"];
        let got = StoredEnergy::new(
            m3(number(&given["V"])),
            pa(number(&given["pg"])),
            pa(number(&given["Pa"])),
        )?;
        expect(&check, "E_J", got.air.si())?;
        expect(&check, "Brode_J", got.air_at_most.si())?;
        assert!(got.water < got.air && got.air < got.air_at_most);
    }
    Ok(())
}

/// references.md, "Tightness and pressure": 6 L at 20 kPa holds about 91 J by the appendix and 300 J by the
/// bound, at 7 bar about 5.4 kJ. references-welding.md, section 11: 50 L at 0.35 bar 1.4 kJ and 4.4 kJ in
/// air, 0.014 J in water; references-geometry.md, section 7: 100 L of water at 20 kPa 0.009 J.
#[test]
pub(super) fn stored_energy_of_the_worked_examples() -> Outcome {
    let stored = |volume, gauge| StoredEnergy::new(litres(volume), pa(gauge), pa(ATMOSPHERE));
    let small = stored(6.0, 20_000.0)?;
    let half = |absolute| Tolerance {
        relative: 0.0,
        absolute,
    };
    let large = stored(50.0, 35_000.0)?;
    let (hot, wet) = (stored(6.0, 700_000.0)?, stored(100.0, 20_000.0)?);
    for (figure, got, printed, within) in [
        ("6 L of air at 20 kPa", small.air, 91.0, 0.5),
        (
            "6 L of air at 20 kPa, bound",
            small.air_at_most,
            300.0,
            1e-9,
        ),
        ("6 L of air at 7 bar", hot.air, 5_400.0, 50.0),
        ("50 L of air at 0.35 bar", large.air, 1_400.0, 50.0),
        (
            "50 L of air at 0.35 bar, bound",
            large.air_at_most,
            4_400.0,
            50.0,
        ),
        ("50 L of water at 0.35 bar", large.water, 0.014, 0.000_5),
        ("100 L of water at 20 kPa", wet.water, 0.009, 0.000_5),
    ] {
        let worked = computed("ASME PCC-2, article 501, appendix II, worked apart");
        let figure = format!("Stored in {figure}, J");
        worked.near(&figure, got.si(), printed, half(within))?;
    }
    // m g h, common physics: 91 J lift 1 kg 9.3 m.
    near(
        "height",
        small.throws_kilogram().si(),
        small.air.si() / 9.806_65,
        half(1e-12),
    )?;
    assert_eq!(small.to_string(), "91 J, enough to throw 1 kg 9.3 m high");
    Ok(())
}

/// `hydro-head`, of 46 CFR 119.435; references-geometry.md, section 7: 20 kPa stand under 2.04 m of water;
/// references-welding.md, section 11: 0.35 m of water is 0.034 bar.
#[test]
pub(super) fn heads_of_water() -> Outcome {
    let check = geometry("hydro-head");
    let given = &check["inputs"];
    let head = Length::from_metres(number(&given["h"]));
    let got = pressure_under(head, number(&given["rho"]));
    expect(&check, "p", got.si())?;
    let hundredth = Tolerance {
        relative: 0.0,
        absolute: 0.005,
    };
    computed("ρ g h").near(
        "Water that stands for 20 kPa, m",
        head_for(pa(20_000.0), WATER).si(),
        2.04,
        hundredth,
    )?;
    let bar = pressure_under(mm(350.0), WATER).in_unit(PressureUnit::Bar);
    computed("ρ g h").near(
        "0.35 m of water, bar",
        bar,
        0.034,
        Tolerance::relative(0.02),
    )?;
    Ok(())
}

/// `T11.panelforce`: p A. In words, 4.8 kN is the weight of 489 kg.
#[test]
pub(super) fn force_on_a_panel() -> Outcome {
    let check = welding("T11.panelforce");
    let given = &check["inputs"];
    let area = number(&given["panel_mm"][0]) * number(&given["panel_mm"][1]);
    let got = force(
        Pressure::new(number(&given["p_bar"]), PressureUnit::Bar),
        Area::new(area, AreaUnit::SquareMillimetre),
    );
    expect_near(&check, "F_N", got.si(), Tolerance::relative(1e-12))?;
    near("weight", weighs(got).si(), 489.5, Tolerance::relative(1e-3))?;
    Ok(())
}

/// `decay-1065`: the printed example of 40 CFR 1065.644. R there is an older figure, so the moles differ by
/// 1.1 millionths. The tank is drawn empty and leaks inwards.
#[test]
pub(super) fn decay_of_40_cfr_1065_644() -> Outcome {
    let check = geometry("decay-1065");
    let given = &check["inputs"];
    let kelvin = number(&given["T"]);
    let readings = [("p1", 0.0), ("p2", number(&given["dt"]))]
        .map(|(p, t)| reading(t, number(&given[p]) - ATMOSPHERE, kelvin, ATMOSPHERE));
    let leak = Leak::of(
        m3(number(&given["V"])),
        Compliance::RIGID,
        &readings,
        &gauge_only(1.0),
    )?;
    let as_printed = leak.rate.moles() * GAS / OLDER_GAS;
    expect(&check, "n_mol_s", as_printed)?;
    // And the regulation's own rounding of it.
    assert_eq!(format!("{:.5}", leak.rate.moles()), "0.00030");
    near("s", leak.lasted.si(), 70.0, Tolerance::relative(1e-12))?;
    Ok(())
}

/// `decay-temp`: 50 L while the barometer falls 2 hPa and the air cools by half a kelvin.
#[test]
pub(super) fn decay_made_good_for_temperature_and_barometer() -> Outcome {
    let check = geometry("decay-temp");
    let given = &check["inputs"];
    let of = |name: &str| number(&given[name]);
    let readings = [
        reading(0.0, of("pg1"), of("T1"), of("patm1")),
        reading(of("dt"), of("pg2"), of("T2"), of("patm2")),
    ];
    let leak = Leak::of(m3(of("V")), Compliance::RIGID, &readings, &gauge_only(1.0))?;
    let gauge = leak.gauge_only.throughput(leak.air);
    expect(&check, "apparent_Q", gauge)?;
    expect(&check, "true_Q", leak.rate.throughput(leak.air))?;
    Ok(())
}

/// references-geometry.md, section 7: 50 L that fall by 100 Pa in 600 s leak 8.333e-3 Pa·m³/s, which is
/// 0.0833 mbar·L/s and 0.0822 atm·cm³/s; in standard cubic centimetres a minute, Q/101325·10⁶·60·273.15/T.
#[test]
pub(super) fn units_of_a_leak_rate() -> Outcome {
    let readings = [
        reading(0.0, 20_000.0, 293.15, ATMOSPHERE),
        reading(600.0, 19_900.0, 293.15, ATMOSPHERE),
    ];
    let leak = Leak::of(litres(50.0), Compliance::RIGID, &readings, &gauge_only(1.0))?;
    let q = leak.rate.throughput(leak.air);
    let by_definition = computed("p V/t and the definitions of the units");
    let sccm = q / ATMOSPHERE * 1e6 * 60.0 * 273.15 / 293.15;
    for (unit, got, printed, within) in [
        ("Pa m³/s", q, 8.333e-3, 1e-4),
        ("mbar L/s", q * 10.0, 0.083_3, 1e-3),
        ("atm cm³/s", q / 0.101_325, 0.082_2, 1e-3),
        ("standard cm³/min", leak.rate.sccm(), sccm, 1e-12),
    ] {
        let figure = format!("50 L that fall by 100 Pa in 600 s, {unit}");
        by_definition.near(&figure, got, printed, Tolerance::relative(within))?;
    }
    let back = LeakRate::from_sccm(leak.rate.sccm());
    near(
        "back",
        back.moles(),
        leak.rate.moles(),
        Tolerance::relative(1e-12),
    )?;
    Ok(())
}

/// `decay-dT`: 0.1 K at 1.2 bar absolute is 41.4 Pa. references.md: 1 K in 293 K is 0.34 % of it.
#[test]
pub(super) fn warming_of_the_air() -> Outcome {
    let check = geometry("decay-dT");
    let given = &check["inputs"];
    let gauge = number(&given["p_abs"]) - ATMOSPHERE;
    let air = Decay::new(
        litres(6.0),
        pa(gauge),
        pa(ATMOSPHERE),
        kelvins(number(&given["T"])),
    )?;
    // A gauge without a fault, so that the temperature alone counts.
    let by = |kelvins| {
        let instruments = Instruments::new(pa(1e-9), kelvins, pa(0.0)).unwrap();
        air.nearness(&instruments).si()
    };
    expect(&check, "dp", by(number(&given["dT"])))?;
    let share = by(1.0) / number(&given["p_abs"]);
    computed("p/T").near(
        "Air 1 K cooler in 293 K: share of its pressure",
        share,
        0.003_4,
        Tolerance::relative(0.01),
    )?;
    Ok(())
}

/// `min-time`: t = V n δp / Q with n = 10; and with the temperature held to 0.1 K, by the root of the
/// squares of 10 Pa and of `decay-dT`'s 41.4 Pa.
#[test]
pub(super) fn time_to_see_a_leak() -> Outcome {
    let check = geometry("min-time");
    let given = &check["inputs"];
    let kelvin = kelvins(293.15);
    let leak = LeakRate::from_throughput(number(&given["Q_limit"]), kelvin);
    let air = Decay::new(
        m3(number(&given["V"])),
        pa(20_000.0),
        pa(ATMOSPHERE),
        kelvin,
    )?;
    let measure = number(&given["factor"]);
    let gauge = gauge_only(number(&given["resolution_Pa"]));
    let got = air.time_to_see(leak, &gauge, measure)?;
    expect(&check, "t_s", got.si())?;
    let warming = geometry("decay-dT");
    let drifting = Instruments::new(pa(10.0), 0.1, pa(0.0))?;
    let slower = air.time_to_see(leak, &drifting, measure)?.si();
    let both = 10.0_f64.hypot(expected(&warming, "dp")?);
    near(
        "drifting",
        slower / got.si(),
        both / 10.0,
        Tolerance::relative(1e-9),
    )?;
    Ok(())
}

/// The pressures of the rules: 33 CFR 183.542, 46 CFR 58.50-10(c), 46 CFR 119.435 as read; ISO 21487 from
/// memory; `T11.leaktest` for light aircraft.
#[test]
pub(super) fn pressures_of_the_rules() -> Outcome {
    let exact = Tolerance::relative(1e-12);
    let at = |rule: LeakRule, head: f64| rule.pressure(pa(head)).si();
    for (rule, source, least, heads) in [
        (
            LeakRule::BoatFuelUs,
            seen("33 CFR 183.542"),
            psi(3.0).si(),
            1.5,
        ),
        (
            LeakRule::DieselUs,
            seen("46 CFR 58.50-10(c)"),
            psi(5.0).si(),
            1.5,
        ),
        (
            LeakRule::IntegralDieselUs,
            seen("46 CFR 119.435"),
            35_000.0,
            1.0,
        ),
        (
            LeakRule::SmallCraft,
            from_memory("ISO 21487"),
            20_000.0,
            1.5,
        ),
    ] {
        source.near("Test pressure at no head, Pa", at(rule, 0.0), least, exact)?;
        let low = at(rule, least / heads * 0.99);
        source.near("Test pressure at a low head, Pa", low, least, exact)?;
        let (high, printed) = (at(rule, least * 2.0), least * 2.0 * heads);
        source.near("Test pressure at a high head, Pa", high, printed, exact)?;
    }
    near("own head", at(LeakRule::OwnHead, 4_000.0), 6_000.0, exact)?;
    let check = welding("T11.leaktest");
    let aircraft = LeakRule::LightAircraft.pressure(pa(9_000.0));
    expect(
        &check,
        "p_max_kPa",
        aircraft.in_unit(PressureUnit::Kilopascal),
    )?;
    expect(&check, "p_max_psi", aircraft.in_unit(PressureUnit::Psi))?;
    // US Coast Guard, boatbuilder's handbook, static pressure test: at least 5 minutes, and one for every 10
    // gallons or part of them past 50.
    for (gallons, minutes) in [
        (5.0, 5.0),
        (50.0, 5.0),
        (50.1, 6.0),
        (60.0, 6.0),
        (75.0, 8.0),
    ] {
        let got = hold(Volume::new(gallons, VolumeUnit::UsGallon));
        from_memory("US Coast Guard, boatbuilder's handbook, static pressure test").near(
            &format!("Test of {gallons} US gal, min"),
            got.in_unit(TimeUnit::Minute),
            minutes,
            exact,
        )?;
    }
    Ok(())
}

fn day_tank() -> Vessel {
    Vessel {
        volume: litres(60.0),
        compliance: Compliance::RIGID,
        height: mm(300.0),
        head: mm(1_200.0),
        panel: Area::new(0.24, AreaUnit::SquareMetre),
        weakest: pa(40_000.0),
        weakest_wall: None,
        weakest_seam: None,
        density: 840.0,
        keep_dry: true,
    }
}

/// A day tank for diesel under each rule; figures by hand from the rule and ρ g h.
#[test]
fn a_tank_under_each_rule() -> Outcome {
    let tank = day_tank();
    let plan = |rule| tank.plan(rule, pa(ATMOSPHERE), None);
    let boat = plan(LeakRule::BoatFuelUs)?;
    assert_eq!(
        (boat.method, boat.reason),
        (Method::AirSoap, MethodReason::RuleGas)
    );
    near(
        "3 psi",
        boat.pressure.si(),
        20_684.27,
        Tolerance::relative(1e-6),
    )?;
    near(
        "force",
        boat.force.si(),
        20_684.27 * 0.24,
        Tolerance::relative(1e-6),
    )?;
    let integral = plan(LeakRule::IntegralDieselUs)?;
    assert_eq!(integral.reason, MethodReason::RuleWater);
    // 35 kPa exactly are 3.569 m of water over the lowest point; the regulation rounds to 3.5 m of standpipe.
    near(
        "pipe",
        integral.water_level.si(),
        3.569,
        Tolerance::relative(1e-3),
    )?;
    near(
        "full",
        integral.water.si(),
        60.0,
        Tolerance::relative(1e-12),
    )?;
    let own = plan(LeakRule::OwnHead)?;
    assert_eq!(
        (own.method, own.reason),
        (Method::WaterHead, MethodReason::WaterSafest)
    );
    near(
        "1.5 heads",
        own.pressure.si(),
        1.5 * 840.0 * 9.806_65 * 1.2,
        Tolerance::relative(1e-9),
    )?;
    let aircraft = plan(LeakRule::LightAircraft)?;
    near(
        "1/2 psi",
        aircraft.pressure.si(),
        3_447.4,
        Tolerance::relative(1e-4),
    )?;
    // Nothing passes what the weakest panel takes: refused, or for the aircraft rule's most, less.
    let weak = Vessel {
        weakest: pa(3_000.0),
        ..tank
    };
    for rule in LeakRule::ALL {
        match weak.plan(rule, pa(ATMOSPHERE), None) {
            Ok(plan) => {
                assert_eq!(rule, LeakRule::LightAircraft);
                assert!(plan.pressure <= weak.weakest && plan.relief <= weak.weakest);
            }
            Err(error) => assert!(matches!(error, LeakError::TooWeak(_)), "{error}"),
        }
    }
    Ok(())
}

/// A gauge is chosen where it shows the leak in time, by `min-time`'s law, and not where it does not.
#[test]
fn a_gauge_only_where_it_is_quick_enough() -> Outcome {
    let tank = Vessel {
        volume: litres(50.0),
        ..day_tank()
    };
    let air = kelvins(293.15);
    let sought = |leak| Sought {
        leak: LeakRate::from_throughput(leak, air),
        instruments: gauge_only(10.0),
        temperature: air,
    };
    // 5000 s, over an hour.
    let slow = tank.plan(LeakRule::OwnHead, pa(ATMOSPHERE), Some(&sought(1e-3)))?;
    assert_eq!(
        (slow.method, slow.reason),
        (Method::WaterHead, MethodReason::TooSlow)
    );
    near(
        "slow",
        slow.decay.unwrap().si(),
        5_000.0,
        Tolerance::relative(1e-9),
    )?;
    let quick = tank.plan(LeakRule::OwnHead, pa(ATMOSPHERE), Some(&sought(1e-2)))?;
    assert_eq!(
        (quick.method, quick.reason),
        (Method::PressureDecay, MethodReason::Figure)
    );
    near(
        "quick",
        quick.decay.unwrap().si(),
        500.0,
        Tolerance::relative(1e-9),
    )?;
    Ok(())
}

/// The three verdicts: the uncertainty of each figure by hand, twice 10 Pa in the difference of two readings that are good to
/// 10 Pa.
#[test]
fn verdicts() -> Outcome {
    let air = kelvins(293.15);
    let test = |fall: f64| {
        let readings = [
            reading(0.0, 20_000.0, 293.15, ATMOSPHERE),
            reading(1_000.0, 20_000.0 - fall, 293.15, ATMOSPHERE),
        ];
        Leak::of(
            litres(10.0),
            Compliance::RIGID,
            &readings,
            &gauge_only(10.0),
        )
    };
    let unsure = 0.010 / 1_000.0 * 2.0 * 10.0;
    let got = test(100.0)?.uncertainty.throughput(air);
    near("uncertainty", got, unsure, Tolerance::relative(1e-12))?;
    // 10 L in 1000 s: each pascal is 1e-5 Pa·m³/s, the uncertainty 20 of them; allowed are 100.
    let allowed = LeakRate::from_throughput(1e-3, air);
    let verdict = |fall| test(fall)?.judge(allowed).map(LeakVerdict::text);
    assert_eq!(verdict(0.0)?, "tight");
    assert_eq!(verdict(79.0)?, "tight");
    assert_eq!(verdict(81.0)?, "cannot tell: test for longer");
    assert_eq!(verdict(119.0)?, "cannot tell: test for longer");
    assert_eq!(verdict(121.0)?, "leaks");
    assert_eq!(verdict(-19.0)?, "tight");
    assert_eq!(verdict(-21.0)?, "cannot tell: it seems to gain air");
    // 4 Pa from the limit, so 20 / 4 as long.
    let longer = test(96.0)?.time_to_tell(allowed).unwrap();
    near(
        "longer",
        longer.si(),
        20.0 / 4.0 * 1_000.0,
        Tolerance::relative(1e-3),
    )?;
    assert_eq!(test(100.0)?.time_to_tell(allowed), None);
    Ok(())
}

/// Messages name the reading or the pour, the value and the limit.
#[test]
fn messages_name_reading_value_and_limit() {
    use seamwright_core::capacity::{Pair, calibrate};
    let readings = [
        reading(0.0, 20_000.0, 293.15, ATMOSPHERE),
        reading(60.0, 19_900.0, 293.15, ATMOSPHERE),
        reading(60.0, 19_900.0, 293.15, ATMOSPHERE),
    ];
    let error = Leak::of(litres(6.0), Compliance::RIGID, &readings, &gauge_only(10.0)).unwrap_err();
    assert_eq!(
        error.to_string(),
        "reading 3, time: 60.0 s is out of range: it must be above 60.0 s"
    );
    let error = day_tank()
        .plan(LeakRule::BoatFuelUs, pa(101.325), None)
        .unwrap_err();
    assert_eq!(
        error.to_string(),
        "the barometer is 0.1013 kPa: it must be at least 50.00 kPa; read it at the height of the shop, not reduced to the sea"
    );
    let pairs = [[2.0, 2.0], [2.1, 2.2], [5.0, 5.0]].map(|[model, measured]| Pair {
        model: litres(model),
        measured: litres(measured),
    });
    assert_eq!(
        calibrate(&pairs, litres(8.0)).unwrap_err().to_string(),
        "pour 2 is too close to the one before, by the model: 2.100 L is out of range: it must be at least 2.160 L"
    );
}

/// `T11.ozone`: HSE OC 668/17, short-term limit in the text of the caution.
#[test]
pub(super) fn ozone_limit_of_the_caution() -> Outcome {
    let check = welding("T11.ozone");
    let limit = format!("{} ppm over 15 minutes", expected(&check, "STEL_ppm")?);
    let said = seamwright_core::advice::caution::Caution::OzoneFume.whole();
    let at = said.find(" ppm").unwrap_or_default();
    let from = said[..at].rfind(' ').map_or(0, |space| space + 1);
    let ours = said[from..].get(..limit.len()).unwrap_or_default();
    source(&check)?.says(&figure(&check, "STEL_ppm")?, &limit, ours, ours == limit)?;
    Ok(())
}
