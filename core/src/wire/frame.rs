//! Frames: postcard, CRC-32, COBS, and a closing zero.

use core::fmt;

use crc::{CRC_32_ISO_HDLC, Crc, NoTable};
use heapless::Vec;
use serde::{Serialize, de::DeserializeOwned};

/// Bytes that a message may have with its checksum: a draft with every part at its largest fits.
pub const MAX_MESSAGE: usize = 2_880;

/// Bytes that a frame may have: COBS adds one byte in 254, and the closing zero.
pub const MAX_FRAME: usize = MAX_MESSAGE + MAX_MESSAGE / 254 + 2;

/// Bytes that a reply may have with its checksum: a batch of seams fits.
pub const MAX_REPLY: usize = 1_280;

/// Bytes that the frame of a reply may have.
pub const MAX_REPLY_FRAME: usize = MAX_REPLY + MAX_REPLY / 254 + 2;

/// Without a table: a kilobyte of flash matters more than the time for a few hundred bytes.
const CRC: Crc<u32, NoTable> = Crc::<u32, NoTable>::new(&CRC_32_ISO_HDLC);
const CRC_BYTES: usize = 4;

/// Why a frame could not be made or read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Fault {
    /// Longer than a frame may be.
    TooLong,
    /// The packing is broken: bytes were lost or added.
    Packing,
    /// The checksum differs: bytes were changed.
    Checksum,
    /// The bytes arrived whole but are no message of this protocol.
    Unknown,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::TooLong => "the message is longer than the link can carry",
            Self::Packing => "bytes were lost on the way",
            Self::Checksum => "bytes were changed on the way",
            Self::Unknown => "the message belongs to another version of the protocol",
        })
    }
}

impl core::error::Error for Fault {}

/// Packs a message into a frame, closing zero included.
///
/// # Errors
/// [`Fault::TooLong`] where it does not fit.
pub fn encode<T: Serialize>(message: &T) -> Result<Vec<u8, MAX_FRAME>, Fault> {
    let mut frame = Vec::new();
    pack::<T, MAX_MESSAGE, MAX_FRAME>(message, &mut frame)?;
    Ok(frame)
}

/// Packs a reply, which is far shorter than a draft, into a frame.
///
/// # Errors
/// [`Fault::TooLong`] where it does not fit.
pub fn encode_reply<T: Serialize>(
    reply: &T,
    frame: &mut Vec<u8, MAX_REPLY_FRAME>,
) -> Result<(), Fault> {
    pack::<T, MAX_REPLY, MAX_REPLY_FRAME>(reply, frame)
}

// Out of line: the plain bytes are on the stack only here.
#[inline(never)]
fn pack<T: Serialize, const MESSAGE: usize, const FRAME: usize>(
    message: &T,
    frame: &mut Vec<u8, FRAME>,
) -> Result<(), Fault> {
    frame.clear();
    let mut plain = [0_u8; MESSAGE];
    let room = plain.get_mut(..MESSAGE - CRC_BYTES).ok_or(Fault::TooLong)?;
    let used = postcard::to_slice(message, room)
        .map_err(|_| Fault::TooLong)?
        .len();
    let sum = CRC
        .checksum(plain.get(..used).ok_or(Fault::TooLong)?)
        .to_le_bytes();
    let tail = plain
        .get_mut(used..used + CRC_BYTES)
        .ok_or(Fault::TooLong)?;
    tail.copy_from_slice(&sum);
    let plain = plain.get(..used + CRC_BYTES).ok_or(Fault::TooLong)?;

    frame
        .resize(cobs::max_encoding_length(plain.len()), 0)
        .map_err(|_| Fault::TooLong)?;
    let packed = cobs::try_encode(plain, frame).map_err(|_| Fault::TooLong)?;
    frame.truncate(packed);
    frame.push(0).map_err(|_| Fault::TooLong)
}

/// Gathers bytes as they come and gives a message at each closing zero.
#[derive(Debug, Default)]
pub struct Decoder {
    held: Vec<u8, MAX_FRAME>,
    overrun: bool,
    /// What of it is not gathered but left to look at: it goes when the next byte comes.
    left: Left,
}

/// What a decoder holds besides what it gathers.
// Its tag stands apart (`repr`), so that the first is zero.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[repr(u8)]
enum Left {
    #[default]
    Nothing,
    /// The bytes of the message that was read, its frame and checksum taken off.
    Message,
    /// The frame of the answer to it.
    Answer,
}

impl Decoder {
    /// With nothing gathered.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            held: Vec::new(),
            overrun: false,
            left: Left::Nothing,
        }
    }

    /// Takes one byte; `Some` where it closes a frame. Empty frames are passed over, so a sender may
    /// open with a zero to clear whatever lies on the line. After a fault the next frame is read
    /// afresh.
    pub fn push<T: DeserializeOwned>(&mut self, byte: u8) -> Option<Result<T, Fault>> {
        self.gather(byte).then(|| self.read())
    }

    /// Takes one byte and tells whether it closes a frame, which [`Decoder::read`] then reads.
    pub fn gather(&mut self, byte: u8) -> bool {
        if self.left != Left::Nothing {
            self.held.clear();
            self.left = Left::Nothing;
        }
        if byte != 0 {
            self.overrun |= self.held.push(byte).is_err();
            return false;
        }
        !self.held.is_empty()
    }

    /// Packs the reply to what was read into the place where that lay, which has no more use: a small machine has
    /// no room for both. It stays until the next byte comes.
    ///
    /// # Errors
    /// [`Fault::TooLong`] where it does not fit the bound of replies.
    pub fn reply<T: Serialize>(&mut self, reply: &T) -> Result<(), Fault> {
        self.left = Left::Answer;
        pack::<T, MAX_REPLY, MAX_FRAME>(reply, &mut self.held)
    }

    /// The frame of the last reply; empty once the next byte has come.
    #[must_use]
    pub fn replied(&self) -> &[u8] {
        self.left_as(Left::Answer)
    }

    /// The bytes of the message that was read last, as postcard packed it; empty once it is replied to or the next
    /// byte has come.
    #[must_use]
    pub fn message(&self) -> &[u8] {
        self.left_as(Left::Message)
    }

    fn left_as(&self, left: Left) -> &[u8] {
        if self.left == left { &self.held } else { &[] }
    }

    /// Reads the frame that was gathered, and is ready for the next.
    ///
    /// # Errors
    /// What is wrong with it.
    pub fn read<T: DeserializeOwned>(&mut self) -> Result<T, Fault> {
        let read = if self.overrun {
            Err(Fault::TooLong)
        } else {
            unpack(&mut self.held)
        };
        self.overrun = false;
        self.left = Left::Message;
        match read {
            Ok((message, used)) => {
                self.held.truncate(used);
                Ok(message)
            }
            Err(fault) => {
                self.held.clear();
                Err(fault)
            }
        }
    }
}

/// The message in a frame, and how many bytes it has at the frame's start once the packing is off.
fn unpack<T: DeserializeOwned>(frame: &mut [u8]) -> Result<(T, usize), Fault> {
    let used = cobs::decode_in_place(frame).map_err(|_| Fault::Packing)?;
    let plain = frame.get(..used).ok_or(Fault::Packing)?;
    let (body, sum) = plain
        .split_last_chunk::<CRC_BYTES>()
        .ok_or(Fault::Packing)?;
    if CRC.checksum(body) != u32::from_le_bytes(*sum) {
        return Err(Fault::Checksum);
    }
    match postcard::take_from_bytes(body) {
        Ok((message, [])) => Ok((message, body.len())),
        _ => Err(Fault::Unknown),
    }
}
