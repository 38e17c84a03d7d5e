use super::*;
use crate::input::Face;
use crate::strength::Compliance;
use crate::units::constant::WATER;
use crate::units::{
    Area, Figure, Length, Pressure, Temperature, TemperatureUnit, Time, Volume, VolumeUnit,
};

const OUTSIDE: Pressure = Pressure::from_pascals(101_325.0);
const AIR: Temperature = Temperature::new(20.0, TemperatureUnit::Celsius);

fn pa(value: f64) -> Pressure {
    Pressure::from_pascals(value)
}

fn litres(value: f64) -> Volume {
    Volume::new(value, VolumeUnit::Litre)
}

fn metres(value: f64) -> Length {
    Length::from_metres(value)
}

fn instruments() -> Instruments {
    Instruments::new(pa(10.0), 0.1, pa(10.0)).unwrap()
}

fn reading(seconds: f64, gauge: f64) -> Reading {
    Reading {
        time: Time::from_seconds(seconds),
        gauge: pa(gauge),
        temperature: AIR,
        barometer: OUTSIDE,
    }
}

const VESSEL: Vessel = Vessel {
    volume: Volume::from_cubic_metres(0.02),
    compliance: Compliance::RIGID,
    height: Length::from_metres(0.2),
    head: Length::from_metres(0.25),
    panel: Area::from_square_metres(0.1),
    weakest: Pressure::from_pascals(30_000.0),
    weakest_wall: Some(Face::Front),
    weakest_seam: None,
    density: 750.0,
    keep_dry: true,
};

#[test]
fn a_low_tank_for_fuel_stays_dry_and_any_other_gets_water() {
    let plan = |vessel: Vessel| vessel.plan(LeakRule::OwnHead, OUTSIDE, None).unwrap();
    let dry = plan(VESSEL);
    assert_eq!(
        (dry.method, dry.reason),
        (Method::AirSoap, MethodReason::LowAndDry)
    );
    assert!(libm::fabs(dry.relief.si() / dry.pressure.si() - 1.1) < 1e-12);
    // The relief valve opens no later than the weakest panel lets it.
    let weak = Vessel {
        weakest: pa(dry.pressure.si() * 1.05),
        ..VESSEL
    };
    let weak = plan(weak);
    assert!(weak.relief == pa(dry.pressure.si() * 1.05));
    let of_wall = PressureLimit::WeakestWall(Some(Face::Front));
    assert_eq!(
        (weak.pressure_limit, weak.relief_limit),
        (PressureLimit::RuleHeads, of_wall)
    );
    assert_eq!(dry.relief_limit, PressureLimit::OverTest);
    let wet = plan(Vessel {
        keep_dry: false,
        ..VESSEL
    });
    assert_eq!(
        (wet.method, wet.reason),
        (Method::WaterHead, MethodReason::WaterSafest)
    );
    // 1.5 heads of a light fuel are less than the tank full of water, and then it is the water that counts.
    let light = plan(Vessel {
        keep_dry: false,
        density: 500.0,
        head: metres(0.2),
        ..VESSEL
    });
    assert!(light.pressure == pressure_under(metres(0.2), WATER));
    assert_eq!(light.pressure_limit, PressureLimit::FullOfWater);
    assert!(libm::fabs(light.water_level.si() - 0.2) < 1e-12);
}

#[test]
fn a_pressure_says_which_of_its_limits_set_it() {
    use PressureLimit as By;
    let set = |rule, vessel: Vessel| vessel.plan(rule, OUTSIDE, None).unwrap().pressure_limit;
    // 3 psi, 20.7 kPa, against 1.5 heads of 0.25 m and of 2 m of petrol, 2.8 and 22 kPa.
    assert_eq!(set(LeakRule::BoatFuelUs, VESSEL), By::RuleFigure);
    let high = Vessel {
        head: metres(2.0),
        ..VESSEL
    };
    assert_eq!(set(LeakRule::BoatFuelUs, high), By::RuleHeads);
    // Half a psi, 3.45 kPa, is a most.
    assert_eq!(set(LeakRule::LightAircraft, VESSEL), By::RuleFigure);
    let weak = Vessel {
        weakest: pa(3_000.0),
        ..VESSEL
    };
    let wall = By::WeakestWall(Some(Face::Front));
    assert_eq!(set(LeakRule::LightAircraft, weak), wall);
    let plan = weak.plan(LeakRule::LightAircraft, OUTSIDE, None).unwrap();
    assert!(plan.pressure == weak.weakest && plan.relief == weak.weakest);
    assert_eq!(plan.relief_limit, wall);
}

#[test]
fn refuses_what_would_hurt() {
    let plan = |vessel: Vessel, rule| vessel.plan(rule, OUTSIDE, None);
    // The full tank of water alone is too much for its weakest panel.
    let weak = Vessel {
        keep_dry: false,
        weakest: pa(1_900.0),
        density: 500.0,
        head: metres(0.2),
        ..VESSEL
    };
    assert!(matches!(
        plan(weak, LeakRule::OwnHead),
        Err(LeakError::TooWeak(_))
    ));
    // 1.5 heads of 4 m of petrol, in air, as the rule for boats would have it.
    let high = Vessel {
        head: metres(4.0),
        weakest: pa(60_000.0),
        ..VESSEL
    };
    assert!(matches!(
        plan(high, LeakRule::BoatFuelUs),
        Err(LeakError::TooMuchAir(_))
    ));
    // 3 psi of air in 10 m3 store more than 100 kJ.
    let large = Vessel {
        volume: Volume::from_cubic_metres(10.0),
        ..VESSEL
    };
    assert!(matches!(
        plan(large, LeakRule::BoatFuelUs),
        Err(LeakError::TooMuchEnergy(_))
    ));
    for (vessel, what) in [
        (
            Vessel {
                volume: litres(0.0),
                ..VESSEL
            },
            Figure::Volume,
        ),
        (
            Vessel {
                volume: litres(f64::NAN),
                ..VESSEL
            },
            Figure::Volume,
        ),
        (
            Vessel {
                volume: litres(f64::INFINITY),
                ..VESSEL
            },
            Figure::Volume,
        ),
        (
            Vessel {
                height: metres(0.0),
                ..VESSEL
            },
            Figure::InsideHeight,
        ),
        (
            Vessel {
                head: metres(0.1),
                ..VESSEL
            },
            Figure::OverflowHead,
        ),
        (
            Vessel {
                head: metres(f64::NAN),
                ..VESSEL
            },
            Figure::OverflowHead,
        ),
        (
            Vessel {
                panel: Area::from_square_metres(0.0),
                ..VESSEL
            },
            Figure::LargestPanel,
        ),
        (
            Vessel {
                weakest: pa(0.0),
                ..VESSEL
            },
            Figure::WeakestWall,
        ),
    ] {
        match plan(vessel, LeakRule::OwnHead) {
            Err(LeakError::Range(past)) => assert_eq!(past.figure, what),
            other => panic!("{other:?}"),
        }
    }
    let heavy = Vessel {
        density: f64::NAN,
        ..VESSEL
    };
    assert!(matches!(
        plan(heavy, LeakRule::OwnHead),
        Err(LeakError::Range(past)) if past.figure == Figure::Density
    ));
}

#[test]
fn refuses_instruments_and_leaks_that_say_nothing() {
    assert!(Instruments::new(pa(0.0), 0.0, pa(0.0)).is_err());
    assert!(Instruments::new(pa(10.0), -0.1, pa(0.0)).is_err());
    assert!(Instruments::new(pa(10.0), 0.0, pa(f64::NAN)).is_err());
    let air = Decay::new(litres(6.0), pa(10_000.0), OUTSIDE, AIR).unwrap();
    let none = LeakRate::from_moles(0.0);
    let leak = LeakRate::from_moles(1e-8);
    let see = |leak, measure| air.time_to_see(leak, &instruments(), measure);
    assert_eq!(see(none, 10.0).unwrap_err().figure, Figure::LeakRate);
    assert_eq!(see(leak, 0.5).unwrap_err().figure, Figure::Measure);
    assert!(see(leak, 10.0).is_ok());
    assert!(StoredEnergy::new(litres(6.0), pa(-1.0), OUTSIDE).is_err());
    assert!(StoredEnergy::new(litres(6.0), pa(2e6), OUTSIDE).is_err());
}

#[test]
fn names_the_reading_that_is_wrong() {
    use ReadingError as E;
    let of =
        |readings: &[Reading]| Leak::of(litres(6.0), Compliance::RIGID, readings, &instruments());
    let good = [
        reading(0.0, 2e4),
        reading(60.0, 1.9e4),
        reading(120.0, 1.8e4),
    ];
    assert!(of(&good).is_ok());
    let with = |change: fn(&mut Reading)| {
        let mut readings = good;
        change(&mut readings[1]);
        of(&readings).unwrap_err()
    };
    assert!(matches!(of(&good[..1]), Err(E::Count(_))));
    assert!(matches!(of(&[]), Err(E::Count(_))));
    assert!(matches!(of(&[good[0]; 1_001]), Err(E::Count(_))));
    let nothing = Leak::of(litres(0.0), Compliance::RIGID, &good, &instruments());
    assert!(matches!(nothing, Err(E::Volume(_))));
    let wrong = with(|r| r.time = Time::from_seconds(0.0));
    assert!(matches!(wrong, E::Time { reading: 2, .. }));
    let wrong = with(|r| r.time = Time::from_seconds(f64::NAN));
    assert!(matches!(wrong, E::Time { reading: 2, .. }));
    let wrong = with(|r| r.gauge = pa(-5.0));
    assert!(matches!(wrong, E::Gauge { reading: 2, .. }));
    let wrong = with(|r| r.gauge = pa(0.0));
    assert!(matches!(wrong, E::Gauge { reading: 2, .. }));
    let wrong = with(|r| r.temperature = Temperature::from_kelvins(20.0));
    assert!(matches!(wrong, E::Temperature { reading: 2, .. }));
    let wrong = with(|r| r.barometer = pa(1_013.25));
    assert!(matches!(wrong, E::Barometer { reading: 2, .. }));
    let leak = of(&good).unwrap();
    assert!(matches!(
        leak.judge(LeakRate::default()),
        Err(E::Allowed(_))
    ));
}

#[test]
fn scatter_that_no_instrument_explains_counts() {
    let steady = [2e4, 1.99e4, 1.98e4, 1.97e4];
    let jumping = [2e4, 1.985e4, 1.985e4, 1.97e4];
    let of = |gauge: [f64; 4]| {
        let mut time = 0.0;
        let readings = gauge.map(|gauge| {
            time += 600.0;
            reading(time, gauge)
        });
        let fine = Instruments::new(pa(1.0), 0.0, pa(0.0)).unwrap();
        Leak::of(litres(6.0), Compliance::RIGID, &readings, &fine).unwrap()
    };
    let (steady, jumping) = (of(steady), of(jumping));
    assert!(!steady.scattered && jumping.scattered);
    assert!(jumping.uncertainty > steady.uncertainty);
}

#[test]
fn a_pressure_that_falls_by_more_than_a_tenth_makes_an_average() {
    let of = |last: f64| {
        let readings = [reading(0.0, 2e4), reading(600.0, last)];
        Leak::of(litres(6.0), Compliance::RIGID, &readings, &instruments()).unwrap()
    };
    let (little, much) = (of(1.9e4), of(1.7e4));
    assert!((little.gauge_change.si() - 0.05).abs() < 1e-12 && !little.is_average());
    assert!((much.gauge_change.si() - 0.15).abs() < 1e-12 && much.is_average());
}

/// What is read to a step is known to half of it.
#[test]
fn instruments_by_their_steps() {
    let stepped = Instruments::of_steps(pa(100.0), 0.5, pa(60.0)).unwrap();
    assert_eq!(stepped, Instruments::new(pa(50.0), 0.5, pa(30.0)).unwrap());
    let near = (stepped.gauge(), stepped.kelvins(), stepped.barometer());
    assert_eq!(near, (pa(50.0), 0.5, pa(30.0)));
}
