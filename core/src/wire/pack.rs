//! Drafts as bytes to keep: the same postcard bytes as on the wire, without frame or checksum.

use crate::input::Draft;
use crate::input::limits::MAX_NAME;

/// Bytes that a draft with every part at its largest takes.
pub const MAX_PACKED: usize = 2_872;

/// Writes a draft into `room` and tells how many bytes it took; `None` where there is too little room,
/// and `room` is then of no use.
#[must_use]
pub fn pack(draft: &Draft, room: &mut [u8]) -> Option<usize> {
    postcard::to_slice(draft, room).ok().map(|used| used.len())
}

/// The draft that was packed; `None` for bytes that are none.
#[must_use]
pub fn unpack(bytes: &[u8]) -> Option<Draft> {
    Draft::read(&mut postcard::Deserializer::from_bytes(bytes)).ok()
}

/// The packed draft in the bytes of a request that carries one and nothing else: what follows its kind, of which there
/// are fewer than 128.
#[must_use]
pub fn draft_in(message: &[u8]) -> Option<&[u8]> {
    message.split_first().map(|(_, draft)| draft)
}

/// The name of a packed draft, which is its first part: a length of one byte, then the text.
#[must_use]
pub fn name_of(bytes: &[u8]) -> Option<&str> {
    const { assert!(MAX_NAME < 0x80, "a longer name has a length of two bytes") };
    let (length, rest) = bytes.split_first()?;
    core::str::from_utf8(rest.get(..usize::from(*length))?).ok()
}
