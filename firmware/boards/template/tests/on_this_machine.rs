//! The board of the template at work: its display must show what the same gauge draws by itself, whatever a thumb and
//! a laptop do, and after the display had no power.
#![expect(
    unsafe_code,
    reason = "defmt's logger trait is unsafe, and a program has to have a logger"
)]

use std::cell::{Cell, RefCell};
use std::collections::VecDeque;
use std::convert::Infallible;
use std::rc::Rc;

use embedded_hal::digital::{self, InputPin, OutputPin};
use embedded_hal::spi::{self, SpiBus};
use seamwright_core::input::{Block, Draft, Shape, Sized, StockDraft};
use seamwright_core::tables::Alloy;
use seamwright_core::units::{Length, LengthUnit};
use seamwright_core::wire::{Decoder, Reply, Request, encode};
use seamwright_firmware::buttons::{ActiveLow, Button, Event};
use seamwright_firmware::frame::{Frame, HEIGHT, ROW_BYTES};
use seamwright_firmware::gauge::{Gauge, Screen};
use seamwright_firmware::page::{Full, Kind, Page, Pages, Small};
use seamwright_runner::{Memory, Polled, Runner};
use seamwright_template::{Board, Chip, Display};

/// Milliseconds for which a contact stays as it is: longer than debouncing takes.
const TAP_MS: u64 = 40;
/// Milliseconds after which a display that did not answer has been tried again.
const RETRIED_MS: u64 = 1_100;

/// A clock and a serial line, as both of its ends see them.
#[derive(Default)]
struct Wires {
    microseconds: Cell<u64>,
    to_board: RefCell<VecDeque<u8>>,
    from_board: RefCell<Vec<u8>>,
}

struct Chips(Rc<Wires>);

impl Chip for Chips {
    fn microseconds(&self) -> u64 {
        self.0.microseconds.get()
    }

    fn received(&mut self) -> Option<u8> {
        self.0.to_board.borrow_mut().pop_front()
    }

    fn transmit(&mut self, byte: u8) {
        self.0.from_board.borrow_mut().push(byte);
    }

    fn lost(&self) -> u32 {
        0
    }
}

/// A display's controller: its memory, and what it has been told.
struct Panel {
    memory: [[u8; ROW_BYTES]; HEIGHT as usize],
    /// First and last byte column, first and last row.
    window: [u8; 4],
    /// Where the next byte goes.
    at: [u8; 2],
    /// A command that is not yet whole.
    command: Vec<u8>,
    takes_data: bool,
    is_on: bool,
    has_power: bool,
    /// Bytes of windows: their commands and their picture.
    sent: u32,
}

impl Panel {
    fn new() -> Self {
        Self {
            // Not dark: what a display holds at power-on is not known.
            memory: [[0x5A; ROW_BYTES]; HEIGHT as usize],
            window: [0, ROW_BYTES as u8 - 1, 0, HEIGHT as u8 - 1],
            at: [0, 0],
            command: Vec::new(),
            takes_data: false,
            is_on: false,
            has_power: true,
            sent: 0,
        }
    }

    fn lose_power(&mut self) {
        *self = Self {
            has_power: false,
            sent: self.sent,
            ..Self::new()
        };
    }

    fn take(&mut self, byte: u8) {
        if !self.takes_data {
            self.command.push(byte);
            self.obey();
            return;
        }
        let [left, right, top, bottom] = self.window;
        let [x, y] = self.at;
        self.memory[usize::from(y)][usize::from(x)] = byte;
        self.sent += 1;
        self.at = match (x == right, y == bottom) {
            (false, _) => [x + 1, y],
            (true, false) => [left, y + 1],
            (true, true) => [left, top],
        };
    }

    fn obey(&mut self) {
        match *self.command.as_slice() {
            [0x15, left, right] => {
                [self.window[0], self.window[1], self.at[0]] = [left, right, left];
                self.sent += 3;
            }
            [0x75, top, bottom] => {
                [self.window[2], self.window[3], self.at[1]] = [top, bottom, top];
                self.sent += 3;
            }
            [0xAE] => self.is_on = false,
            [0xAF] => self.is_on = true,
            [0x86 | 0xA4] | [0xA8 | 0xA1 | 0xA2 | 0xA0 | 0x81, _] => {}
            [0x15 | 0x75, ..] | [0xA8 | 0xA1 | 0xA2 | 0xA0 | 0x81] => return,
            ref other => panic!("the display was sent {other:02x?}"),
        }
        self.command.clear();
    }
}

struct Bus(Rc<RefCell<Panel>>);

impl spi::ErrorType for Bus {
    type Error = spi::ErrorKind;
}

impl SpiBus for Bus {
    fn read(&mut self, _: &mut [u8]) -> Result<(), spi::ErrorKind> {
        Err(spi::ErrorKind::Other)
    }

    fn write(&mut self, bytes: &[u8]) -> Result<(), spi::ErrorKind> {
        let mut panel = self.0.borrow_mut();
        if !panel.has_power {
            return Err(spi::ErrorKind::Other);
        }
        bytes.iter().for_each(|byte| panel.take(*byte));
        Ok(())
    }

    fn transfer(&mut self, _: &mut [u8], _: &[u8]) -> Result<(), spi::ErrorKind> {
        Err(spi::ErrorKind::Other)
    }

    fn transfer_in_place(&mut self, _: &mut [u8]) -> Result<(), spi::ErrorKind> {
        Err(spi::ErrorKind::Other)
    }

    fn flush(&mut self) -> Result<(), spi::ErrorKind> {
        Ok(())
    }
}

struct DataLine(Rc<RefCell<Panel>>);

impl digital::ErrorType for DataLine {
    type Error = Infallible;
}

impl OutputPin for DataLine {
    fn set_low(&mut self) -> Result<(), Infallible> {
        self.0.borrow_mut().takes_data = false;
        Ok(())
    }

    fn set_high(&mut self) -> Result<(), Infallible> {
        self.0.borrow_mut().takes_data = true;
        Ok(())
    }
}

/// A button's line, low while it is pressed.
#[derive(Clone, Default)]
struct Line(Rc<Cell<bool>>);

impl digital::ErrorType for Line {
    type Error = Infallible;
}

impl InputPin for Line {
    fn is_high(&mut self) -> Result<bool, Infallible> {
        Ok(!self.0.get())
    }

    fn is_low(&mut self) -> Result<bool, Infallible> {
        Ok(self.0.get())
    }
}

/// The board, and the same gauge without one.
struct Table<K: Kind> {
    runner: Runner<'static, K, Board<Chips>>,
    display: Display<Bus, DataLine>,
    thumb: Polled<ActiveLow<Line, Line, Line, Line, Line>>,
    wires: Rc<Wires>,
    panel: Rc<RefCell<Panel>>,
    lines: [Line; 5],
    twin: Box<Gauge<K>>,
}

impl<K: Kind> Table<K> {
    fn new() -> Self {
        let wires = Rc::<Wires>::default();
        let panel = Rc::new(RefCell::new(Panel::new()));
        let lines: [Line; 5] = Default::default();
        let [up, down, left, right, select] = lines.clone();
        let mut display = Display::open(Bus(panel.clone()), DataLine(panel.clone()));
        let memory = Box::leak(Box::new(Memory::<K>::new()));
        memory.name("a board to copy");
        let runner = Runner::start(memory, Board::new(Chips(wires.clone())), &mut display);
        let thumb = Polled::new(ActiveLow {
            up,
            down,
            left,
            right,
            select,
        });
        let mut table = Self {
            runner,
            display,
            thumb,
            wires,
            panel,
            lines,
            twin: Box::new(Gauge::new()),
        };
        // Buttons count once they have been seen open.
        table.wait(TAP_MS);
        table.compare();
        table
    }

    fn wait(&mut self, milliseconds: u64) {
        for _ in 0..milliseconds {
            let now = self.wires.microseconds.get();
            self.wires.microseconds.set(now + 1_000);
            self.runner.step(&mut self.thumb, &mut self.display);
        }
    }

    fn compare(&self) {
        let mut frame = Frame::new();
        let Ok(_) = self.twin.draw(&mut frame);
        let panel = self.panel.borrow();
        assert!(panel.is_on);
        assert!(
            panel.memory == *frame.rows(),
            "on the screen {}",
            self.twin.screen().name()
        );
    }

    fn press(&mut self, button: Button) {
        let line = self.lines[button as usize].clone();
        for closed in [true, false] {
            line.0.set(closed);
            self.wait(TAP_MS);
        }
        self.twin.handle(Event::Press(button));
        self.compare();
    }

    fn ask(&mut self, request: &Request) -> Reply {
        let bytes = encode(request).expect("it fits");
        self.wires.to_board.borrow_mut().extend(bytes);
        self.wait(1);
        let mut laptop = Decoder::new();
        let answer = self.wires.from_board.take();
        let mut read = answer.iter().filter_map(|byte| laptop.push(*byte));
        read.next().expect("an answer").expect("a whole one")
    }

    fn keep(&mut self, draft: &Draft) {
        let reply = self.ask(&Request::Keep(draft.clone()));
        assert_eq!(reply, Reply::Kept { place: 0 });
        assert_eq!(self.twin.keep(draft), Ok(0));
        self.compare();
    }
}

/// A drip tray's sump.
fn sump() -> Draft {
    let mm = |value| Length::new(value, LengthUnit::Millimetre);
    Draft {
        name: "Sump".try_into().expect("a short name"),
        shape: Shape::Block(Block {
            sized: Sized::Outside,
            length: mm(240.0),
            width: mm(160.0),
            height: mm(90.0),
            cuts: Default::default(),
        }),
        stock: StockDraft {
            alloy: "5754".parse::<Alloy>().expect("an alloy"),
            temper: None,
            thickness: mm(2.0),
            faces: Default::default(),
        },
        joints: Default::default(),
        fittings: Default::default(),
        baffles: Default::default(),
        fill: Default::default(),
        arc: Default::default(),
        weld: Default::default(),
        service: Default::default(),
    }
}

#[test]
fn every_page_of_the_small_gauge_is_on_the_display() {
    let mut table = Table::<Small>::new();
    table.keep(&sump());
    table.press(Button::Select);
    for &page in Pages::<Small>::LIST {
        assert_eq!(table.twin.screen(), Screen::Page(page));
        table.press(Button::Down);
        table.press(Button::Up);
        table.press(Button::Right);
    }
    assert_eq!(table.twin.screen(), Screen::Page(Page::Notices));
    let Reply::Status(status) = table.ask(&Request::Status) else {
        panic!("no status");
    };
    // What the display states as a window's cost is what it was sent.
    assert_eq!(status.display_bytes, table.panel.borrow().sent);
    assert_eq!(status.link_lost, 0);
}

#[test]
fn the_full_gauge_runs_on_the_same_board() {
    let mut table = Table::<Full>::new();
    table.press(Button::Select);
    assert_eq!(table.twin.screen(), Screen::Settings);
    table.press(Button::Right);
}

#[test]
fn a_display_that_lost_power_is_set_up_and_filled_anew() {
    let mut table = Table::<Small>::new();
    table.panel.borrow_mut().lose_power();
    let line = table.lines[Button::Select as usize].clone();
    for closed in [true, false] {
        line.0.set(closed);
        table.wait(TAP_MS);
    }
    table.twin.handle(Event::Press(Button::Select));
    table.panel.borrow_mut().has_power = true;
    table.wait(RETRIED_MS);
    table.compare();
}

/// A log that goes nowhere.
#[defmt::global_logger]
struct Silent;

// SAFETY: it writes nothing, so that nothing can mix.
unsafe impl defmt::Logger for Silent {
    fn acquire() {}
    unsafe fn flush() {}
    unsafe fn release() {}
    unsafe fn write(_: &[u8]) {}
}

defmt::timestamp!("");
