//! The gauge's end of the link: a request comes in byte by byte, an answer goes out whole.
//!
//! The gauge never speaks unasked. What a request computes is held apart from what the gauge shows, so
//! that a test of the link does not disturb whoever stands at the bench.

use seamwright_core::capacity::{Lean, Level};
use seamwright_core::input::Draft;
use seamwright_core::tank::{JobError, Tank};
use seamwright_core::units::{Angle, Length, Ratio};
use seamwright_core::wire::{
    Decoder, Fault, PROTOCOL, Reply, Request, SeamReport, Status, Summary, Text, draft_in, name_of,
    summary,
};

use crate::gauge::{Gauge, MOST_JOBS};
use crate::page::Kind;

/// An answer is ready: [`Link::frame`] has its bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Answer {
    /// Whether a job was computed for it, so that the board can note how long that took.
    pub computed: bool,
}

/// The link of one gauge.
#[derive(Debug)]
pub struct Link {
    board: Option<&'static str>,
    decoder: Decoder,
    /// What was computed last, where it stays; of no use unless `holds`.
    held: Tank,
    holds: bool,
}

impl Link {
    /// A link on which nothing has come yet; `board` is what it answers to the question who it is, up
    /// to 32 bytes of it.
    #[must_use]
    pub const fn new(board: &'static str) -> Self {
        Self {
            board: Some(board),
            decoder: Decoder::new(),
            held: Tank::EMPTY,
            holds: false,
        }
    }

    /// The same without a name: all zeros, so that a static of it takes no flash.
    #[must_use]
    pub const fn unnamed() -> Self {
        Self {
            board: None,
            decoder: Decoder::new(),
            held: Tank::EMPTY,
            holds: false,
        }
    }

    /// Gives the board's name.
    pub const fn name(&mut self, board: &'static str) {
        self.board = Some(board);
    }

    /// Takes one byte; where it closes a request, serves that and holds the answer ready. `status` is what
    /// the board counts. The gauge may show something else afterwards.
    pub fn take<K: Kind>(
        &mut self,
        byte: u8,
        gauge: &mut Gauge<K>,
        status: &Status,
    ) -> Option<Answer> {
        if !self.decoder.gather(byte) {
            return None;
        }
        let mut computed = false;
        let reply = self.reply(gauge, status, &mut computed);
        // Every reply fits; should one not, the laptop is told so.
        self.decoder
            .reply(&reply)
            .or_else(|_| self.decoder.reply(&Reply::Unread(Fault::TooLong)))
            .ok()?;
        Some(Answer { computed })
    }

    /// The frame of the last answer, its closing zero included; empty once another byte has come.
    #[must_use]
    pub fn frame(&self) -> &[u8] {
        self.decoder.replied()
    }

    /// Reads what was gathered and serves it.
    fn reply<K: Kind>(
        &mut self,
        gauge: &mut Gauge<K>,
        status: &Status,
        computed: &mut bool,
    ) -> Reply {
        match self.first_half(gauge, status) {
            Half::Done(reply) => reply,
            Half::Kept(place) => {
                gauge.refresh(place);
                Reply::Kept {
                    place: small(place),
                }
            }
            Half::Taken(taken) => {
                *computed = true;
                match taken.and_then(|()| self.make::<K>()) {
                    Ok(summary) => Reply::Computed(summary),
                    Err(error) => Reply::Refused(error),
                }
            }
        }
    }

    // Out of line: the request, some 3 KiB, is gone from the stack before a tank is made.
    #[inline(never)]
    fn first_half<K: Kind>(&mut self, gauge: &mut Gauge<K>, status: &Status) -> Half {
        // Looked at where it is: a copy of it would not fit the stack of a small board.
        match &self.decoder.read::<Request>() {
            Ok(Request::Keep(draft)) => self.keep(draft.name.as_str(), gauge),
            Ok(Request::Compute(draft)) => Half::Taken(self.take_in(draft)),
            Ok(request) => Half::Done(self.serve(request, gauge, status)),
            Err(fault) => {
                crate::log::unread(*fault);
                Half::Done(Reply::Unread(*fault))
            }
        }
    }

    /// Answers a request without a draft.
    #[inline(never)]
    fn serve<K: Kind>(&self, request: &Request, gauge: &mut Gauge<K>, status: &Status) -> Reply {
        match request {
            Request::Keep(_) | Request::Compute(_) => Reply::Unread(Fault::Unknown),
            Request::Hello => Reply::Hello {
                protocol: PROTOCOL,
                board: short(self.board.unwrap_or_default()),
                version: short(env!("CARGO_PKG_VERSION")),
            },
            Request::Forget => {
                gauge.forget();
                Reply::Forgot
            }
            Request::Panels { from } => self.panels(*from),
            Request::Seams { from } => self.seams(*from),
            Request::Level { pitch, roll, share } => {
                self.of_held(|tank| Reply::Level(level(tank, *pitch, *roll, *share)))
            }
            Request::Status => Reply::Status(*status),
            Request::Order { place, from, steps } => {
                match gauge.add_steps(usize::from(*place), *from, steps) {
                    Ok(steps) => Reply::Ordered { steps },
                    Err(_) => full(),
                }
            }
        }
    }

    /// Keeps the draft of the request just read, as it was packed: it is a good one, having been read.
    fn keep<K: Kind>(&self, name: &str, gauge: &mut Gauge<K>) -> Half {
        let packed = draft_in(self.decoder.message()).unwrap_or_default();
        // Bytes may be read in more than one way, a name found in them only in one.
        if name_of(packed) != Some(name) {
            return Half::Done(Reply::Unread(Fault::Unknown));
        }
        match gauge.store(packed) {
            Ok(place) => Half::Kept(place),
            Err(_) => Half::Done(full()),
        }
    }

    #[inline(never)]
    fn panels(&self, from: u8) -> Reply {
        self.of_held(|tank| {
            let some = tank.panels().skip(usize::from(from));
            Reply::Panels(some.take(seamwright_core::wire::BATCH).collect())
        })
    }

    #[inline(never)]
    fn seams(&self, from: u8) -> Reply {
        self.of_held(|tank| {
            let some = tank.seams().skip(usize::from(from));
            let reports = some.map(|seam| SeamReport::of(tank, seam));
            Reply::Seams(reports.take(seamwright_core::wire::BATCH).collect())
        })
    }

    fn take_in(&mut self, draft: &Draft) -> Result<(), JobError> {
        // A request that fails leaves nothing to ask about.
        self.holds = false;
        self.held.take(draft)
    }

    fn make<K: Kind>(&mut self) -> Result<Summary, JobError> {
        K::make(&mut self.held)?;
        self.holds = true;
        Ok(summary(&self.held))
    }

    fn of_held(&self, reply: impl FnOnce(&Tank) -> Reply) -> Reply {
        if self.holds {
            reply(&self.held)
        } else {
            Reply::NothingHeld
        }
    }
}

/// What is left of a request once its draft has gone.
#[expect(
    clippy::large_enum_variant,
    reason = "without allocation a reply lives in its place"
)]
enum Half {
    Done(Reply),
    /// A job was kept at this place; the gauge may have to show it anew.
    Kept(usize),
    /// A job was taken in, its tank not yet made.
    Taken(Result<(), JobError>),
}

fn full() -> Reply {
    Reply::ShelfFull {
        most: small(MOST_JOBS),
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bench::{box_job, mm};
    use seamwright_core::units::{AngleUnit, RatioUnit, VolumeUnit};
    use seamwright_core::wire::encode;

    /// A laptop and a gauge with a cable between.
    struct Cable {
        link: Link,
        gauge: Gauge,
        status: Status,
    }

    impl Cable {
        fn new() -> Self {
            Self {
                link: Link::new("test bench"),
                gauge: Gauge::new(),
                status: Status::default(),
            }
        }

        fn send(&mut self, bytes: &[u8]) -> std::vec::Vec<Reply> {
            let mut laptop = Decoder::new();
            let mut replies = std::vec::Vec::new();
            for byte in bytes {
                if self
                    .link
                    .take(*byte, &mut self.gauge, &self.status)
                    .is_some()
                {
                    let read = self.link.frame().iter().find_map(|byte| laptop.push(*byte));
                    replies.push(read.unwrap().unwrap());
                }
            }
            replies
        }

        fn ask(&mut self, request: &Request) -> Reply {
            let [reply] = self.send(&encode(request).unwrap()).try_into().unwrap();
            reply
        }
    }

    #[test]
    fn the_gauge_says_who_it_is() {
        let Reply::Hello {
            protocol, board, ..
        } = Cable::new().ask(&Request::Hello)
        else {
            panic!("no greeting");
        };
        assert_eq!((protocol, board.as_str()), (PROTOCOL, "test bench"));
    }

    #[test]
    fn a_kept_job_is_on_the_shelf() {
        let mut cable = Cable::new();
        for (place, name) in (0..6).zip(["a", "b", "c", "d", "e", "f"]) {
            assert_eq!(
                cable.ask(&Request::Keep(box_job(name))),
                Reply::Kept { place }
            );
        }
        assert_eq!(
            cable.ask(&Request::Keep(box_job("g"))),
            Reply::ShelfFull { most: 6 }
        );
        assert_eq!(cable.gauge.count(), 6);
        assert_eq!(cable.ask(&Request::Forget), Reply::Forgot);
        assert!(cable.gauge.count() == 0);
    }

    #[test]
    fn what_is_computed_can_be_asked_about() {
        let mut cable = Cable::new();
        assert_eq!(cable.ask(&Request::Seams { from: 0 }), Reply::NothingHeld);
        let Reply::Computed(summary) = cable.ask(&Request::Compute(box_job("a"))) else {
            panic!("not computed");
        };
        assert_eq!((summary.panels, summary.seams), (6, 12));
        let mut seams = 0;
        for from in [0, 4, 8, 12] {
            let Reply::Seams(some) = cable.ask(&Request::Seams { from }) else {
                panic!("no seams");
            };
            seams += some.len();
        }
        assert_eq!(seams, 12);
        let level = cable.ask(&Request::Level {
            pitch: Angle::new(0.0, AngleUnit::Degree),
            roll: Angle::new(0.0, AngleUnit::Degree),
            share: Ratio::new(50.0, RatioUnit::Percent),
        });
        let Reply::Level(Some(level)) = level else {
            panic!("no level");
        };
        // Half of 300 x 200 x 100 mm.
        assert!((level.volume.in_unit(VolumeUnit::Litre) - 3.0).abs() < 1e-9);
        let past = Request::Level {
            pitch: Angle::default(),
            roll: Angle::new(91.0, AngleUnit::Degree),
            share: Ratio::default(),
        };
        assert_eq!(cable.ask(&past), Reply::Level(None));
        // The bench is left alone.
        assert!(cable.gauge.count() == 0);
    }

    #[test]
    fn panels_and_seams_are_counted_as_they_are_listed() {
        use seamwright_core::input::{Across, BaffleDraft, Face, FittingDraft, WallSet};
        let mut cable = Cable::new();
        let mut job = box_job("a");
        for other in [Face::Front, Face::Back] {
            job.joints.folds.push([Face::Bottom, other]).unwrap();
        }
        job.joints.bend_radius = Some(mm(3.0));
        job.fittings
            .push(FittingDraft {
                name: "filler".try_into().unwrap(),
                face: Face::Top,
                at: [mm(60.0), mm(60.0)],
                bore: mm(30.0),
                outer: None,
                stand_in: mm(0.0),
            })
            .unwrap();
        job.baffles
            .push(BaffleDraft {
                across: Across::Length,
                at: mm(150.0),
                thickness: None,
                holes: [].into(),
                free: WallSet::NONE,
                spaced: None,
            })
            .unwrap();
        let Reply::Computed(summary) = cable.ask(&Request::Compute(job)) else {
            panic!("not computed");
        };
        let tank = &cable.link.held;
        let listed = (tank.panels().count(), tank.seams().count());
        // Bottom, front and back are one panel; the baffle is another. Twelve edges, four along the
        // baffle, one round the filler.
        assert_eq!(listed, (5, 17));
        let counted = (usize::from(summary.panels), usize::from(summary.seams));
        assert_eq!(counted, listed);
    }

    #[test]
    fn a_job_refused_leaves_nothing_held() {
        let mut cable = Cable::new();
        let mut wrong = box_job("a");
        wrong.stock.thickness = mm(60.0);
        assert!(matches!(
            cable.ask(&Request::Compute(box_job("a"))),
            Reply::Computed(_)
        ));
        assert!(matches!(
            cable.ask(&Request::Compute(wrong)),
            Reply::Refused(_)
        ));
        assert_eq!(cable.ask(&Request::Panels { from: 0 }), Reply::NothingHeld);
    }

    #[test]
    fn noise_is_answered_and_passes() {
        let mut cable = Cable::new();
        let replies = cable.send(&[7, 0x55, 0xAA, 3, 1, 0]);
        assert!(matches!(replies.as_slice(), [Reply::Unread(_)]));
        assert_eq!(
            cable.ask(&Request::Status),
            Reply::Status(Status::default())
        );
    }
}
