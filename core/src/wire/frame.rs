//! Frames: postcard, CRC-32, COBS, and a closing zero.

use core::fmt;

use crc::{CRC_32_ISO_HDLC, Crc, NoTable};
use heapless::Vec;
use serde::{Serialize, de::DeserializeOwned};

/// Bytes that a message may have with its checksum: a draft with every part at its largest fits.
pub const MAX_MESSAGE: usize = 2_768;

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
    /// What is held is the answer to what came.
    answered: bool,
}

impl Decoder {
    /// With nothing gathered.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            held: Vec::new(),
            overrun: false,
            answered: false,
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
        if self.answered {
            self.held.clear();
            self.answered = false;
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
        self.answered = true;
        pack::<T, MAX_REPLY, MAX_FRAME>(reply, &mut self.held)
    }

    /// The frame of the last reply; empty once the next byte has come.
    #[must_use]
    pub fn replied(&self) -> &[u8] {
        if self.answered { &self.held } else { &[] }
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
        self.held.clear();
        self.overrun = false;
        read
    }
}

fn unpack<T: DeserializeOwned>(frame: &mut [u8]) -> Result<T, Fault> {
    let used = cobs::decode_in_place(frame).map_err(|_| Fault::Packing)?;
    let plain = frame.get(..used).ok_or(Fault::Packing)?;
    let (body, sum) = plain
        .split_last_chunk::<CRC_BYTES>()
        .ok_or(Fault::Packing)?;
    if CRC.checksum(body) != u32::from_le_bytes(*sum) {
        return Err(Fault::Checksum);
    }
    match postcard::take_from_bytes(body) {
        Ok((message, [])) => Ok(message),
        _ => Err(Fault::Unknown),
    }
}
