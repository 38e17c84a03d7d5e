//! A serial port of the board, with a thread that always reads it.
//!
//! Without one the whole emulator, its machine protocol too, stops once some 280 bytes lie unread.

use std::{
    io::{self, Read, Write},
    os::unix::net::UnixStream,
    thread,
    time::Duration,
};

use super::{
    failure::{During as _, Failure},
    inbox::Inbox,
};

/// Both directions of a serial line. Reading waits up to the port's time limit, then fails with
/// `TimedOut`, as a serial device does.
#[derive(Debug)]
pub struct Port {
    stream: UnixStream,
    received: Inbox<u8>,
    limit: Duration,
}

impl Port {
    pub(super) fn open(stream: UnixStream, limit: Duration) -> Result<Self, Failure> {
        let received = Inbox::new();
        let reader = stream.try_clone().during("sharing a serial socket")?;
        drain(reader, {
            let received = received.clone();
            move |bytes| received.extend(bytes.iter().copied())
        });
        Ok(Self {
            stream,
            received,
            limit,
        })
    }

    /// How long a read waits for the first byte.
    pub const fn set_time_limit(&mut self, limit: Duration) {
        self.limit = limit;
    }

    /// Waits up to `limit` of real time for a byte.
    pub(super) fn next(&self, limit: Duration) -> Option<u8> {
        self.received
            .wait(limit, |bytes| (!bytes.is_empty()).then(|| bytes.remove(0)))
    }
}

impl Read for Port {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let taken = self.received.wait(self.limit, |bytes| {
            let count = bytes.len().min(buffer.len());
            (count > 0 || buffer.is_empty()).then(|| bytes.drain(..count).collect::<Vec<_>>())
        });
        let taken = taken.ok_or(io::ErrorKind::TimedOut)?;
        for (to, from) in buffer.iter_mut().zip(&taken) {
            *to = *from;
        }
        Ok(taken.len())
    }
}

impl Write for Port {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.stream.write(bytes)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.stream.flush()
    }
}

/// Hands everything that comes to `take`, until the emulator ends.
pub(super) fn drain(mut stream: UnixStream, mut take: impl FnMut(&[u8]) + Send + 'static) {
    thread::spawn(move || {
        let mut buffer = [0; 4096];
        while let Ok(count @ 1..) = stream.read(&mut buffer) {
            take(buffer.get(..count).unwrap_or_default());
        }
    });
}
