//! The gauge on the emulated board shows, pixel for pixel, what the same gauge shows on the host.
//!
//! Since the board sends only what changed, this also shows that many partial redraws add up to the
//! whole picture.

use seamwright::job_file::JobFile;
use seamwright_core::job::Draft;
use seamwright_core::wire::{Reply, Request};
use seamwright_firmware::buttons::{Button, Event};
use seamwright_firmware::frame::Frame;
use seamwright_firmware::gauge::Gauge;
use seamwright_tests::board::{Board, Failure, Screen};
use seamwright_tests::orders;

/// Most pages that a job can have before this test says that turning them never ends.
const MOST_PAGES: usize = 40;

/// The board and a gauge on the host, given the same things to do.
struct Pair {
    board: Board,
    gauge: Gauge,
}

impl Pair {
    /// Both with one job on the shelf.
    fn with(draft: &Draft) -> Result<Self, Failure> {
        let mut pair = Self {
            board: Board::start()?,
            gauge: Gauge::plain(),
        };
        pair.compare()?;
        let reply = pair.board.ask(&Request::Keep(draft.clone()))?;
        assert_eq!(reply, Reply::Kept { place: 0 });
        assert_eq!(pair.gauge.keep(draft), Ok(0));
        pair.send_order(draft)?;
        pair.compare()?;
        Ok(pair)
    }

    /// The order of its stitches, to both.
    fn send_order(&mut self, draft: &Draft) -> Result<(), Failure> {
        for request in orders::requests(draft, 0).map_err(Failure::new)? {
            let Request::Order { from, steps, .. } = &request else {
                return Err(Failure::new("a request of another kind"));
            };
            let have = from + steps.len() as u16;
            assert_eq!(self.gauge.add_steps(0, *from, steps), Ok(have));
            assert_eq!(self.board.ask(&request)?, Reply::Ordered { steps: have });
        }
        Ok(())
    }

    fn compare(&mut self) -> Result<(), Failure> {
        let mut frame = Frame::new();
        let Ok(_) = self.gauge.draw(&mut frame);
        let shown = self.board.screen()?;
        let screen = self.gauge.screen().name();
        let result = shown.expect(&Screen::from_frame(&frame));
        result.map_err(|failure| {
            let failure = failure.with_context(&format!("on the screen {screen}"));
            self.board.explain(failure)
        })
    }

    fn press(&mut self, button: Button) -> Result<(), Failure> {
        self.board.press(button)?;
        self.gauge.handle(Event::Press(button));
        self.compare()
    }

    /// Opens the job, works every button on every page, and goes back to the list.
    fn walk(&mut self) -> Result<(), Failure> {
        self.press(Button::Select)?;
        let first = self.gauge.screen();
        let mut pages = 1;
        loop {
            for button in [
                Button::Down,
                Button::Select,
                Button::Down,
                Button::Select,
                Button::Up,
            ] {
                self.press(button)?;
            }
            let before = self.gauge.screen();
            self.press(Button::Right)?;
            if [before, first].contains(&self.gauge.screen()) {
                break;
            }
            pages += 1;
            assert!(pages <= MOST_PAGES, "the pages do not end");
        }
        assert!(pages >= 6, "only {pages} pages");
        let is_hold = |line: &seamwright_tests::board::Line| line.message.starts_with("Hold");
        self.board.hold(Button::Select, "a hold", is_hold)?;
        self.gauge.handle(Event::Hold);
        self.compare()
    }
}

fn walk(example: &str) -> Result<(), Failure> {
    let path = format!(
        "{}/../host-sim/examples/{example}.toml",
        env!("CARGO_MANIFEST_DIR")
    );
    let job = JobFile::open(&path).map_err(|error| Failure::new(format!("{path}: {error:?}")))?;
    Pair::with(&job.draft)?.walk()
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
    let mut pair = Pair {
        board: Board::start()?,
        gauge: Gauge::plain(),
    };
    // An empty shelf's only line is the settings.
    pair.press(Button::Select)?;
    pair.press(Button::Right)?;
    pair.board.hold(Button::Select, "a hold", |line| {
        line.message.starts_with("Hold")
    })?;
    pair.gauge.handle(Event::Hold);
    pair.compare()?;
    assert_eq!(pair.board.ask(&Request::Forget)?, Reply::Forgot);
    pair.gauge.forget();
    pair.compare()
}
