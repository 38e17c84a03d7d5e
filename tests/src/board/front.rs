//! Display and buttons of the full gauge, at the end of a serial line (`firmware/boards/mps2/src/front.rs`).
//!
//! The harness keeps every picture as it grows window by window. Which of them are whole the board tells
//! by how many bytes it has sent to its display.

use std::{io::Write as _, os::unix::net::UnixStream};

use seamwright_core::wire::{Reply, Request};
use seamwright_firmware::frame::{FRAME_BYTES, ROW_BYTES, Window};

use super::{
    Board, Face, LIMIT, Screen,
    failure::{During as _, Failure},
    inbox::Inbox,
    serial::drain,
};

/// Bytes that set a window.
const COMMAND_BYTES: usize = 6;

/// What a display has been sent so far, and what it shows then; or what is wrong with it.
type Shown = Result<(u64, Vec<u8>), String>;

/// Our end of the line.
#[derive(Debug)]
pub(super) struct Front {
    stream: UnixStream,
    pictures: Inbox<Shown>,
}

impl Front {
    /// Keeps what is shown from now on.
    pub(super) fn open(stream: UnixStream) -> Result<Self, Failure> {
        let pictures = Inbox::new();
        let reader = stream.try_clone().during("sharing a serial socket")?;
        drain(reader, {
            let pictures = pictures.clone();
            let mut glass = Glass::new();
            move |bytes| glass.take(bytes, |shown| pictures.extend([shown]))
        });
        Ok(Self { stream, pictures })
    }

    /// Which contacts are closed, and for how many milliseconds at least.
    pub(super) fn move_contacts(&mut self, moves: &[(u8, u8)]) -> Result<(), Failure> {
        let bytes: Vec<u8> = moves
            .iter()
            .flat_map(|(closed, ms)| [*closed, *ms])
            .collect();
        self.stream.write_all(&bytes).during("moving the buttons")
    }

    /// Waits for the picture that `wanted` takes by the bytes sent for it.
    fn wait(&self, what: &str, wanted: impl Fn(u64) -> bool) -> Result<Screen, Failure> {
        let found = self.pictures.wait(LIMIT, |pictures| {
            let is = |shown: &&Shown| shown.as_ref().map_or(true, |(sent, _)| wanted(*sent));
            pictures.iter().rev().find(is).cloned()
        });
        match found {
            Some(Ok((_, bytes))) => Ok(Screen::from_packed(bytes.into_iter())),
            Some(Err(wrong)) => Err(Failure::new(wrong)),
            None => Err(Failure::new(format!("waited {LIMIT:?} for {what}"))),
        }
    }
}

impl Board {
    /// What the display shows after all that the board says it has sent.
    pub(super) fn last_picture(&mut self) -> Result<Screen, Failure> {
        let status = match self.ask(&Request::Status)? {
            Reply::Status(status) => status,
            other => return Err(Failure::new(format!("no status but {other:?}"))),
        };
        let sent = u64::from(status.display_bytes);
        self.front()?.wait("the picture", |by_now| by_now >= sent)
    }

    /// What the display of the full gauge showed once so many bytes were sent to it in all.
    ///
    /// # Errors
    /// When no such picture comes.
    pub fn picture_at(&mut self, sent: u64) -> Result<Screen, Failure> {
        self.front()?
            .wait(&format!("the picture at {sent} bytes"), |by_now| {
                by_now == sent
            })
    }

    fn front(&self) -> Result<&Front, Failure> {
        match &self.face {
            Face::Line(front) => Ok(front),
            Face::Own { .. } => Err(Failure::new("this board has a display of its own")),
        }
    }
}

/// The display's memory, and what has come of the next window.
struct Glass {
    memory: Vec<u8>,
    coming: Vec<u8>,
    sent: u64,
}

impl Glass {
    fn new() -> Self {
        Self {
            // Not dark: what a display holds at power-on is not known.
            memory: vec![0x5A; FRAME_BYTES],
            coming: Vec::new(),
            sent: 0,
        }
    }

    fn take(&mut self, bytes: &[u8], mut show: impl FnMut(Shown)) {
        self.coming.extend_from_slice(bytes);
        loop {
            let Some((head, rest)) = self.coming.split_at_checked(COMMAND_BYTES) else {
                return;
            };
            let window = match *head {
                [0x15, left, right, 0x75, top, bottom] => Window::new(left, top, right, bottom),
                _ => None,
            };
            let Some(window) = window else {
                show(Err(format!("the display was sent {head:02x?}")));
                self.coming.clear();
                return;
            };
            let Some((picture, _)) = rest.split_at_checked(window.bytes()) else {
                return;
            };
            let width = usize::from(window.right() - window.left()) + 1;
            for (row, part) in (usize::from(window.top())..).zip(picture.chunks(width)) {
                let from = row * ROW_BYTES + usize::from(window.left());
                if let Some(place) = self.memory.get_mut(from..from + width) {
                    place.copy_from_slice(part);
                }
            }
            let length = COMMAND_BYTES + window.bytes();
            self.sent += length as u64;
            self.coming.drain(..length);
            show(Ok((self.sent, self.memory.clone())));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(pieces: &[&[u8]]) -> Vec<Shown> {
        let mut glass = Glass::new();
        let mut all = Vec::new();
        for piece in pieces {
            glass.take(piece, |one| all.push(one));
        }
        all
    }

    #[test]
    fn a_window_in_pieces_is_one_picture() {
        // Byte columns 1 and 2 of rows 3 and 4.
        let all = shown(&[
            &[0x15, 1, 2, 0x75],
            &[3, 4, 0xA1, 0xA2, 0xB1],
            &[0xB2, 0x15],
        ]);
        let [Ok((10, memory))] = all.as_slice() else {
            panic!("{} pictures", all.len());
        };
        let lit: Vec<_> = (0..FRAME_BYTES).filter(|at| memory[*at] != 0x5A).collect();
        assert_eq!(lit, [193, 194, 257, 258]);
        assert_eq!(
            [193, 194, 257, 258].map(|at| memory[at]),
            [0xA1, 0xA2, 0xB1, 0xB2]
        );
    }

    #[test]
    fn another_command_or_a_window_off_the_display_is_told() {
        assert!(matches!(
            shown(&[&[0x81, 0x40, 0, 0, 0, 0]]).as_slice(),
            [Err(_)]
        ));
        assert!(matches!(
            shown(&[&[0x15, 0, 64, 0x75, 0, 0]]).as_slice(),
            [Err(_)]
        ));
    }
}
