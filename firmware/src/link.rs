//! The gauge's end of the link: a request comes in byte by byte, an answer goes out whole.
//!
//! The gauge never speaks unasked. What a request computes is held apart from what the gauge shows, so
//! that a test of the link does not disturb whoever stands at the bench.

use heapless::Vec;
use seamwright_core::capacity::{Lean, Level};
use seamwright_core::job::{Draft, JobError, Tank};
use seamwright_core::quantity::{Angle, Length, Ratio};
use seamwright_core::wire::{
    Decoder, Fault, MAX_FRAME, PROTOCOL, Reply, Request, SeamReport, Status, Summary, Text, encode,
    summary,
};

use crate::gauge::{Gauge, MOST_JOBS};

/// What is sent back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answer {
    /// The bytes of the frame, its closing zero included.
    pub frame: Vec<u8, MAX_FRAME>,
    /// Whether a job was computed for it, so that the board can note how long that took.
    pub computed: bool,
}

/// The link of one gauge.
#[derive(Debug)]
pub struct Link {
    board: &'static str,
    decoder: Decoder,
    held: Option<Tank>,
}

impl Link {
    /// A link on which nothing has come yet; `board` is what it answers to the question who it is, up
    /// to 32 bytes of it.
    #[must_use]
    pub const fn new(board: &'static str) -> Self {
        Self {
            board,
            decoder: Decoder::new(),
            held: None,
        }
    }

    /// Takes one byte; where it closes a request, serves that and gives the answer. `status` is what
    /// the board counts. The gauge may show something else afterwards.
    pub fn take(&mut self, byte: u8, gauge: &mut Gauge, status: &Status) -> Option<Answer> {
        let read = self.decoder.push::<Request>(byte)?;
        let computed = matches!(read, Ok(Request::Compute(_)));
        let reply = match read {
            Ok(request) => self.serve(request, gauge, status),
            Err(fault) => {
                crate::log::unread(fault);
                Reply::Unread(fault)
            }
        };
        // Every reply is shorter than a draft, for which a frame has room.
        let frame = encode(&reply).or_else(|_| encode(&Reply::Unread(Fault::TooLong)));
        Some(Answer {
            frame: frame.ok()?,
            computed,
        })
    }

    /// Does what a request asks.
    // Kept out of `take`, whose frames it does not need at the same time.
    #[inline(never)]
    pub fn serve(&mut self, request: Request, gauge: &mut Gauge, status: &Status) -> Reply {
        match request {
            Request::Hello => Reply::Hello {
                protocol: PROTOCOL,
                board: short(self.board),
                version: short(env!("CARGO_PKG_VERSION")),
            },
            Request::Keep(draft) => match gauge.keep(draft) {
                Ok(place) => Reply::Kept {
                    place: small(place),
                },
                Err(_) => Reply::ShelfFull {
                    most: small(MOST_JOBS),
                },
            },
            Request::Forget => {
                gauge.forget();
                Reply::Forgot
            }
            Request::Compute(draft) => match self.compute(&draft) {
                Ok(summary) => Reply::Computed(summary),
                Err(error) => Reply::Refused(error),
            },
            Request::Panels { from } => self.of_held(|tank| {
                let some = tank.panels().skip(usize::from(from));
                Reply::Panels(some.take(seamwright_core::wire::BATCH).collect())
            }),
            Request::Seams { from } => self.of_held(|tank| {
                let some = tank.seams().skip(usize::from(from));
                let reports = some.map(|seam| SeamReport::of(tank, seam));
                Reply::Seams(reports.take(seamwright_core::wire::BATCH).collect())
            }),
            Request::Level { pitch, roll, share } => {
                self.of_held(|tank| Reply::Level(level(tank, pitch, roll, share)))
            }
            Request::Status => Reply::Status(*status),
        }
    }

    #[inline(never)]
    fn compute(&mut self, draft: &Draft) -> Result<Summary, JobError> {
        // What was held is dropped first: a request that fails leaves nothing to ask about.
        self.held = None;
        Tank::build(draft).map(|tank| summary(self.held.insert(tank)))
    }

    fn of_held(&self, reply: impl FnOnce(&Tank) -> Reply) -> Reply {
        self.held.as_ref().map_or(Reply::NothingHeld, reply)
    }
}

/// The liquid at a share of the full depth; `None` where the lean or the share is out of range.
fn level(tank: &Tank, pitch: Angle, roll: Angle, share: Ratio) -> Option<Level> {
    let pool = tank.pool(Lean::new(pitch, roll).ok()?);
    let depth = Length::from_metres(pool.full_depth().si() * share.si());
    pool.at(depth).ok()
}

/// As much of a name as a reply has room for.
fn short(name: &str) -> Text {
    let mut text = Text::new();
    for sign in name.chars() {
        if text.push(sign).is_err() {
            break;
        }
    }
    text
}

/// Places on the shelf are few.
fn small(count: usize) -> u8 {
    u8::try_from(count).unwrap_or(u8::MAX)
}
