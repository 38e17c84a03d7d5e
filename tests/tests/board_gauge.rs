//! The gauge on the emulated board shows, pixel for pixel, what the same gauge shows on the host.

use heapless::Vec;
use seamwright_core::body::{Block, Cut, Face, Sized};
use seamwright_core::job::{ArcDraft, Draft, FillDraft, JointsDraft, StockDraft, Tank, WeldDraft};
use seamwright_core::quantity::{Length, LengthUnit};
use seamwright_core::stock::Alloy;
use seamwright_core::wire::{Reply, Request, summary};
use seamwright_firmware::buttons::{Button, Event};
use seamwright_firmware::frame::Frame;
use seamwright_firmware::gauge::Gauge;
use seamwright_tests::board::{Board, Failure, Screen};

fn mm(value: f64) -> Length {
    Length::new(value, LengthUnit::Millimetre)
}

/// Our canal boat's header tank: a box with its top back edge cut off.
fn header_tank() -> Result<Draft, Failure> {
    let cut = Cut::Edge {
        faces: [Face::Top, Face::Back],
        legs: [mm(20.0), mm(20.0)],
    };
    Ok(Draft {
        name: "Header tank"
            .try_into()
            .map_err(|_| Failure::new("the name is too long"))?,
        shape: Block {
            sized: Sized::Outside,
            length: mm(320.0),
            width: mm(180.0),
            height: mm(160.0),
            cuts: Vec::from_array([cut]),
        },
        stock: StockDraft {
            alloy: Alloy::A5754,
            temper: None,
            thickness: mm(2.0),
            faces: Vec::new(),
        },
        joints: JointsDraft::default(),
        fill: FillDraft::default(),
        arc: ArcDraft::default(),
        weld: WeldDraft::default(),
    })
}

/// The board and a gauge on the host, given the same things to do.
struct Pair {
    board: Board,
    gauge: Gauge,
}

impl Pair {
    fn compare(&mut self) -> Result<(), Failure> {
        let mut frame = Frame::new();
        let Ok(_) = self.gauge.draw(&mut frame);
        let shown = self.board.screen()?;
        let screen = self.gauge.screen().name();
        shown
            .expect(&Screen::from_frame(&frame))
            .map_err(|failure| {
                self.board
                    .explain(failure.with_context(&format!("on the screen {screen}")))
            })
    }

    fn press(&mut self, button: Button) -> Result<(), Failure> {
        self.board.press(button)?;
        self.gauge.handle(Event::Press(button));
        self.compare()
    }
}

#[test]
fn every_page_of_a_job_is_the_same_on_the_board() -> Result<(), Failure> {
    let draft = header_tank()?;
    let mut pair = Pair {
        board: Board::start()?,
        gauge: Gauge::new(),
    };
    pair.compare()?;
    let reply = pair.board.ask(&Request::Keep(draft.clone()))?;
    assert_eq!(reply, Reply::Kept { place: 0 });
    assert_eq!(pair.gauge.keep(draft), Ok(0));
    pair.compare()?;

    pair.press(Button::Select)?;
    let first = pair.gauge.screen();
    let mut pages = 0;
    loop {
        for button in [
            Button::Down,
            Button::Down,
            Button::Up,
            Button::Select,
            Button::Up,
        ] {
            pair.press(button)?;
        }
        let before = pair.gauge.screen();
        pair.press(Button::Right)?;
        pages += 1;
        let after = pair.gauge.screen();
        if after == before || after == first || pages > 40 {
            break;
        }
    }
    assert!(pages >= 6, "only {pages} pages were turned");
    pair.board.hold(Button::Select, "a hold", |line| {
        line.message.starts_with("Hold")
    })?;
    pair.gauge.handle(Event::Hold);
    pair.compare()
}

#[test]
fn a_job_computes_to_the_same_bits_on_the_board() -> Result<(), Failure> {
    let draft = header_tank()?;
    let tank = Tank::build(&draft).map_err(|error| Failure::new(error.to_string()))?;
    let mut board = Board::start()?;
    let reply = board.ask(&Request::Compute(draft))?;
    assert_eq!(reply, Reply::Computed(summary(&tank)));
    Ok(())
}
