//! Faults on the line, each made on purpose, and the real gauge's end of the link behind it.

use std::collections::VecDeque;

use proptest::prelude::*;
use seamwright_core::input::Draft;
use seamwright_core::tank::Tank;
use seamwright_core::weld::WeldStep;
use seamwright_core::wire::Status;
use seamwright_firmware::gauge::Gauge;
use seamwright_firmware::link::Link;

use super::*;
use crate::diagnostics::Source;
use crate::job_file::JobFile;
use crate::link::{Carried, SendError, send_job};

const LIMIT: Duration = Duration::from_millis(50);
const SHORT: Duration = Duration::from_millis(1);

/// Does to the n-th thing sent what a bad line would.
type Damage<'a> = Box<dyn FnMut(usize, &mut Vec<u8>) + 'a>;

/// A line to a gauge. Each frame sent, and each answer, first goes through the hands of a fault.
struct Line<'a> {
    gauge: Gauge,
    link: Link,
    /// What has reached the laptop's end.
    arrived: VecDeque<u8>,
    /// To what the laptop writes, lone zeros not counted.
    out: Damage<'a>,
    /// To the answers.
    back: Damage<'a>,
    asked: usize,
    answered: usize,
}

impl<'a> Line<'a> {
    fn clean() -> Self {
        Self {
            gauge: Gauge::new(),
            link: Link::new("line"),
            arrived: VecDeque::new(),
            out: Box::new(|_, _| ()),
            back: Box::new(|_, _| ()),
            asked: 0,
            answered: 0,
        }
    }

    fn out(fault: impl FnMut(usize, &mut Vec<u8>) + 'a) -> Self {
        let out = Box::new(fault);
        Self {
            out,
            ..Self::clean()
        }
    }

    fn back(fault: impl FnMut(usize, &mut Vec<u8>) + 'a) -> Self {
        let back = Box::new(fault);
        Self {
            back,
            ..Self::clean()
        }
    }

    fn ask(&mut self, request: &Request) -> Result<Reply, LinkError> {
        ask_on(self, request, LIMIT, SHORT)
    }

    /// Bytes that reach the gauge, and its answers.
    fn carry(&mut self, bytes: &[u8]) {
        for byte in bytes {
            let answer = self.link.take(*byte, &mut self.gauge, &Status::default());
            if answer.is_none() {
                continue;
            }
            let mut frame = self.link.frame().to_vec();
            (self.back)(self.answered, &mut frame);
            self.answered += 1;
            self.arrived.extend(frame);
        }
    }
}

impl Write for Line<'_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let mut carried = bytes.to_vec();
        if bytes != [0] {
            (self.out)(self.asked, &mut carried);
            self.asked += 1;
        }
        self.carry(&carried);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

impl Read for Line<'_> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        if self.arrived.is_empty() {
            return Err(io::ErrorKind::TimedOut.into());
        }
        self.arrived.read(buffer)
    }
}

fn jobs(gauge: &Gauge) -> Vec<Draft> {
    (0..gauge.count())
        .filter_map(|place| gauge.job(place))
        .collect()
}

fn draft() -> Draft {
    let source = Source {
        name: "header.toml".to_owned(),
        text: include_str!("../../../examples/header-tank.toml").to_owned(),
    };
    JobFile::read(source).unwrap().draft
}

fn is_hello(answer: &Result<Reply, LinkError>) -> bool {
    matches!(answer, Ok(Reply::Hello { .. }))
}

#[test]
fn a_job_goes_over_a_clean_line() {
    let mut line = Line::clean();
    let kept = send_job(&mut line, &draft(), &[]).unwrap();
    assert_eq!((kept.place, kept.board.as_str()), (0, "line"));
    assert_eq!(jobs(&line.gauge), [draft()]);
    assert_eq!(
        (line.asked, line.answered),
        (2, 2),
        "hello and keep, once each"
    );
}

#[test]
fn the_rest_of_a_broken_talk_is_cleared_away_first() {
    let mut line = Line::clean();
    let frame = encode(&Request::Forget).unwrap();
    // A request broken off half-way, and an answer to another one that nobody fetched.
    line.carry(&frame[..frame.len() - 2]);
    line.arrived.extend(encode(&Reply::Forgot).unwrap());
    line.arrived.extend([7, 7, 7]);
    assert!(is_hello(&line.ask(&Request::Hello)));
    assert_eq!(line.asked, 1, "it was asked once");
    assert!(line.arrived.is_empty());
}

#[test]
fn a_request_damaged_once_is_asked_again() {
    let mut line = Line::out(|n, frame| {
        if n == 0 {
            frame[1] ^= 0x20;
        }
    });
    assert!(is_hello(&line.ask(&Request::Hello)));
    assert_eq!(line.asked, 2);
}

#[test]
fn a_request_damaged_twice_is_given_up() {
    let mut line = Line::out(|_, frame| frame[2] ^= 0x20);
    let error = line.ask(&Request::Hello).unwrap_err();
    let fault = Fault::Checksum;
    assert!(
        matches!(error, LinkError::Unread { fault: f } if f == fault),
        "{error:?}"
    );
    assert_eq!(line.asked, 2);
}

#[test]
fn an_answer_damaged_once_is_asked_for_again() {
    let damages: [fn(&mut Vec<u8>); 3] = [
        |frame| frame[2] ^= 0x01,
        |frame| frame.truncate(frame.len() - 1),
        |frame| {
            frame.remove(3);
        },
    ];
    for damage in damages {
        let mut line = Line::back(move |n, frame| {
            if n == 0 {
                damage(frame);
            }
        });
        assert!(is_hello(&line.ask(&Request::Hello)));
        assert_eq!(line.asked, 2);
    }
}

#[test]
fn noise_before_an_answer_is_passed_over() {
    let mut line = Line::back(|_, frame| {
        frame.splice(0..0, [0x55, 0xAA, 0x00, 0x00]);
    });
    assert!(is_hello(&line.ask(&Request::Hello)));
    assert_eq!(line.asked, 1);
}

#[test]
fn what_arrives_whole_but_unknown_is_not_asked_again() {
    // The 200th kind of answer, as a later version may know it.
    let unknown = encode(&200_u8).unwrap();
    let mut line = Line::back(move |_, frame| *frame = unknown.to_vec());
    let error = line.ask(&Request::Hello).unwrap_err();
    assert!(
        matches!(
            error,
            LinkError::Garbled {
                fault: Fault::Unknown
            }
        ),
        "{error:?}"
    );
    assert_eq!(line.asked, 1);
    assert!(Failure::from(error).to_string().contains("same version"));
}

#[test]
fn an_answer_to_something_else_is_no_answer() {
    let forgot = encode(&Reply::Forgot).unwrap();
    let mut line = Line::back(move |_, frame| *frame = forgot.to_vec());
    let error = line.ask(&Request::Hello).unwrap_err();
    assert!(matches!(error, LinkError::OutOfStep), "{error:?}");
}

#[test]
fn silence_ends_after_the_limit() {
    let mut line = Line::out(|_, frame| frame.clear());
    let start = Instant::now();
    let error = line.ask(&Request::Status).unwrap_err();
    assert!(matches!(error, LinkError::NoAnswer { waited } if waited == LIMIT));
    assert!(start.elapsed() >= LIMIT);
    assert_eq!(line.asked, 1);
    let failure = Failure::from(error);
    assert_eq!(failure.exit_code(), 1);
    assert!(
        failure
            .to_string()
            .contains("no gauge answered within 0.05 s")
    );
}

/// Reads as told, takes all that is written.
struct Told<F>(F);

impl<F: FnMut(&mut [u8]) -> io::Result<usize>> Read for Told<F> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        (self.0)(buffer)
    }
}

impl<F> Write for Told<F> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

#[test]
fn ports_that_end_fail_or_never_rest() {
    let ask = |read: fn(&mut [u8]) -> io::Result<usize>| {
        ask_on(&mut Told(read), &Request::Hello, LIMIT, SHORT).unwrap_err()
    };
    let closed = ask(|_| Ok(0));
    assert!(matches!(closed, LinkError::Closed), "{closed:?}");
    let failed = ask(|_| Err(io::Error::other("unplugged")));
    assert!(failed.to_string().contains("unplugged"), "{failed:?}");
    let chatter = ask(|buffer| {
        buffer.fill(b'x');
        Ok(buffer.len())
    });
    assert!(matches!(chatter, LinkError::Chatter), "{chatter:?}");
}

fn order() -> Vec<WeldStep> {
    let tank = Tank::build(&draft()).unwrap();
    crate::welding::plan(&tank, &crate::job_file::Extras::default())
        .unwrap()
        .steps()
        .to_vec()
}

#[test]
fn its_order_goes_with_it() {
    // Damaged in every frame once: each is asked again.
    let mut line = Line::back(|n, frame| {
        if n % 2 == 0 {
            frame[1] ^= 0x11;
        }
    });
    let order: Vec<WeldStep> = order().into_iter().cycle().take(130).collect();
    let kept = send_job(&mut line, &draft(), &order).unwrap();
    assert_eq!(kept.order, Carried::Steps(130));
    let sent: Vec<WeldStep> = line.gauge.order_sent(0).steps().collect();
    assert_eq!(sent, order);
    // The same job without an order: the old one was the old job's.
    let mut line = Line {
        back: Box::new(|_, _| ()),
        ..line
    };
    let kept = send_job(&mut line, &draft(), &[]).unwrap();
    assert_eq!(kept.order, Carried::Nothing);
    assert_eq!(line.gauge.order_sent(0).count(), 0);
}

#[test]
fn a_gauge_without_room_for_the_order_has_the_job_without() {
    let mut line = Line::clean();
    let many: Vec<WeldStep> = order().into_iter().cycle().take(200).collect();
    let named = |n: u8| Draft {
        name: format!("job {n}").as_str().try_into().unwrap(),
        ..draft()
    };
    let mut carried = Vec::new();
    let full = loop {
        let n = u8::try_from(carried.len()).unwrap();
        match send_job(&mut line, &named(n), &many) {
            Ok(kept) => carried.push(kept.order),
            Err(error) => break error,
        }
    };
    assert!(matches!(full, SendError::ShelfFull { .. }), "{full:?}");
    assert_eq!(carried[0], Carried::Steps(200));
    assert!(carried.contains(&Carried::NoRoom), "{carried:?}");
    for (place, order) in carried.iter().enumerate() {
        let there: Vec<WeldStep> = line.gauge.order_sent(place).steps().collect();
        match order {
            Carried::Steps(_) => assert_eq!(there, many),
            Carried::NoRoom => assert!(there.is_empty()),
            Carried::Nothing => panic!("an order was lost"),
        }
    }
    let kept = (0..).map(named).take(carried.len());
    assert_eq!(jobs(&line.gauge), kept.collect::<Vec<_>>());
}

#[test]
fn a_gauge_of_another_protocol_gets_no_job() {
    let hello = Reply::Hello {
        protocol: 9,
        board: "later".try_into().unwrap(),
        version: "4.0.0".try_into().unwrap(),
    };
    let hello = encode(&hello).unwrap();
    let mut line = Line::back(move |_, frame| *frame = hello.to_vec());
    let error = send_job(&mut line, &draft(), &[]).unwrap_err();
    assert!(matches!(error, SendError::OtherProtocol { theirs: 9, .. }));
    assert_eq!(line.gauge.count(), 0);
    let failure = Failure::from(error);
    assert_eq!(failure.exit_code(), 1);
    assert!(failure.to_string().contains("version 9"), "{failure}");
}

#[test]
fn a_full_shelf_keeps_what_it_has() {
    let mut line = Line::clean();
    for n in 0..6 {
        let name = format!("job {n}").as_str().try_into().unwrap();
        line.gauge.keep(&Draft { name, ..draft() }).unwrap();
    }
    let error = send_job(&mut line, &draft(), &[]).unwrap_err();
    assert!(
        matches!(error, SendError::ShelfFull { most: 6 }),
        "{error:?}"
    );
    assert_eq!(line.gauge.count(), 6);
    assert_eq!(Failure::from(error).exit_code(), 1);
}

#[test]
fn a_refusal_tells_the_key_and_why() {
    use seamwright_core::input::Field;
    use seamwright_core::tank::{JobError, Problem};
    let refused = encode(&Reply::Refused(JobError {
        field: Field::Name,
        problem: Problem::Unnamed,
    }))
    .unwrap();
    let mut line = Line::back(move |n, frame| {
        if n == 1 {
            *frame = refused.to_vec();
        }
    });
    let failure = Failure::from(send_job(&mut line, &draft(), &[]).unwrap_err());
    assert_eq!(failure.exit_code(), 2);
    assert!(
        failure.to_string().contains("name: the job has no name"),
        "{failure}"
    );
}

/// One byte of a request gone, doubled, changed or turned into a frame's end, at every place in turn:
/// the job arrives by the second try, whole. Only a lost end goes unnoticed by the gauge.
#[test]
fn no_single_damaged_byte_damages_a_job() {
    let request = Request::Keep(draft());
    let length = encode(&request).unwrap().len();
    let damages: [fn(&mut Vec<u8>, usize); 5] = [
        |frame, at| {
            frame.remove(at);
        },
        |frame, at| frame.insert(at, frame[at]),
        |frame, at| frame[at] ^= 0x01,
        |frame, at| frame[at] ^= 0x80,
        |frame, at| frame[at] = 0,
    ];
    for at in 0..length {
        for (kind, damage) in damages.into_iter().enumerate() {
            let mut line = Line::out(|n, frame| {
                if n == 0 {
                    damage(frame, at);
                }
            });
            let answer = line.ask(&request);
            let end_lost = at == length - 1 && matches!(kind, 0 | 2 | 3);
            if end_lost {
                assert!(
                    matches!(answer, Err(LinkError::NoAnswer { .. })),
                    "{answer:?}"
                );
                assert_eq!(line.gauge.count(), 0);
            } else {
                assert!(
                    matches!(answer, Ok(Reply::Kept { place: 0 })),
                    "damage {kind} at {at}: {answer:?}"
                );
                assert_eq!(jobs(&line.gauge), [draft()], "damage {kind} at {at}");
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Whatever lies on the line from before, in either direction, the answer is the one asked for.
    #[test]
    fn any_litter_is_cleared_away(
        to_gauge in prop::collection::vec(any::<u8>(), 0..64),
        to_laptop in prop::collection::vec(any::<u8>(), 0..64),
    ) {
        let mut line = Line::clean();
        line.carry(&to_gauge);
        line.arrived.extend(to_laptop);
        prop_assert!(is_hello(&line.ask(&Request::Hello)));
        prop_assert_eq!(line.asked, 1);
    }
}
