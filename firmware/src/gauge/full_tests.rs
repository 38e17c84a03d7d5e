//! The fuller pages on a gauge: what stays, what goes, and what its pixels depend on.

use std::vec::Vec as List;

use seamwright_core::input::{Draft, Shape};
use seamwright_core::strength::Trial;
use seamwright_core::tables::Liquid;
use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, LengthUnit, Pressure};

use super::{Gauge, Scene, Screen, View};
use crate::bench::{box_job, mm, press};
use crate::buttons::Button::{Down, Left, Right, Select, Up};
use crate::buttons::Event;
use crate::frame::Frame;
use crate::page::Page;
use crate::pen::Faults;

/// The box for petrol, so that its test is one with air; of this height over its sheet.
fn fuel(name: &str, height: f64) -> Draft {
    let mut job = box_job(name);
    let Shape::Block(block) = &mut job.shape else {
        panic!("a box is a block");
    };
    block.height = mm(height);
    job.fill.liquid = Some(Liquid::Petrol);
    job
}

/// Until the page is worked out, in no time.
fn settle(gauge: &mut Gauge) {
    while gauge.is_working() {
        assert!(gauge.tick(0));
        shown(gauge);
    }
}

fn turn_to(gauge: &mut Gauge, page: Page) {
    for _ in Page::ALL {
        if gauge.screen() == Screen::Page(page) {
            settle(gauge);
            return;
        }
        press(gauge, &[Right]);
    }
    panic!("{page:?} is not there");
}

fn at(page: Page, job: &Draft) -> Gauge {
    let mut gauge = Gauge::new();
    gauge.keep(job).unwrap();
    press(&mut gauge, &[Select]);
    turn_to(&mut gauge, page);
    gauge
}

fn shown(gauge: &Gauge) -> Frame {
    let mut frame = Frame::new();
    let Ok(faults) = gauge.draw(&mut frame);
    assert_eq!(faults, Faults::default());
    frame
}

fn scene(gauge: &Gauge) -> Scene {
    let work = gauge.work().unwrap();
    let site = work.found().site(work.tank(), gauge.units()).unwrap();
    work.found().test().scene(&site)
}

fn names_none(scene: &Scene) -> bool {
    matches!(
        scene,
        Scene::Choose(..) | Scene::Refused(_) | Scene::Caution(..) | Scene::Wait
    )
}

/// Numbers that look random and are the same in every run (xorshift).
fn dice(mut seed: u64) -> impl FnMut(u64) -> u64 {
    move |sides| {
        seed ^= seed << 13;
        seed ^= seed >> 7;
        seed ^= seed << 17;
        (seed >> 11) % sides
    }
}

fn any_event(roll: &mut impl FnMut(u64) -> u64) -> Event {
    match roll(8) {
        0 => Event::Press(Up),
        1 => Event::Repeat(Down),
        2 | 3 => Event::Press(Down),
        _ => Event::Press(Select),
    }
}

/// Two tanks of other heights have other pressures. What is shown before the cautions are acknowledged must not know
/// them, so that it is the same picture for both.
#[test]
fn until_the_cautions_are_acknowledged_the_pixels_know_no_pressure() {
    let mut differed = 0;
    for seed in 1..30 {
        let mut roll = dice(seed * 7_919);
        let mut low = at(Page::Leak, &fuel("a", 104.0));
        let mut high = at(Page::Leak, &fuel("a", 150.0));
        for _ in 0..120 {
            let event = any_event(&mut roll);
            low.handle(event);
            high.handle(event);
            let (a, b) = (scene(&low), scene(&high));
            if names_none(&a) && names_none(&b) {
                assert_eq!(shown(&low).rows(), shown(&high).rows(), "{a:?} and {b:?}");
            } else if shown(&low).rows() != shown(&high).rows() {
                differed += 1;
            }
        }
    }
    assert!(differed > 50, "pressures were named at last: {differed}");
}

#[test]
fn the_same_events_and_times_give_the_same_pixels_whenever_the_clock_began() {
    let run = |begun: u64| {
        let mut roll = dice(20_261);
        let mut gauge = at(Page::Leak, &fuel("a", 104.0));
        let mut clock = begun;
        let mut frames = List::new();
        gauge.tick(clock);
        for _ in 0..400 {
            clock = clock.wrapping_add(roll(9_000));
            gauge.tick(clock);
            gauge.handle(any_event(&mut roll));
            frames.push(*shown(&gauge).rows());
        }
        frames
    };
    let frames = run(0);
    for begun in [
        1 << 16,
        (1 << 31) - 5_000,
        (1 << 32) - 5_000,
        (1 << 53) - 5_000,
        u64::MAX - 5_000,
    ] {
        assert!(run(begun) == frames, "from {begun}");
    }
}

#[test]
fn a_tick_that_tells_of_no_change_made_none() {
    let mut roll = dice(7);
    let mut gauge = at(Page::Leak, &fuel("a", 104.0));
    let (mut clock, mut told) = (0, 0);
    gauge.tick(clock);
    for _ in 0..2_000 {
        gauge.handle(any_event(&mut roll));
        let before = shown(&gauge);
        clock += roll(700);
        if gauge.tick(clock) {
            told += 1;
        } else {
            assert_eq!(shown(&gauge).rows(), before.rows(), "{:?}", scene(&gauge));
        }
    }
    assert!(told > 10, "time was seen: {told}");
}

/// To the timer with one reading.
fn begun(gauge: &mut Gauge) {
    press(gauge, &[Select, Down, Select]);
    for _ in 0..40 {
        match scene(gauge) {
            Scene::Watch(View::Timer) => return,
            // The finest instruments, or the plan is to look.
            Scene::Ask(_) => press(gauge, &[Down, Down, Down, Down, Select]),
            _ => press(gauge, &[Select]),
        }
    }
    panic!("{:?}", scene(gauge));
}

#[test]
fn a_test_goes_on_while_pages_are_turned_and_the_job_is_left() {
    let mut gauge = Gauge::new();
    for name in ["a", "b"] {
        let mut job = fuel(name, 104.0);
        job.name = name.try_into().unwrap();
        gauge.keep(&job).unwrap();
    }
    press(&mut gauge, &[Select]);
    turn_to(&mut gauge, Page::Leak);
    gauge.tick(1_000);
    begun(&mut gauge);
    press(&mut gauge, &[Left, Left, Right, Right]);
    assert!(matches!(scene(&gauge), Scene::Watch(View::Timer)));
    gauge.handle(Event::Hold);
    // Time goes on in the list, where nothing shows it.
    assert!(!gauge.tick(61_000));
    press(&mut gauge, &[Select]);
    turn_to(&mut gauge, Page::Leak);
    assert!(matches!(scene(&gauge), Scene::Watch(View::Timer)));
    let test = |gauge: &Gauge| {
        let test = gauge.work().unwrap().found().test().clone();
        (test.readings().len(), test.watch().seconds())
    };
    assert_eq!(test(&gauge), (1, 60));

    // The other job has none, and then the first has none either.
    gauge.handle(Event::Hold);
    press(&mut gauge, &[Up, Select]);
    turn_to(&mut gauge, Page::Leak);
    assert!(matches!(scene(&gauge), Scene::Choose(..)));
    assert_eq!(test(&gauge), (0, 0));
    begun(&mut gauge);
    // Sent anew it is another tank.
    let mut anew = fuel("a", 120.0);
    anew.name = "a".try_into().unwrap();
    gauge.keep(&anew).unwrap();
    turn_to(&mut gauge, Page::Leak);
    assert!(matches!(scene(&gauge), Scene::Choose(..)));
}

#[test]
fn held_select_leaves_at_any_point() {
    let mut roll = dice(99);
    for _ in 0..40 {
        let mut gauge = at(Page::Leak, &fuel("a", 104.0));
        for _ in 0..roll(40) {
            gauge.handle(any_event(&mut roll));
        }
        gauge.handle(Event::Hold);
        assert_eq!(gauge.screen(), Screen::Jobs);
    }
}

#[test]
fn the_weakest_panel_comes_first_and_is_the_tank_s_own() {
    let job = box_job("a");
    let gauge = at(Page::Strength, &job);
    let found = gauge.work().unwrap();
    let panels = found.found().panels();
    let tank = Tank::build(&job).unwrap();
    let weakest = tank.weakest(Trial::Use).unwrap();
    let (face, borne) = &panels[0];
    assert_eq!(*face, weakest.face);
    let reserve = borne.as_ref().unwrap().reserve;
    assert_eq!(reserve.to_bits(), weakest.reserve.to_bits());
    let reserves: List<f64> = panels
        .iter()
        .map(|(_, borne)| borne.as_ref().unwrap().reserve)
        .collect();
    assert!(reserves.is_sorted(), "{reserves:?}");
    assert_eq!(panels.len(), tank.bearings(Trial::Use).count());
}

#[test]
fn a_box_weighs_its_sheet_and_its_water() {
    // 304 x 204 x 104 mm over 2 mm sheet of 2660 kg/m³ (EN 573 family, as `stock` has it), and 300 x 200 x 100 mm of
    // water of 1000 kg/m³: by hand.
    let gauge = at(Page::Mass, &box_job("a"));
    let work = gauge.work().unwrap();
    let masses = work.found().masses().unwrap();
    let density = work.tank().job().alloy().density();
    let sheet = (0.304 * 0.204 * 0.104 - 0.3 * 0.2 * 0.1) * density;
    let [empty, _, full] = masses.states.map(|state| state.unwrap());
    assert!(libm::fabs(empty.mass.si() - sheet) < 1e-9);
    assert!(libm::fabs(full.mass.si() - sheet - 6.0) < 1e-6);
    let centre = empty.centre.unwrap();
    assert!(libm::fabs(centre.x - 0.152) < 1e-9 && libm::fabs(centre.z - 0.052) < 1e-9);
    assert!(masses.mounts.is_none());
}

#[test]
fn four_mounts_at_the_corners_share_a_level_box_alike() {
    let mut job = box_job("a");
    for at in [[0.0, 0.0], [304.0, 0.0], [0.0, 204.0], [304.0, 204.0]] {
        let [x, y] = at.map(|value| Length::new(value, LengthUnit::Millimetre));
        job.service.mounts.push([x, y, mm(0.0)]).unwrap();
    }
    let gauge = at(Page::Mass, &job);
    let work = gauge.work().unwrap();
    let masses = work.found().masses().unwrap();
    let full = masses.states[2].unwrap().mass.si();
    let mounts = masses.mounts.unwrap().unwrap();
    // A quarter of its weight, at 9.80665 m/s² (ISO 80000-3, from memory).
    let quarter = full * 9.806_65 / 4.0;
    assert!(libm::fabs(mounts.heaviest.1 / quarter - 1.0) < 1e-6);
    assert!(mounts.lifts.is_none());
}

#[test]
fn what_was_found_is_worked_out_once_and_goes_with_its_job() {
    let mut gauge = at(Page::Strength, &box_job("a"));
    let first = gauge.work().unwrap().found().panels().len();
    assert!(first > 0);
    press(&mut gauge, &[Down, Down]);
    assert_eq!(gauge.work().unwrap().found().panel().piece, 2);
    let mut thick = box_job("a");
    thick.stock.thickness = mm(3.0);
    gauge.keep(&thick).unwrap();
    let found = gauge.work().unwrap();
    assert!(found.found().panels().is_empty());
    assert_eq!(found.found().panel().piece, 0);
    turn_to(&mut gauge, Page::Strength);
    assert_eq!(gauge.work().unwrap().found().panels().len(), first);
}

/// Worked out piece by piece it is what the core works out at once, and what it says of seams at another pressure.
#[test]
fn a_leak_test_knows_the_tank_s_own_vessel_and_its_weakest_seam() {
    let job = fuel("a", 104.0);
    let gauge = at(Page::Leak, &job);
    let work = gauge.work().unwrap();
    let tank = Tank::build(&job).unwrap();
    let site = work.found().site(work.tank(), gauge.units()).unwrap();
    assert_eq!(*site.vessel, tank.vessel(None));
    let weak = site.seam.unwrap().unwrap();
    for pressure in [500.0, 20_000.0].map(Pressure::from_pascals) {
        let least = tank
            .seams()
            .filter_map(|seam| tank.seam_bearing(&seam, Trial::Test(pressure)))
            .map(|strength| strength.unwrap().reserve)
            .fold(f64::INFINITY, f64::min);
        let reserve = weak.bears.si() / pressure.si();
        assert!(
            libm::fabs(reserve / least - 1.0) < 1e-4,
            "{reserve} {least}"
        );
    }
}

#[test]
fn the_small_gauge_has_nothing_to_find() {
    let mut gauge = Gauge::plain();
    gauge.keep(&box_job("a")).unwrap();
    press(&mut gauge, &[Select]);
    for _ in Page::ALL {
        press(&mut gauge, &[Right, Up, Select]);
        assert!(!gauge.tick(123_456));
    }
    let found = gauge.work().unwrap();
    assert!(found.found().panels().is_empty() && found.found().masses().is_none());
}
