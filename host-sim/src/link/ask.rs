//! One request and its answer.

use std::fmt;
use std::io::{self, Read, Write};
use std::time::{Duration, Instant};

use seamwright_core::wire::{Decoder, Fault, Reply, Request, encode};

use crate::failure::Failure;

/// A line on which nothing came for so long is quiet.
pub const QUIET: Duration = Duration::from_millis(100);

/// The longest that a line may chatter without a request before it is no gauge's.
const CHATTER: Duration = Duration::from_secs(2);

/// How often a request is sent: once, and once more where it or its answer was damaged.
const TRIES: usize = 2;

/// Bytes read at a time; a frame has up to 1287.
const CHUNK: usize = 512;

/// Why a request has no answer.
#[derive(Debug)]
pub enum LinkError {
    /// The request is longer than the link carries.
    TooLong,
    /// Nothing came back.
    NoAnswer {
        /// How long it was waited for.
        waited: Duration,
    },
    /// Something came back, and no answer could be read from it.
    Garbled {
        /// What was wrong with the last of it.
        fault: Fault,
    },
    /// Whole answers came, and none was to this request.
    OutOfStep,
    /// The gauge could not read the request.
    Unread {
        /// What was wrong with it.
        fault: Fault,
    },
    /// The line talks without being asked.
    Chatter,
    /// The other end has closed the line.
    Closed,
    /// The port failed.
    Port(io::Error),
}

/// Asks the gauge at `port` and waits up to `limit` for the answer. A refusal is an answer.
///
/// Reads of `port` must come back within a moment, with `TimedOut` or `WouldBlock` where nothing
/// came, or the limit is not kept.
///
/// # Errors
/// [`LinkError`] where there is no answer to this request.
pub fn ask<P: Read + Write>(
    port: &mut P,
    request: &Request,
    limit: Duration,
) -> Result<Reply, LinkError> {
    ask_on(port, request, limit, QUIET)
}

/// The same on a line that is quiet after `quiet`.
fn ask_on<P: Read + Write>(
    port: &mut P,
    request: &Request,
    limit: Duration,
    quiet: Duration,
) -> Result<Reply, LinkError> {
    let frame = encode(request).map_err(|_| LinkError::TooLong)?;
    let mut answer = Err(LinkError::NoAnswer { waited: limit });
    for _ in 0..TRIES {
        settle(port, quiet)?;
        send(port, &frame)?;
        answer = await_answer(port, request, limit);
        // What was damaged is worth another try. What arrived whole and was not understood will not
        // be the second time, and a gauge that is silent has been waited for long enough.
        let damaged = match &answer {
            Err(LinkError::Garbled { fault } | LinkError::Unread { fault }) => {
                *fault != Fault::Unknown
            }
            _ => false,
        };
        if !damaged {
            break;
        }
    }
    answer
}

/// Closes what the gauge may have gathered of a broken request, and passes over all that is under
/// way, until the line is quiet.
fn settle<P: Read + Write>(port: &mut P, quiet: Duration) -> Result<(), LinkError> {
    send(port, &[0])?;
    let start = Instant::now();
    let mut heard = start;
    let mut chunk = [0; CHUNK];
    loop {
        if receive(port, &mut chunk)? > 0 {
            heard = Instant::now();
        } else if heard.elapsed() >= quiet {
            return Ok(());
        }
        if start.elapsed() > CHATTER {
            return Err(LinkError::Chatter);
        }
    }
}

fn send<P: Write>(port: &mut P, bytes: &[u8]) -> Result<(), LinkError> {
    let sent = port.write_all(bytes).and_then(|()| port.flush());
    sent.map_err(|error| match error.kind() {
        io::ErrorKind::BrokenPipe | io::ErrorKind::ConnectionReset => LinkError::Closed,
        _ => LinkError::Port(error),
    })
}

/// Reads what has come; 0 where nothing has.
fn receive<P: Read>(port: &mut P, chunk: &mut [u8]) -> Result<usize, LinkError> {
    match port.read(chunk) {
        Ok(0) => Err(LinkError::Closed),
        Ok(count) => Ok(count),
        Err(error) => match error.kind() {
            io::ErrorKind::TimedOut | io::ErrorKind::WouldBlock | io::ErrorKind::Interrupted => {
                Ok(0)
            }
            io::ErrorKind::ConnectionReset => Err(LinkError::Closed),
            _ => Err(LinkError::Port(error)),
        },
    }
}

/// Reads until an answer to `request` comes. What cannot be read, or answers something else, is passed
/// over: the answer may be behind it.
fn await_answer<P: Read>(
    port: &mut P,
    request: &Request,
    limit: Duration,
) -> Result<Reply, LinkError> {
    let mut decoder = Decoder::new();
    let mut chunk = [0; CHUNK];
    let mut trouble = LinkError::NoAnswer { waited: limit };
    let start = Instant::now();
    while start.elapsed() < limit {
        let count = receive(port, &mut chunk)?;
        if count > 0 {
            // Unless its end comes as well, its end was lost.
            let fault = Fault::Packing;
            trouble = LinkError::Garbled { fault };
        }
        for byte in chunk.iter().take(count) {
            match decoder.push::<Reply>(*byte) {
                None => {}
                Some(Ok(Reply::Unread(fault))) => return Err(LinkError::Unread { fault }),
                Some(Ok(reply)) if answers(&reply, request) => return Ok(reply),
                Some(Ok(_)) => trouble = LinkError::OutOfStep,
                Some(Err(fault)) => trouble = LinkError::Garbled { fault },
            }
        }
    }
    Err(trouble)
}

/// Whether `reply` is of a kind that `request` can have.
const fn answers(reply: &Reply, request: &Request) -> bool {
    match request {
        Request::Hello => matches!(reply, Reply::Hello { .. }),
        Request::Keep(_) => matches!(
            reply,
            Reply::Kept { .. } | Reply::ShelfFull { .. } | Reply::Refused(_)
        ),
        Request::Forget => matches!(reply, Reply::Forgot),
        Request::Compute(_) => matches!(reply, Reply::Computed(_) | Reply::Refused(_)),
        Request::Panels { .. } => matches!(reply, Reply::Panels(_) | Reply::NothingHeld),
        Request::Seams { .. } => matches!(reply, Reply::Seams(_) | Reply::NothingHeld),
        Request::Level { .. } => matches!(reply, Reply::Level(_) | Reply::NothingHeld),
        Request::Status => matches!(reply, Reply::Status(_)),
        Request::Order { .. } => matches!(reply, Reply::Ordered { .. } | Reply::ShelfFull { .. }),
    }
}

impl LinkError {
    const fn help(&self) -> &'static str {
        match self {
            Self::TooLong => "use a shorter name or fewer cuts",
            Self::NoAnswer { .. } => {
                "is the gauge switched on, and is this its port? unplug it, plug it in and try again"
            }
            Self::Garbled {
                fault: Fault::Unknown,
            }
            | Self::Unread {
                fault: Fault::Unknown,
            } => "put the same version of Seamwright on the laptop and on the gauge",
            Self::Garbled { .. } | Self::Unread { .. } => {
                "use a shorter cable, away from the arc and the torch lead, and try again"
            }
            Self::OutOfStep => "is another program using this port? close it and try again",
            Self::Chatter => "this port talks unasked, as no gauge does: name another",
            Self::Closed | Self::Port(_) => "check the cable and try again",
        }
    }
}

impl fmt::Display for LinkError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLong => f.write_str("the request is longer than the link can carry"),
            Self::NoAnswer { waited } => {
                write!(f, "no gauge answered within {} s", waited.as_secs_f64())
            }
            Self::Garbled { fault } => write!(f, "the gauge's answer cannot be read: {fault}"),
            Self::OutOfStep => f.write_str("the gauge answered something else than was asked"),
            Self::Unread { fault } => write!(f, "the gauge could not read the request: {fault}"),
            Self::Chatter => write!(f, "the line was not quiet for {} s", CHATTER.as_secs()),
            Self::Closed => f.write_str("the other end closed the line"),
            Self::Port(error) => write!(f, "the port failed: {error}"),
        }
    }
}

impl std::error::Error for LinkError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match self {
            Self::Port(error) => Some(error),
            Self::Garbled { fault } | Self::Unread { fault } => Some(fault),
            _ => None,
        }
    }
}

impl From<LinkError> for Failure {
    fn from(error: LinkError) -> Self {
        Self::other(error.to_string(), error.help())
    }
}

#[cfg(test)]
mod tests;
