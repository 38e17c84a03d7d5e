//! What only the full gauge has: its plans, and the fuller pages, of which is told here what stays, what goes, and what
//! its pixels depend on.

use std::vec::Vec as List;

use seamwright_core::input::{Draft, Shape};
use seamwright_core::leak::Vessel;
use seamwright_core::strength::Trial;
use seamwright_core::tables::Liquid;
use seamwright_core::tank::Tank;
use seamwright_core::units::{Length, LengthUnit, Pressure};
use seamwright_core::weld::WeldStep;

use super::tests::{order_page, plain_order, press, with_jobs};
use super::{Full, Gauge, Page, Pages, Screen};
use crate::bench::{box_job, mm};
use crate::buttons::Button::{Down, Left, Right, Select, Up};
use crate::buttons::Event;
use crate::frame::Frame;
use crate::page::leak::{Scene, View};
use crate::page::{Kind, Small};
use crate::pen::Faults;
use crate::work::Origin;

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
    let mut gauge = Gauge::<Full>::new();
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
    gauge.pages().leak.scene(&work).unwrap()
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
        let mut low = at(Page::Leak, &fuel("a", 120.0));
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
    let mut gauge = Gauge::<Full>::new();
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
        let test = gauge.pages().leak.test();
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
    let panels = gauge.pages().strength.panels();
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
    let masses = gauge.pages().mass.masses().unwrap();
    let density = work.tank().job().alloy().density().si();
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
    let masses = gauge.pages().mass.masses().unwrap();
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
    let first = gauge.pages().strength.panels().len();
    assert!(first > 0);
    press(&mut gauge, &[Down, Down]);
    assert_eq!(gauge.pages().strength.read().piece, 2);
    let mut thick = box_job("a");
    thick.stock.thickness = mm(3.0);
    gauge.keep(&thick).unwrap();
    let strength = &gauge.pages().strength;
    assert!(strength.panels().is_empty());
    assert_eq!(strength.read().piece, 0);
    turn_to(&mut gauge, Page::Strength);
    assert_eq!(gauge.pages().strength.panels().len(), first);
}

/// Worked out piece by piece it is what the core works out at once, and what it says of seams at another pressure.
#[test]
fn a_leak_test_knows_the_tank_s_own_vessel_and_its_weakest_seam() {
    let job = fuel("a", 104.0);
    let gauge = at(Page::Leak, &job);
    let work = gauge.work().unwrap();
    let tank = Tank::build(&job).unwrap();
    let site = gauge.pages().leak.site(&work).unwrap();
    let (vessel, own) = ((*site.vessel).unwrap(), tank.vessel(None).unwrap());
    // The walls were tried with another pressure, which leaves a last bit.
    let share = vessel.weakest.si() / own.weakest.si();
    assert!(libm::fabs(share - 1.0) < 1e-9, "{share}");
    let weakest = own.weakest;
    assert_eq!(Vessel { weakest, ..vessel }, own);
    let weak = site.seam.unwrap().unwrap();
    let least = |pressure: f64| {
        let pressure = Pressure::from_pascals(pressure);
        tank.seams()
            .filter_map(|seam| tank.seam_bearing(&seam, Trial::Test(pressure)))
            .map(|strength| strength.unwrap().reserve)
            .fold(f64::INFINITY, f64::min)
    };
    // At what the walls take it is what the core says; a sheet that stretches makes it less than a straight line below.
    let taken = own.weakest.si();
    let told = weak.bears.si() / taken;
    assert!(libm::fabs(told / least(taken) - 1.0) < 1e-3, "{told}");
    for pressure in [0.05 * taken, 0.5 * taken] {
        let (told, least) = (weak.bears.si() / pressure, least(pressure));
        assert!(
            (told < 1.0) == (least < 1.0) && told < 1.2 * least,
            "{told} {least}"
        );
    }
}

/// Its pages are pages of the full gauge to the pixel, but for the marks of the pages in their corner; neither time nor
/// thought changes anything there.
#[test]
fn the_small_gauge_shows_what_the_full_one_shows_and_finds_nothing() {
    let (mut small, mut full) = (with_jobs::<Small>(&["a"]), with_jobs::<Full>(&["a"]));
    press(&mut small, &[Select]);
    press(&mut full, &[Select]);
    let steps = plain_order(&small);
    small.add_steps(0, 0, &steps).unwrap();
    full.add_steps(0, 0, &steps).unwrap();
    for &page in Pages::<Small>::LIST {
        while full.screen() != Screen::Page(page) {
            press(&mut full, &[Right]);
        }
        // From a seam to its stitches and back.
        for button in [Down, Select, Up, Select, Down] {
            press(&mut small, &[button]);
            press(&mut full, &[button]);
            assert_eq!(small.screen(), full.screen());
            let (a, b) = (below_the_marks(&small), below_the_marks(&full));
            assert!(a == b, "{page:?} after {button:?}");
            assert!(!small.is_working() && !small.tick(123_456));
            assert!(!small.has_thoughts() && !small.think());
        }
        press(&mut small, &[Right]);
    }
}

/// What is shown under the line of the marks, and in that line before them.
fn below_the_marks<K: Kind>(gauge: &Gauge<K>) -> List<Option<u8>> {
    let mut frame = Frame::new();
    let Ok(faults) = gauge.draw(&mut frame);
    assert_eq!(faults, Faults::default());
    let seen = |x: u32, y: u32| y >= 9 || x < 80;
    let all = (0..64).flat_map(|y| (0..128).map(move |x| (x, y)));
    all.filter(|(x, y)| seen(*x, *y))
        .map(|(x, y)| frame.level(x, y))
        .collect()
}

#[test]
fn the_small_gauge_plans_no_order() {
    let mut gauge = with_jobs::<Small>(&["a"]);
    press(&mut gauge, &[Select]);
    order_page(&mut gauge);
    let before = below_the_marks(&gauge);
    for _ in 0..1_000 {
        assert!(!gauge.has_thoughts() && !gauge.think());
    }
    assert_eq!(gauge.work().unwrap().order().origin(), Origin::Sent);
    assert_eq!(gauge.work().unwrap().order().count(), 0);
    assert!(below_the_marks(&gauge) == before);
}

/// A job of more stitches than an order may have opens on either gauge; the page of the order says where that is, and does
/// not promise one, whatever is thought about it.
#[test]
fn a_job_of_too_many_stitches_is_shown_without_its_order() {
    let (mut small, mut full) = (with_jobs::<Small>(&["few"]), with_jobs::<Full>(&["few"]));
    let mut job = box_job("many");
    job.weld.stitch_max = Some(mm(5.0));
    small.keep(&job).unwrap();
    full.keep(&job).unwrap();
    press(&mut small, &[Up, Select]);
    order_page(&mut small);
    let none = below_the_marks(&small);
    small.handle(Event::Hold);
    press(&mut small, &[Down, Select]);
    assert_eq!(small.screen(), Screen::Page(Page::Tank));
    let count = small.work().unwrap().tank().totals().stitches;
    assert!(count as usize > WeldStep::MOST, "{count}");
    order_page(&mut small);
    let told = below_the_marks(&small);
    assert!(told != none);

    press(&mut full, &[Up, Down, Select]);
    order_page(&mut full);
    assert!(below_the_marks(&full) == told);
    while full.has_thoughts() {
        full.think();
    }
    assert!(below_the_marks(&full) == told);
    // The buttons find no stitch to show.
    press(&mut full, &[Down, Down]);
    assert!(below_the_marks(&full) == told && !full.has_thoughts());
}

#[test]
fn a_gauge_without_an_order_thinks_of_one() {
    use seamwright_core::weld::Progress;
    let mut gauge = with_jobs::<Full>(&["a", "b"]);
    assert!(!gauge.think() && !gauge.has_thoughts(), "nothing is open");
    press(&mut gauge, &[Up, Select]);
    order_page(&mut gauge);
    assert!(gauge.has_thoughts());
    let mut seen = List::new();
    let origin = |gauge: &Gauge| gauge.work().unwrap().order().origin();
    while gauge.has_thoughts() {
        if gauge.think() {
            seen.push(origin(&gauge));
        }
        if seen.len() == 2 {
            break;
        }
    }
    let looked = Origin::Own(Progress::Looked);
    assert_eq!(seen, [looked, Origin::Own(Progress::Tried(1))]);
    // While a stitch is shown the order stands still.
    press(&mut gauge, &[Down]);
    assert!(!gauge.has_thoughts());
    for _ in 0..100 {
        assert!(!gauge.think());
    }
    press(&mut gauge, &[Select]);
    assert!(gauge.has_thoughts());
    // Left and opened again, it goes on where it was; another job is another matter.
    gauge.handle(Event::Hold);
    assert!(!gauge.has_thoughts());
    press(&mut gauge, &[Select]);
    assert_eq!(origin(&gauge), Origin::Own(Progress::Tried(1)));
    gauge.handle(Event::Hold);
    press(&mut gauge, &[Down, Select]);
    assert_eq!(origin(&gauge), Origin::Own(Progress::Idle));
    // What is sent is used as it is.
    let steps = plain_order(&gauge);
    gauge.add_steps(1, 0, &steps).unwrap();
    assert!(!gauge.has_thoughts() && !gauge.think());
    assert_eq!(origin(&gauge), Origin::Sent);
}

#[test]
fn a_job_changed_under_a_plan_is_planned_anew() {
    use seamwright_core::weld::Progress;
    let mut gauge = with_jobs::<Full>(&["a"]);
    press(&mut gauge, &[Select]);
    order_page(&mut gauge);
    while !gauge.think() {}
    gauge.keep(&box_job("a")).unwrap();
    assert_eq!(
        gauge.work().unwrap().order().origin(),
        Origin::Own(Progress::Idle)
    );
    gauge.forget();
    assert!(!gauge.has_thoughts());
}
