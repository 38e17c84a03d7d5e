//! The state machine by itself: no pressure before the cautions, and verdicts against gas whose loss is known.

use std::vec::Vec as List;

use seamwright_core::advice::caution::{for_leak_test, for_liquid};
use seamwright_core::leak::{Doubt, LeakVerdict, Method, Vessel};
use seamwright_core::strength::Compliance;
use seamwright_core::strength::StrengthError;
use seamwright_core::tables::Liquid;
use seamwright_core::units::{
    Area, Length, Pressure, PressureUnit, Temperature, TemperatureUnit, Volume, VolumeUnit,
};

use super::super::scene::{Outcome, WeakSeam};
use super::*;
use crate::amount::Units;

/// A low tank of 20 L for petrol, which is kept dry: 1.5 of its heads make 2.76 kPa.
const DRY: Vessel = Vessel {
    volume: Volume::from_cubic_metres(0.02),
    compliance: Compliance::RIGID,
    height: Length::from_metres(0.2),
    head: Length::from_metres(0.25),
    panel: Area::from_square_metres(0.1),
    weakest: Pressure::from_pascals(30_000.0),
    weakest_wall: None,
    weakest_seam: None,
    density: 750.0,
    keep_dry: true,
};

const UP: Step = Step {
    up: true,
    coarse: false,
};
const DOWN: Step = Step {
    up: false,
    coarse: false,
};

/// A thumb on a test, with a clock that starts at zero.
struct Bench {
    test: LeakTest,
    vessel: Result<Vessel, StrengthError>,
    liquid: Option<Liquid>,
    units: Units,
    clock: u64,
}

impl Bench {
    fn new(vessel: Vessel, liquid: Option<Liquid>) -> Self {
        let mut test = LeakTest::new();
        test.tick(0);
        Self {
            test,
            vessel: Ok(vessel),
            liquid,
            units: Units::Metric,
            clock: 0,
        }
    }

    fn site(&self) -> Site<'_> {
        Site {
            vessel: &self.vessel,
            seam: Some(None),
            liquid: self.liquid,
            units: self.units,
        }
    }

    fn scene(&self) -> Scene {
        self.test.scene(&self.site())
    }

    fn select(&mut self) {
        let site = Site {
            vessel: &self.vessel,
            seam: Some(None),
            liquid: self.liquid,
            units: self.units,
        };
        self.test.select(&site);
    }

    fn step(&mut self, step: Step) {
        let site = Site {
            vessel: &self.vessel,
            seam: Some(None),
            liquid: self.liquid,
            units: self.units,
        };
        self.test
            .step(step, &site, |test| super::super::draw::parts(test, &site));
    }

    fn wait(&mut self, seconds: u64) {
        for _ in 0..seconds * 4 {
            self.clock += 250;
            self.test.tick(self.clock);
        }
    }

    /// Acknowledges whatever is in the way.
    fn understand(&mut self) {
        while let Scene::Caution(..) = self.scene() {
            self.select();
        }
    }
}

/// What must have been acknowledged by the lists of the core, whatever way the test went.
fn least(method: Method, way: Way, liquid: Option<Liquid>) -> List<Caution> {
    let mut all: List<Caution> = for_leak_test(method).collect();
    if way == Way::Measure {
        all.extend(for_leak_test(Method::PressureDecay));
    }
    all.extend(liquid.into_iter().flat_map(for_liquid));
    all
}

/// Whether a scene may name a pressure: each but those that hold none.
fn may_name_one(scene: &Scene) -> bool {
    !matches!(
        scene,
        Scene::Choose(..) | Scene::Refused(_) | Scene::Caution(..) | Scene::Wait
    )
}

/// Plays events, and after each insists that nothing that may name a pressure is shown before every caution was shown
/// and answered by a press since the test last began over.
fn play(bench: &mut Bench, events: impl Iterator<Item = u64>) -> usize {
    let mut answered: List<Caution> = List::new();
    let mut named = 0;
    for event in events {
        let before = bench.scene();
        match event {
            0 => bench.step(UP),
            1 => bench.step(DOWN),
            2 => bench.wait(7),
            _ => {
                if let Scene::Caution(caution, ..) = before {
                    answered.push(caution);
                }
                bench.select();
                if matches!(
                    before,
                    Scene::Watch(View::Over) | Scene::Seen(_, _, View::Over)
                ) {
                    answered.clear();
                }
            }
        }
        let scene = bench.scene();
        if may_name_one(&scene) {
            named += 1;
            let plan = bench.test.plan(&bench.site()).unwrap();
            for caution in least(plan.method, bench.test.way, bench.liquid) {
                assert!(answered.contains(&caution), "{caution:?} before {scene:?}");
            }
        }
    }
    named
}

#[test]
fn no_order_of_ten_presses_names_a_pressure_before_the_cautions() {
    let mut named = 0;
    for liquid in [None, Some(Liquid::Petrol)] {
        for keep_dry in [false, true] {
            for sequence in 0..3_u64.pow(10) {
                // Petrol needs six presses for its cautions alone: the random walk below goes further.
                if liquid.is_some() && sequence % 3 == 0 {
                    continue;
                }
                let vessel = Vessel { keep_dry, ..DRY };
                let mut bench = Bench::new(vessel, liquid);
                let events = (0..10).map(|place| match sequence / 3_u64.pow(place) % 3 {
                    2 => 3,
                    other => other,
                });
                named += play(&mut bench, events);
            }
        }
    }
    assert!(named > 1_000, "pressures came to be named: {named}");
}

#[test]
fn no_restless_thumb_names_a_pressure_before_the_cautions() {
    let mut seed = 20_261_u64;
    let mut roll = move |sides: u64| {
        seed ^= seed << 13;
        seed ^= seed >> 7;
        seed ^= seed << 17;
        (seed >> 11) % sides
    };
    let mut reached = List::new();
    for round in 0..300 {
        let vessel = Vessel {
            keep_dry: round % 2 == 0,
            ..DRY
        };
        let liquid = [None, Some(Liquid::Water), Some(Liquid::Diesel)][round % 3];
        let mut bench = Bench::new(vessel, liquid);
        // Half of the presses lead on.
        let events: List<u64> = (0..400).map(|_| roll(6)).collect();
        for event in events {
            let stage = bench.test.stage;
            if !reached.contains(&stage) {
                reached.push(stage);
            }
            one(&mut bench, event);
        }
    }
    assert_eq!(reached.len(), 9, "every stage: {reached:?}");
}

/// One event of a long walk, with what it must not show.
fn one(bench: &mut Bench, event: u64) {
    let open = |bench: &Bench| {
        let plan = bench.test.plan(&bench.site()).ok()?;
        least(plan.method, bench.test.way, bench.liquid)
            .into_iter()
            .find(|caution| !bench.test.has_acknowledged(*caution))
    };
    let (before, had) = (bench.scene(), bench.test.acknowledged);
    match event {
        0 => bench.step(UP),
        1 => bench.step(DOWN),
        2 => bench.wait(40),
        _ => bench.select(),
    }
    // Only a press on the caution itself acknowledges it, and each press one.
    let new = bench.test.acknowledged & !had;
    match before {
        Scene::Caution(caution, ..) if event > 2 => assert_eq!(new, bit(caution)),
        _ => assert_eq!(new, 0),
    }
    if may_name_one(&bench.scene()) {
        assert_eq!(open(bench), None);
    }
}

/// To the first reading of a test by gauge, with these presses down on the instruments.
fn begin(bench: &mut Bench, finer: [usize; 4]) {
    bench.select();
    bench.step(DOWN);
    bench.select();
    bench.understand();
    for (ask, presses) in Ask::ALL.into_iter().zip(finer) {
        assert!(matches!(bench.scene(), Scene::Ask(shown) if shown == ask));
        for _ in 0..presses {
            bench.step(DOWN);
        }
        bench.select();
        bench.understand();
    }
    let Scene::Plan(plan, Sheet::Pressure) = bench.scene() else {
        panic!("{:?}", bench.scene());
    };
    assert_eq!(plan.method, Method::PressureDecay);
    bench.select();
    assert!(matches!(bench.scene(), Scene::Ready(_)));
    bench.select();
}

/// Types a value by the steps of its instrument, as near as they go.
fn type_in(bench: &mut Bench, value: f64, shown: impl Fn(&Typed) -> f64) {
    let off = |bench: &Bench| shown(&bench.test.typed().0) - value;
    for _ in 0..10_000 {
        let before = off(bench);
        let step = if before < 0.0 { UP } else { DOWN };
        let (typed, _) = bench.test.typed();
        bench.step(step);
        if libm::fabs(off(bench)) >= libm::fabs(before) {
            // The step before was nearer.
            bench.test.typed = typed;
            return;
        }
    }
    panic!("{value} cannot be typed");
}

/// Gas in a tank: the state that instruments read, from the ideal gas law with a constant loss.
///
/// R is that of CODATA 2018, and a standard cubic centimetre that of 0 °C and 101 325 Pa (both from memory).
struct Gas {
    moles: f64,
    loss: f64,
    volume: f64,
}

const R: f64 = 8.314_462_618;

impl Gas {
    fn new(volume: f64, gauge: f64, sccm: f64) -> Self {
        Self {
            moles: (gauge + 101_300.0) * volume / (R * 293.15),
            loss: sccm * 1e-6 * 101_325.0 / (R * 273.15) / 60.0,
            volume,
        }
    }

    /// What the gauge reads after some seconds, the air at so many kelvins and the barometer at so many pascals.
    fn gauge(&self, seconds: f64, kelvins: f64, barometer: f64) -> f64 {
        (self.moles - self.loss * seconds) * R * kelvins / self.volume - barometer
    }
}

/// A whole test of a tank that loses so much: readings at these minutes, while the shop warms by a tenth of a kelvin
/// a minute and the barometer falls by 10 Pa a minute.
fn whole(sccm: f64, minutes: &[u64]) -> (Bench, Outcome) {
    let mut bench = Bench::new(DRY, Some(Liquid::Petrol));
    begin(&mut bench, [0, 3, 2, 3]);
    let gas = Gas::new(0.02, 2_760.0, sccm);
    for (place, minute) in minutes.iter().enumerate() {
        if place > 0 {
            bench.wait(minute * 60 - bench.clock / 1_000);
            assert!(matches!(bench.scene(), Scene::Watch(View::Timer)));
            bench.select();
        }
        let at = *minute as f64;
        let (kelvins, barometer) = (293.15 + 0.1 * at, 101_300.0 - 10.0 * at);
        let gauge = gas.gauge(60.0 * at, kelvins, barometer);
        // Someone who types is slow, and the reading is stamped when it was taken.
        bench.wait(20);
        type_in(&mut bench, gauge, |typed| typed.gauge.si());
        bench.select();
        type_in(&mut bench, kelvins, |typed| typed.temperature.si());
        bench.select();
        type_in(&mut bench, barometer, |typed| typed.barometer.si());
        bench.select();
        assert!(matches!(bench.scene(), Scene::Decide(Fate::Keep)));
        bench.select();
    }
    let outcome = bench.test.outcome(&bench.site()).unwrap().unwrap();
    (bench, outcome)
}

#[test]
fn a_tight_tank_is_tight_and_a_leaking_one_leaks() {
    // Sought are 10 sccm; the gauge alone would see the warming of the shop as a gain.
    for (loss, every, verdict) in [
        (1.0, 20, LeakVerdict::Tight),
        (25.0, 15, LeakVerdict::Leaks),
    ] {
        let (bench, outcome) = whole(loss, &[0, every, 2 * every]);
        assert_eq!(outcome.verdict, verdict, "{outcome:?}");
        let off = libm::fabs(outcome.leak.rate.sccm() - loss);
        assert!(
            off <= outcome.leak.uncertainty.sccm(),
            "{off} of {outcome:?}"
        );
        let stamps: List<f64> = bench.test.readings().iter().map(|r| r.time.si()).collect();
        let after = 60.0 * every as f64;
        assert_eq!(stamps, [0.0, after, 2.0 * after]);
    }
}

#[test]
fn what_cannot_be_told_yet_says_how_long_to_wait() {
    let (_, outcome) = whole(9.0, &[0, 2]);
    assert_eq!(outcome.verdict, LeakVerdict::CannotTell(Doubt::Unsure));
    let tells = outcome.tells.unwrap();
    assert!(tells.si() > outcome.leak.lasted.si());
    // A test of that length tells: 9 of 10 sccm with the same instruments.
    let minutes = libm::ceil(tells.si() * 1.3 / 60.0) as u64;
    let (_, outcome) = whole(9.0, &[0, minutes]);
    assert_eq!(outcome.verdict, LeakVerdict::Tight, "{outcome:?}");
}

#[test]
fn seams_are_called_tight_only_after_the_hold() {
    let mut bench = Bench::new(DRY, None);
    bench.select();
    bench.select();
    bench.understand();
    let Scene::Plan(plan, _) = bench.scene() else {
        panic!("{:?}", bench.scene());
    };
    assert_eq!(plan.method, Method::AirSoap);
    bench.select();
    bench.select();
    assert!(matches!(bench.scene(), Scene::Hold(_)));
    let hold = plan.hold.si() as u64;
    bench.wait(hold - 1);
    bench.select();
    for _ in 0..4 {
        bench.step(DOWN);
    }
    assert!(matches!(bench.scene(), Scene::Look(_, Seen::Leak)));
    bench.step(UP);
    bench.select();
    assert!(matches!(bench.scene(), Scene::Hold(_)), "looks on");
    bench.wait(1);
    bench.select();
    for _ in 0..4 {
        bench.step(DOWN);
    }
    assert!(matches!(bench.scene(), Scene::Look(_, Seen::Dry)));
    bench.select();
    assert!(matches!(
        bench.scene(),
        Scene::Seen(_, Seen::Dry, View::Verdict)
    ));
}

#[test]
fn a_reading_can_be_typed_again_or_dropped() {
    let mut bench = Bench::new(DRY, None);
    begin(&mut bench, [0, 3, 2, 3]);
    for _ in 0..3 {
        bench.select();
    }
    bench.step(DOWN);
    bench.wait(90);
    bench.select();
    assert!(matches!(bench.scene(), Scene::Type(_, Field::Gauge)));
    assert_eq!(bench.test.typed().1, 0, "its time stays");
    for _ in 0..4 {
        bench.select();
    }
    assert_eq!(bench.test.readings().len(), 1);
    bench.select();
    bench.step(UP);
    for _ in 0..3 {
        bench.select();
    }
    bench.step(DOWN);
    bench.step(DOWN);
    bench.select();
    assert_eq!(bench.test.readings().len(), 1);
    // The next starts from what was kept, not from what was dropped.
    bench.select();
    assert!(bench.test.typed().0 == Typed::of(&bench.test.readings()[0]));
}

#[test]
fn it_takes_as_many_readings_as_are_judged() {
    let mut bench = Bench::new(DRY, None);
    begin(&mut bench, [0, 3, 2, 3]);
    for _ in 0..MOST_READINGS {
        for _ in 0..4 {
            bench.select();
        }
        bench.wait(1);
        bench.select();
    }
    assert!(bench.test.is_full());
    assert!(matches!(bench.scene(), Scene::Watch(View::Timer)));
    let outcome = bench.test.outcome(&bench.site()).unwrap().unwrap();
    // Nothing changed, so nothing was lost.
    assert!(libm::fabs(outcome.leak.rate.sccm()) < 1e-9);
}

#[test]
fn while_seams_are_tried_nothing_is_put_under_pressure() {
    let mut bench = Bench::new(DRY, None);
    bench.select();
    bench.select();
    bench.understand();
    let site = Site {
        seam: None,
        ..bench.site()
    };
    assert!(matches!(bench.test.scene(&site), Scene::Wait));
    let mut test = bench.test.clone();
    test.select(&site);
    test.step(DOWN, &site, |_| 1);
    assert!(matches!(test.scene(&site), Scene::Wait));
    assert!(matches!(bench.scene(), Scene::Plan(_, Sheet::Pressure)));
}

#[test]
fn a_seam_too_weak_for_the_test_is_told_first() {
    let tank = seamwright_core::tank::Tank::build(&crate::bench::box_job("a")).unwrap();
    let mark = tank.seams().next().unwrap().mark;
    let mut bench = Bench::new(DRY, None);
    bench.select();
    bench.select();
    bench.understand();
    // The test asks for 2.76 kPa.
    for (bears, sheet) in [(2_000.0, Sheet::Seam), (3_000.0, Sheet::Pressure)] {
        let bears = Pressure::from_pascals(bears);
        let site = Site {
            seam: Some(Some(WeakSeam { mark, bears })),
            ..bench.site()
        };
        let scene = bench.test.scene(&site);
        assert!(matches!(scene, Scene::Plan(_, shown) if shown == sheet));
    }
}

#[test]
fn a_refusal_names_no_figure() {
    let weak = Vessel {
        weakest: Pressure::from_pascals(100.0),
        ..DRY
    };
    let mut bench = Bench::new(weak, None);
    bench.select();
    bench.select();
    let Scene::Refused(why) = bench.scene() else {
        panic!("{:?}", bench.scene());
    };
    assert!(!why.chars().any(|sign| sign.is_ascii_digit()), "{why}");
    bench.select();
    assert!(matches!(bench.scene(), Scene::Choose(..)));
    bench.vessel = Err(StrengthError::Unknown);
    bench.select();
    bench.select();
    assert!(matches!(bench.scene(), Scene::Refused(_)));
}

#[test]
fn a_test_that_begins_over_asks_for_its_cautions_anew() {
    let (mut bench, _) = whole(1.0, &[0, 10]);
    while !matches!(bench.scene(), Scene::Watch(View::Over)) {
        bench.step(DOWN);
    }
    bench.select();
    assert!(bench.test.readings().is_empty());
    assert_eq!(bench.test.watch().milliseconds(), 0);
    bench.select();
    bench.select();
    assert!(matches!(bench.scene(), Scene::Caution(_, 1, _)));
}

#[test]
fn instruments_stay_what_they_were_in_other_units() {
    let (mut bench, outcome) = whole(1.0, &[0, 10]);
    bench.units = Units::Inch;
    let again = bench.test.outcome(&bench.site()).unwrap().unwrap();
    assert!(again.leak == outcome.leak);
    let typed = bench.test.typed().0;
    assert!(typed.gauge > Pressure::new(0.1, PressureUnit::Psi));
    assert!(typed.temperature > Temperature::new(60.0, TemperatureUnit::Fahrenheit));
    assert!(Volume::new(20.0, VolumeUnit::Litre) == DRY.volume);
}
