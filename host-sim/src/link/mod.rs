//! A gauge on a cable: jobs go out, answers come back.
//!
//! [`ask`] sends one request over anything that reads and writes and waits for its answer;
//! [`send_job`] puts a job on the gauge's shelf, with the order of its stitches; [`Port`] is the serial device or the socket. What
//! goes over the line is `seamwright_core::wire`, whose specification is `core/docs/wire.md`.
//!
//! # Staying in step
//! The gauge answers every frame that it receives with one frame, so a laptop that is out of step by
//! one answer would take the last answer for this one. [`ask`] therefore begins with a lone zero byte,
//! which closes whatever a broken talk has left in the gauge, and then passes over all that comes
//! until the line is quiet. What is damaged on the way is asked for once more; every request may be
//! asked twice without harm.

mod ask;
mod port;
mod send;

pub use ask::{LinkError, QUIET, ask};
pub use port::{BAUD, Port, PortError};
pub use send::{Carried, Kept, SendError, send_job};

use seamwright_core::input::Draft;
use seamwright_core::weld::WeldStep;

use crate::failure::Failure;

/// Sends a job and the order of its stitches to the gauge at `port`: a serial device such as `/dev/ttyUSB0`, or `unix:PATH` for a
/// socket. What it returns prints as the sentence to show.
///
/// # Errors
/// Bad input: no such port, or a job that the gauge refuses. Anything else: no gauge answers, it
/// speaks another protocol, its shelf is full, or the line is bad.
pub fn command(draft: &Draft, order: &[WeldStep], port: &str) -> Result<Kept, Failure> {
    let mut port = Port::open(port)?;
    Ok(send_job(&mut port, draft, order)?)
}
