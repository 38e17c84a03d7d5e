//! Putting a job on the gauge's shelf.

use std::fmt;
use std::io::{Read, Write};
use std::time::Duration;

use seamwright_core::job::{Draft, JobError};
use seamwright_core::wire::{PROTOCOL, Reply, Request, Text};

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
}

impl fmt::Display for Kept {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            place,
            board,
            version,
        } = self;
        let place = u16::from(*place) + 1;
        write!(
            f,
            "The job is number {place} on the gauge's shelf ({board}, program {version})."
        )
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

/// Puts a job on the shelf of the gauge at `port`, in place of one of the same name. The gauge is first
/// asked who it is. `port` must read as [`ask`] wants it.
///
/// # Errors
/// [`SendError`] where the job is not on the shelf. After [`LinkError`] it may be: its answer can have
/// been lost. Sending it again does no harm.
pub fn send_job<P: Read + Write>(port: &mut P, draft: &Draft) -> Result<Kept, SendError> {
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
    match ask(port, &Request::Keep(draft.clone()), KEEP_LIMIT)? {
        Reply::Kept { place } => Ok(Kept {
            place,
            board,
            version,
        }),
        Reply::ShelfFull { most } => Err(SendError::ShelfFull { most }),
        Reply::Refused(error) => Err(SendError::Refused(error)),
        _ => Err(LinkError::OutOfStep.into()),
    }
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
                write!(f, "the gauge's shelf is full: it takes {most} jobs")
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
