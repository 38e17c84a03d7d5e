//! Jobs and results as messages between the laptop and the gauge.
//!
//! The laptop asks and the gauge answers, one [`Reply`] for each [`Request`]; the gauge never speaks
//! unasked. A message is its `postcard` encoding and a CRC-32, packed by COBS and closed by a zero byte,
//! so that either side finds the next message after any disturbance. `core/docs/wire.md` is the
//! written specification.

mod frame;
mod message;
mod pack;

pub use frame::{
    Decoder, Fault, MAX_FRAME, MAX_MESSAGE, MAX_REPLY, MAX_REPLY_FRAME, encode, encode_reply,
};
pub use message::{
    BATCH, PROTOCOL, Reply, Request, STEPS, SeamReport, Status, Summary, Text, summary,
};
pub use pack::{MAX_PACKED, draft_in, name_of, pack, unpack};
