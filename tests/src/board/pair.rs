//! A gauge on a board and the same gauge on this machine, given the same things to do.

use seamwright_core::input::Draft;
use seamwright_core::wire::{Reply, Request};
use seamwright_firmware::buttons::{Button, Event};
use seamwright_firmware::frame::Frame;
use seamwright_firmware::gauge::Gauge;
use seamwright_firmware::page::{Full, Kind, Small};

use super::{Board, Failure, Line, Screen};
use crate::orders;

/// The two.
#[derive(Debug)]
pub struct Pair<K: Kind = Full> {
    /// The one on the board.
    pub board: Board,
    /// Its twin.
    pub gauge: Box<Gauge<K>>,
}

impl Pair<Small> {
    /// The small gauge.
    ///
    /// # Errors
    /// As for [`Board::start`], or when the first pictures differ.
    pub fn small() -> Result<Self, Failure> {
        Self::of(Board::start()?, Gauge::new())
    }
}

impl Pair<Full> {
    /// The full gauge.
    ///
    /// # Errors
    /// As for [`Board::start_full`], or when the first pictures differ.
    pub fn full() -> Result<Self, Failure> {
        Self::of(Board::start_full()?, Gauge::new())
    }
}

impl<K: Kind> Pair<K> {
    /// A board that has just started, and its twin.
    ///
    /// # Errors
    /// When their pictures differ.
    pub fn of(board: Board, gauge: Gauge<K>) -> Result<Self, Failure> {
        let gauge = Box::new(gauge);
        let mut pair = Self { board, gauge };
        pair.compare()?;
        Ok(pair)
    }

    /// Puts a job on the empty shelves.
    ///
    /// # Errors
    /// When the board does not answer, or not as it should.
    pub fn keep(&mut self, draft: &Draft) -> Result<(), Failure> {
        let reply = self.board.ask(&Request::Keep(draft.clone()))?;
        let kept = self.gauge.keep(draft);
        if reply == (Reply::Kept { place: 0 }) && kept == Ok(0) {
            Ok(())
        } else {
            Err(Failure::new(format!("kept {kept:?}, the board {reply:?}")))
        }
    }

    /// Sends the laptop's order for that job to both.
    ///
    /// # Errors
    /// When there is no order, or the board does not take it.
    pub fn send_order(&mut self, draft: &Draft) -> Result<(), Failure> {
        for request in orders::requests(draft, 0).map_err(Failure::new)? {
            let Request::Order { from, steps, .. } = &request else {
                return Err(Failure::new("a request of another kind"));
            };
            let have = from + steps.len() as u16;
            let added = self.gauge.add_steps(0, *from, steps);
            let reply = self.board.ask(&request)?;
            if reply != (Reply::Ordered { steps: have }) || added != Ok(have) {
                return Err(Failure::new(format!(
                    "ordered {added:?}, the board {reply:?}"
                )));
            }
        }
        Ok(())
    }

    /// What the twin shows.
    #[must_use]
    pub fn expected(&self) -> Screen {
        let mut frame = Frame::new();
        let Ok(_) = self.gauge.draw(&mut frame);
        Screen::from_frame(&frame)
    }

    /// Insists that both show the same.
    ///
    /// # Errors
    /// When a pixel differs.
    pub fn compare(&mut self) -> Result<(), Failure> {
        let shown = self.board.screen()?;
        self.insist(&shown)
    }

    /// Insists that the board's picture after so many bytes is the twin's of now. Only with the full gauge.
    ///
    /// # Errors
    /// When a pixel differs, or there is no such picture.
    pub fn compare_at(&mut self, sent: u64) -> Result<(), Failure> {
        let shown = self.board.picture_at(sent)?;
        self.insist(&shown)
    }

    fn insist(&mut self, shown: &Screen) -> Result<(), Failure> {
        shown.expect(&self.expected()).map_err(|failure| {
            let screen = self.gauge.screen().name();
            let failure = failure.with_context(&format!("on the screen {screen}"));
            self.board.explain(failure)
        })
    }

    /// Presses a button of both.
    ///
    /// # Errors
    /// When the board does not see it, or they show different pictures then.
    pub fn press(&mut self, button: Button) -> Result<(), Failure> {
        let mark = self.board.log.mark();
        self.board.press(button)?;
        self.gauge.handle(Event::Press(button));
        if self.gauge.is_working() {
            while self.gauge.is_working() {
                self.gauge.tick(0);
            }
            let is_done = |line: &Line| line.message.starts_with("worked out");
            self.board
                .wait_for_line(mark, "what the page shows", is_done)?;
        }
        self.compare()
    }

    /// Holds select on both, which goes back.
    ///
    /// # Errors
    /// As for [`press`](Self::press).
    pub fn back(&mut self) -> Result<(), Failure> {
        let is_hold = |line: &Line| line.message.starts_with("Hold");
        self.board.hold(Button::Select, "a hold", is_hold)?;
        self.gauge.handle(Event::Hold);
        self.compare()
    }
}
