//! The gauge on the emulated board shows, pixel for pixel, what the same gauge shows on the host.
//!
//! Since the board sends only what changed, this also shows that many partial redraws add up to the
//! whole picture.

use seamwright_core::wire::{Reply, Request};
use seamwright_firmware::buttons::Button;
use seamwright_tests::board::{Failure, Pair};
use seamwright_tests::jobs;

/// Most pages that a job can have before this test says that turning them never ends.
const MOST_PAGES: usize = 40;

/// Opens the job, works every button on every page, and goes back to the list.
fn walk(example: &str) -> Result<(), Failure> {
    let job = jobs::example(example);
    let mut pair = Pair::small()?;
    pair.keep(&job.draft)?;
    pair.send_order(&job.draft)?;
    pair.compare()?;
    pair.press(Button::Select)?;
    let first = pair.gauge.screen();
    let mut pages = 1;
    loop {
        for button in [
            Button::Down,
            Button::Select,
            Button::Down,
            Button::Select,
            Button::Up,
        ] {
            pair.press(button)?;
        }
        let before = pair.gauge.screen();
        pair.press(Button::Right)?;
        if [before, first].contains(&pair.gauge.screen()) {
            break;
        }
        pages += 1;
        assert!(pages <= MOST_PAGES, "the pages do not end");
    }
    assert!(pages >= 6, "only {pages} pages");
    pair.back()
}

#[test]
fn every_page_of_the_header_tank_is_the_same() -> Result<(), Failure> {
    walk("header-tank")
}

#[test]
fn every_page_of_the_log_splitter_reservoir_is_the_same() -> Result<(), Failure> {
    walk("log-splitter-reservoir")
}

#[test]
fn every_page_of_the_rinse_tank_is_the_same() -> Result<(), Failure> {
    walk("rinse-tank")
}

#[test]
fn changed_units_and_a_cleared_shelf_show_alike() -> Result<(), Failure> {
    let mut pair = Pair::small()?;
    // An empty shelf's only line is the settings.
    pair.press(Button::Select)?;
    pair.press(Button::Right)?;
    pair.back()?;
    assert_eq!(pair.board.ask(&Request::Forget)?, Reply::Forgot);
    pair.gauge.forget();
    pair.compare()
}
