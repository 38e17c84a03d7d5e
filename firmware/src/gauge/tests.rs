//! What the buttons do on the gauge, and what it thinks of.

use super::*;
use crate::bench::{box_job, cut_job, press};
use Button::{Down, Left, Right, Select, Up};
use seamwright_core::input::Face;

fn with_jobs(names: &[&str]) -> Gauge {
    let mut gauge = Gauge::new();
    for name in names {
        gauge.keep(&box_job(name)).unwrap();
    }
    gauge
}

#[test]
fn pages_follow_the_work_and_stop_at_both_ends() {
    let mut gauge = with_jobs(&["a"]);
    press(&mut gauge, &[Select, Left]);
    for &page in Page::ALL {
        assert_eq!(gauge.screen(), Screen::Page(page));
        press(&mut gauge, &[Right]);
    }
    assert_eq!(gauge.screen(), Screen::Page(Page::Notices));
    gauge.handle(Event::Hold);
    assert_eq!(gauge.screen(), Screen::Jobs);
}

#[test]
fn the_settings_stand_under_the_last_job() {
    let mut gauge = with_jobs(&["a", "b"]);
    press(&mut gauge, &[Down, Down, Down, Right]);
    assert_eq!(gauge.screen(), Screen::Settings);
    press(&mut gauge, &[Select]);
    assert_eq!(gauge.units(), Units::Inch);
    gauge.handle(Event::Hold);
    press(&mut gauge, &[Up, Select]);
    assert_eq!(gauge.work().unwrap().tank().job().name(), "b");
}

#[test]
fn a_job_sent_again_takes_its_own_place() {
    let mut gauge = with_jobs(&["a", "b", "c"]);
    assert_eq!(gauge.keep(&box_job("b")), Ok(1));
    assert_eq!(gauge.count(), 3);
    for name in ["d", "e", "f"] {
        gauge.keep(&box_job(name)).unwrap();
    }
    assert_eq!(gauge.keep(&box_job("g")), Err(ShelfFull));
    assert_eq!(gauge.keep(&box_job("a")), Ok(0));
    assert_eq!(gauge.count(), MOST_JOBS);
}

#[test]
fn an_open_job_sent_again_is_computed_anew() {
    let mut gauge = with_jobs(&["a"]);
    press(&mut gauge, &[Select]);
    let mut wrong = box_job("a");
    wrong.stock.thickness = crate::bench::mm(60.0);
    gauge.keep(&wrong).unwrap();
    assert_eq!(gauge.screen(), Screen::Trouble);
    gauge.keep(&box_job("a")).unwrap();
    assert_eq!(gauge.screen(), Screen::Page(Page::Tank));
    gauge.forget();
    assert_eq!(gauge.screen(), Screen::Jobs);
    assert!(gauge.work().is_none());
}

#[test]
fn a_seam_and_its_stitches_are_one_choice() {
    let mut gauge = with_jobs(&["a"]);
    press(
        &mut gauge,
        &[
            Select, Right, Right, Right, Right, Right, Down, Down, Select,
        ],
    );
    assert_eq!(gauge.screen(), Screen::Page(Page::Stitches));
    press(&mut gauge, &[Down]);
    assert_eq!(gauge.work().unwrap().seam(), 3);
    press(&mut gauge, &[Select, Up]);
    assert_eq!(gauge.screen(), Screen::Page(Page::Seams));
    assert_eq!(gauge.work().unwrap().seam(), 2);
    press(&mut gauge, &[Down; 50]);
    assert_eq!(gauge.work().unwrap().seam(), 11);
}

fn order_page(gauge: &mut Gauge) {
    while gauge.screen() != Screen::Page(Page::Order) {
        press(gauge, &[Right]);
    }
}

/// Each stitch once, as they come.
fn plain_order(gauge: &Gauge) -> std::vec::Vec<WeldStep> {
    let count = gauge.work().unwrap().tank().totals().stitches;
    (0..u8::try_from(count).unwrap())
        .map(|run| WeldStep {
            run,
            reversed: false,
            wait: 5,
            warmth: 40,
        })
        .collect()
}

#[test]
fn an_order_that_came_is_walked_through() {
    let mut gauge = with_jobs(&["a"]);
    press(&mut gauge, &[Select]);
    let steps = plain_order(&gauge);
    gauge.add_steps(0, 0, &steps[..1]).unwrap();
    order_page(&mut gauge);
    assert!(
        !gauge
            .work()
            .unwrap()
            .order()
            .fits(gauge.work().unwrap().tank())
    );
    gauge.add_steps(0, 1, &steps[1..]).unwrap();
    let work = gauge.work().unwrap();
    assert_eq!((work.order().count(), work.stitch()), (steps.len(), 0));
    assert_eq!(work.order().origin(), Origin::Sent);
    assert!(work.order().fits(work.tank()));
    press(&mut gauge, &[Down, Down, Down, Up]);
    assert_eq!(gauge.work().unwrap().stitch(), 2);
    for _ in 0..50 {
        gauge.handle(Event::Repeat(Down));
    }
    assert_eq!(gauge.work().unwrap().stitch(), steps.len());
    press(&mut gauge, &[Select]);
    assert_eq!(gauge.work().unwrap().stitch(), 0);
    // Another job of that name, and what came with the old one is gone.
    gauge.keep(&box_job("a")).unwrap();
    assert_eq!(gauge.work().unwrap().order().count(), 0);
}

#[cfg(feature = "full")]
#[test]
fn a_gauge_without_an_order_thinks_of_one() {
    use seamwright_core::weld::Progress;
    let mut gauge = with_jobs(&["a", "b"]);
    assert!(!gauge.think() && !gauge.has_thoughts(), "nothing is open");
    press(&mut gauge, &[Up, Select]);
    order_page(&mut gauge);
    assert!(gauge.has_thoughts());
    let mut seen = std::vec::Vec::new();
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

#[cfg(feature = "full")]
#[test]
fn a_job_changed_under_a_plan_is_planned_anew() {
    use seamwright_core::weld::Progress;
    let mut gauge = with_jobs(&["a"]);
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

#[test]
fn a_tank_is_first_seen_from_where_it_is_cut() {
    for (faces, quarters) in [
        ([Face::Top, Face::Front], 0),
        ([Face::Top, Face::Right], 0),
        ([Face::Bottom, Face::Back], 1),
        ([Face::Bottom, Face::Left], 2),
    ] {
        let mut gauge = Gauge::new();
        gauge.keep(&cut_job(faces)).unwrap();
        press(&mut gauge, &[Select]);
        assert_eq!(gauge.work().unwrap().quarters(), quarters, "{faces:?}");
    }
}
