//! Putting a job on the gauge's shelf.

use std::fmt;
use std::io::{Read, Write};
use std::time::Duration;

use heapless::Vec;
use seamwright_core::input::Draft;
use seamwright_core::tank::JobError;
use seamwright_core::weld::WeldStep;
use seamwright_core::wire::{PROTOCOL, Reply, Request, STEPS, Text};

use super::{LinkError, ask};
use crate::failure::Failure;

/// How long a gauge may take to say who it is. It may be computing a tank, which takes up to two
/// seconds.
const HELLO_LIMIT: Duration = Duration::from_secs(4);
/// How long it may take to keep a job: if that job is open, it is computed anew and drawn first.
const KEEP_LIMIT: Duration = Duration::from_secs(8);

/// A job that stands on a gauge's shelf.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Kept {
    /// Its place, counted from 0.
    pub place: u8,
    /// The gauge's board.
    pub board: Text,
    /// The version of the gauge's program.
    pub version: Text,
    /// What became of the order of its stitches.
    pub order: Carried,
}

/// What became of the order of a job's stitches.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Carried {
    /// There was none.
    Nothing,
    /// So many steps stand beside the job.
    Steps(u16),
    /// The shelf had no room for it; the job is there without.
    NoRoom,
}

impl fmt::Display for Kept {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            place,
            board,
            version,
            order,
        } = self;
        let place = u16::from(*place) + 1;
        write!(f, "The job is number {place} on the gauge's shelf")?;
        match order {
            Carried::Nothing => {}
            Carried::Steps(steps) => write!(f, ", with the order of its {steps} stitches")?,
            Carried::NoRoom => {
                f.write_str(", where there was no room for the order of its stitches")?;
            }
        }
        write!(f, " ({board}, program {version}).")
    }
}

/// Why a job is not on the gauge's shelf.
#[derive(Debug)]
pub enum SendError {
    /// There was no answer.
    Link(LinkError),
    /// The gauge speaks another version of the protocol; nothing was sent.
    OtherProtocol {
        /// The gauge's version; ours is [`PROTOCOL`].
        theirs: u16,
        /// Its board.
        board: Text,
        /// The version of its program.
        version: Text,
    },
    /// The shelf is full, and what is on it is as it was.
    ShelfFull {
        /// How many jobs it takes.
        most: u8,
    },
    /// The gauge cannot compute the job.
    Refused(JobError),
}

/// Puts a job on the shelf of the gauge at `port`, in place of one of the same name, and beside it the order in which
/// its stitches are welded, if there is one. The gauge is first asked who it is. `port` must read as [`ask`] wants it.
///
/// # Errors
/// [`SendError`] where the job is not on the shelf. After [`LinkError`] it may be: its answer can have
/// been lost. Sending it again does no harm.
pub fn send_job<P: Read + Write>(
    port: &mut P,
    draft: &Draft,
    order: &[WeldStep],
) -> Result<Kept, SendError> {
    let (board, version) = match ask(port, &Request::Hello, HELLO_LIMIT)? {
        Reply::Hello {
            protocol: PROTOCOL,
            board,
            version,
        } => (board, version),
        Reply::Hello {
            protocol: theirs,
            board,
            version,
        } => {
            return Err(SendError::OtherProtocol {
                theirs,
                board,
                version,
            });
        }
        _ => return Err(LinkError::OutOfStep.into()),
    };
    let place = match ask(port, &Request::Keep(draft.clone()), KEEP_LIMIT)? {
        Reply::Kept { place } => place,
        Reply::ShelfFull { most } => return Err(SendError::ShelfFull { most }),
        Reply::Refused(error) => return Err(SendError::Refused(error)),
        _ => return Err(LinkError::OutOfStep.into()),
    };
    Ok(Kept {
        place,
        board,
        version,
        order: send_order(port, place, order)?,
    })
}

/// Puts the order beside the job, some steps at a time.
fn send_order<P: Read + Write>(
    port: &mut P,
    place: u8,
    order: &[WeldStep],
) -> Result<Carried, SendError> {
    let mut have = 0_u16;
    for steps in order.chunks(STEPS) {
        let request = Request::Order {
            place,
            from: have,
            steps: steps.iter().copied().collect(),
        };
        let sent = usize::from(have) + steps.len();
        match ask(port, &request, HELLO_LIMIT)? {
            Reply::Ordered { steps } if usize::from(steps) == sent => have = steps,
            Reply::ShelfFull { .. } => {
                // What came of it already must not be taken for the whole.
                let none = Request::Order {
                    place,
                    from: 0,
                    steps: Vec::new(),
                };
                ask(port, &none, HELLO_LIMIT)?;
                return Ok(Carried::NoRoom);
            }
            _ => return Err(LinkError::OutOfStep.into()),
        }
    }
    Ok(if have > 0 {
        Carried::Steps(have)
    } else {
        Carried::Nothing
    })
}

impl fmt::Display for SendError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Link(error) => error.fmt(f),
            Self::OtherProtocol {
                theirs,
                board,
                version,
            } => write!(
                f,
                "the gauge ({board}, program {version}) speaks version {theirs} of the protocol and this program version {PROTOCOL}"
            ),
            Self::ShelfFull { most } => {
                write!(
                    f,
                    "the gauge's shelf is full: it takes {most} jobs, or fewer with long orders"
                )
            }
            Self::Refused(error) => write!(f, "the gauge refuses the job: {error}"),
        }
    }
}

impl std::error::Error for SendError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match self {
            Self::Link(error) => Some(error),
            Self::Refused(error) => Some(error),
            Self::OtherProtocol { .. } | Self::ShelfFull { .. } => None,
        }
    }
}

impl From<LinkError> for SendError {
    fn from(error: LinkError) -> Self {
        Self::Link(error)
    }
}

impl From<SendError> for Failure {
    fn from(error: SendError) -> Self {
        let text = error.to_string();
        match error {
            SendError::Link(error) => error.into(),
            SendError::OtherProtocol { .. } => Self::other(
                text,
                "put the same version of Seamwright on the laptop and on the gauge",
            ),
            SendError::ShelfFull { .. } => Self::other(
                text,
                "a job of the same name takes the old one's place; switching the gauge off clears its shelf",
            ),
            SendError::Refused(_) => Self::input(text, "mend the job file and send it again"),
        }
    }
}
