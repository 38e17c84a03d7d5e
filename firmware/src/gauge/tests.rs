//! What the buttons do on the gauge, of either kind.

use std::vec;
use std::vec::Vec;

use super::*;
use crate::bench::{box_job, cut_job};
use crate::frame::Frame;
use crate::page::Small;
use crate::work::Origin;
use Button::{Down, Left, Right, Select, Up};
use seamwright_core::input::Face;

/// Makes a test of each for the small gauge and for the full one.
macro_rules! on_both_kinds {
    ($($test:ident),+ $(,)?) => {
        mod small {
            $( #[test] fn $test() { super::$test::<super::Small>(); } )+
        }

        mod full {
            $( #[test] fn $test() { super::$test::<super::Full>(); } )+
        }
    };
}

on_both_kinds!(
    pages_follow_the_work_and_stop_at_both_ends,
    the_settings_stand_under_the_last_job,
    a_job_sent_again_takes_its_own_place,
    an_open_job_sent_again_is_computed_anew,
    a_seam_and_its_stitches_are_one_choice,
    an_order_that_came_is_walked_through,
    a_tank_is_first_seen_from_where_it_is_cut,
    what_is_chosen_is_chosen_until_the_job_is_left,
);

/// Presses buttons one after the other.
pub(super) fn press<K: Kind>(gauge: &mut Gauge<K>, buttons: &[Button]) {
    for button in buttons {
        gauge.handle(Event::Press(*button));
    }
}

pub(super) fn with_jobs<K: Kind>(names: &[&str]) -> Gauge<K> {
    let mut gauge = Gauge::new();
    for name in names {
        gauge.keep(&box_job(name)).unwrap();
    }
    gauge
}

fn pages_follow_the_work_and_stop_at_both_ends<K: Kind>() {
    let mut gauge = with_jobs::<K>(&["a"]);
    press(&mut gauge, &[Select, Left]);
    for &page in Pages::<K>::LIST {
        assert_eq!(gauge.screen(), Screen::Page(page));
        press(&mut gauge, &[Right]);
    }
    assert_eq!(gauge.screen(), Screen::Page(Page::Notices));
    gauge.handle(Event::Hold);
    assert_eq!(gauge.screen(), Screen::Jobs);
}

fn the_settings_stand_under_the_last_job<K: Kind>() {
    let mut gauge = with_jobs::<K>(&["a", "b"]);
    press(&mut gauge, &[Down, Down, Down, Right]);
    assert_eq!(gauge.screen(), Screen::Settings);
    press(&mut gauge, &[Select]);
    assert_eq!(gauge.units(), Units::Inch);
    gauge.handle(Event::Hold);
    press(&mut gauge, &[Up, Select]);
    assert_eq!(gauge.work().unwrap().tank().job().name(), "b");
}

fn a_job_sent_again_takes_its_own_place<K: Kind>() {
    let mut gauge = with_jobs::<K>(&["a", "b", "c"]);
    assert_eq!(gauge.keep(&box_job("b")), Ok(1));
    assert_eq!(gauge.count(), 3);
    for name in ["d", "e", "f"] {
        gauge.keep(&box_job(name)).unwrap();
    }
    assert_eq!(gauge.keep(&box_job("g")), Err(ShelfFull));
    assert_eq!(gauge.keep(&box_job("a")), Ok(0));
    assert_eq!(gauge.count(), MOST_JOBS);
}

fn an_open_job_sent_again_is_computed_anew<K: Kind>() {
    let mut gauge = with_jobs::<K>(&["a"]);
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

fn a_seam_and_its_stitches_are_one_choice<K: Kind>() {
    let mut gauge = with_jobs::<K>(&["a"]);
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

pub(super) fn order_page<K: Kind>(gauge: &mut Gauge<K>) {
    while gauge.screen() != Screen::Page(Page::Order) {
        press(gauge, &[Right]);
    }
}

/// Which stitch of the order is shown.
fn stitch<K: Kind>(gauge: &Gauge<K>) -> usize {
    usize::from(gauge.pages().order.stitch())
}

/// Each stitch once, as they come.
pub(super) fn plain_order<K: Kind>(gauge: &Gauge<K>) -> Vec<WeldStep> {
    let count = gauge.work().unwrap().tank().totals().stitches;
    (0..u8::try_from(count).unwrap())
        .map(|run| WeldStep {
            stitch: run,
            reversed: false,
            wait: 5,
            cause: None,
            warmth: 40,
        })
        .collect()
}

fn an_order_that_came_is_walked_through<K: Kind>() {
    let mut gauge = with_jobs::<K>(&["a"]);
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
    assert_eq!((work.order().count(), stitch(&gauge)), (steps.len(), 0));
    assert_eq!(work.order().origin(), Origin::Sent);
    assert!(work.order().fits(work.tank()));
    press(&mut gauge, &[Down, Down, Down, Up]);
    assert_eq!(stitch(&gauge), 2);
    for _ in 0..50 {
        gauge.handle(Event::Repeat(Down));
    }
    assert_eq!(stitch(&gauge), steps.len());
    press(&mut gauge, &[Select]);
    assert_eq!(stitch(&gauge), 0);
    // Another job of that name, and what came with the old one is gone.
    gauge.keep(&box_job("a")).unwrap();
    assert_eq!(gauge.work().unwrap().order().count(), 0);
}

fn a_tank_is_first_seen_from_where_it_is_cut<K: Kind>() {
    for (faces, quarters) in [
        ([Face::Top, Face::Front], 0),
        ([Face::Top, Face::Right], 0),
        ([Face::Bottom, Face::Back], 1),
        ([Face::Bottom, Face::Left], 2),
    ] {
        let mut gauge = Gauge::<K>::new();
        gauge.keep(&cut_job(faces)).unwrap();
        press(&mut gauge, &[Select]);
        assert_eq!(gauge.work().unwrap().quarters(), quarters, "{faces:?}");
    }
}

/// What is chosen on a page is there when it is turned to again, and not when the job is opened again.
fn what_is_chosen_is_chosen_until_the_job_is_left<K: Kind>() {
    let mut gauge = with_jobs::<K>(&["a"]);
    press(&mut gauge, &[Select]);
    let fresh = screens(&mut gauge, &[]);
    // Which seam and which side of the tank are seen holds for several pages.
    screens(&mut gauge, &[Down, Down]);
    let chosen = screens(&mut gauge, &[]);
    assert!(screens(&mut gauge, &[]) == chosen);
    let changed = chosen.iter().zip(&fresh).filter(|(a, b)| a != b);
    assert!(changed.count() + 3 > Pages::<K>::LIST.len());
    gauge.handle(Event::Hold);
    press(&mut gauge, &[Select]);
    // Those that last are held to that elsewhere.
    let every = Pages::<Small>::LIST;
    let of = |all: &[(Page, Frame)]| {
        let some = all.iter().filter(|(page, _)| every.contains(page));
        some.map(|(_, frame)| frame.rows().concat())
            .collect::<Vec<_>>()
    };
    assert!(of(&screens(&mut gauge, &[])) == of(&fresh));
}

/// Every page from the first to the last after some buttons on it, and back to the first.
fn screens<K: Kind>(gauge: &mut Gauge<K>, buttons: &[Button]) -> Vec<(Page, Frame)> {
    let pages = Pages::<K>::LIST;
    let all = pages.iter().map(|page| {
        while gauge.is_working() {
            gauge.tick(0);
        }
        press(gauge, buttons);
        let mut frame = Frame::new();
        let Ok(faults) = gauge.draw(&mut frame);
        assert_eq!(faults, Faults::default());
        press(gauge, &[Right]);
        (*page, frame)
    });
    let all = all.collect();
    press(gauge, &vec![Left; pages.len()]);
    all
}
