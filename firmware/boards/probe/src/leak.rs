//! The leak test of a tank, and what its readings say.

use core::hint::black_box;

use seamwright_core::leak::{
    Decay, Instruments, Leak, LeakRate, LeakRule, MEASURE, Reading, Sought, StoredEnergy, force,
    weighs,
};
use seamwright_core::strength::{Compliance, Trial};
use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, Pressure, Temperature, Time, Volume};

/// Reaches the plan of one tank's test by every rule, and its reading.
pub(crate) fn prove(tank: &Tank) {
    let outside = black_box(Pressure::from_pascals(101_325.0));
    let near = black_box(Pressure::from_pascals(50.0));
    let instruments = Instruments::new(near, black_box(0.2), near);
    let sought = instruments.ok().map(|instruments| Sought {
        leak: black_box(LeakRate::from_sccm(1.0)),
        instruments,
        temperature: air(),
    });
    let overflow = black_box(Some(Length::from_metres(0.4)));
    for rule in LeakRule::ALL {
        let rule = black_box(rule);
        let _ = black_box(tank.leak_plan(rule));
        if let Ok(plan) = tank.leak_plan_with(rule, overflow, outside, sought.as_ref()) {
            energy(tank, plan.pressure, outside);
            black_box(plan);
        }
    }
    if let Some(sought) = sought {
        decay(tank, outside, &sought);
        read(tank, &sought);
    }
}

fn air() -> Temperature {
    black_box(Temperature::from_kelvins(293.15))
}

fn energy(tank: &Tank, pressure: Pressure, outside: Pressure) {
    if let Ok(vessel) = tank.vessel(None) {
        if let Ok(stored) = StoredEnergy::new(vessel.volume, pressure, outside) {
            black_box((stored, stored.throws_kilogram()));
        }
        black_box(weighs(force(pressure, vessel.panel)));
    }
}

fn decay(tank: &Tank, outside: Pressure, sought: &Sought) {
    let gauge = black_box(Pressure::from_pascals(20_000.0));
    let decay = Decay::new(volume(tank), gauge, outside, sought.temperature);
    if let Ok(decay) = decay {
        black_box(decay.nearness(&sought.instruments));
        let _ = black_box(decay.time_to_see(sought.leak, &sought.instruments, MEASURE));
    }
}

fn volume(tank: &Tank) -> Volume {
    black_box(tank.inside().volume())
}

fn read(tank: &Tank, sought: &Sought) {
    let one = |seconds| {
        black_box(Reading {
            time: Time::from_seconds(seconds),
            gauge: Pressure::from_pascals(20_000.0),
            temperature: air(),
            barometer: Pressure::from_pascals(101_325.0),
        })
    };
    let readings = [0.0, 300.0, 600.0, 900.0].map(one);
    let some = readings.get(..black_box(3)).unwrap_or_default();
    let walls = tank.joined_walls(Trial::Test(black_box(Pressure::from_pascals(1_000.0))));
    let walls = walls.map_or(Compliance::RIGID, |walls| walls.compliance());
    if let Ok(leak) = Leak::of(volume(tank), walls, some, &sought.instruments) {
        let _ = black_box(leak.judge(sought.leak));
        black_box(leak.time_to_tell(sought.leak));
        black_box(leak);
    }
}
