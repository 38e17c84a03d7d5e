//! The board's log: defmt frames from its second serial port, decoded as they come.

use std::{fmt, os::unix::net::UnixStream, time::Duration};

use defmt_decoder::{DecodeError, Table};

use super::{
    failure::{During as _, Failure},
    inbox::Inbox,
    serial::drain,
};

/// One line of the log.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// The board's clock when it was written, as printed.
    pub time: String,
    /// "info", "error" and so on; empty for a line without a level.
    pub level: String,
    /// What it says.
    pub message: String,
}

impl Line {
    /// The figure written as `name=123` in the message.
    #[must_use]
    pub fn figure(&self, name: &str) -> Option<u64> {
        let words = self.message.split(|c: char| c.is_whitespace() || c == ',');
        words
            .filter_map(|word| word.split_once('='))
            .find(|(key, _)| *key == name)?
            .1
            .parse()
            .ok()
    }
}

impl fmt::Display for Line {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:>9} {:5} {}", self.time, self.level, self.message)
    }
}

/// All lines since the machine was started.
#[derive(Debug)]
pub struct Log {
    lines: Inbox<Line>,
}

impl Log {
    /// Starts decoding what `stream` brings by the table in the program's `elf`.
    pub(super) fn open(stream: UnixStream, elf: &[u8]) -> Result<Self, Failure> {
        // Parsed once here, to fail early, and again in the thread, which its decoder must borrow from.
        parse(elf)?;
        let lines = Inbox::new();
        let elf = elf.to_vec();
        let (to, from) = std::sync::mpsc::channel::<Vec<u8>>();
        drain(stream, move |bytes| {
            // The decoding thread outlives this one.
            let _ = to.send(bytes.to_vec());
        });
        let filled = lines.clone();
        std::thread::spawn(move || {
            let Ok(table) = parse(&elf) else { return };
            let mut decoder = table.new_stream_decoder();
            for bytes in from {
                decoder.received(&bytes);
                loop {
                    match decoder.decode() {
                        Ok(frame) => filled.extend([Line {
                            time: frame
                                .display_timestamp()
                                .map(|time| time.to_string())
                                .unwrap_or_default(),
                            level: frame
                                .level()
                                .map(|level| level.as_str().to_owned())
                                .unwrap_or_default(),
                            message: frame.display_message().to_string(),
                        }]),
                        Err(DecodeError::UnexpectedEof) => break,
                        Err(DecodeError::Malformed) => filled.extend([Line {
                            time: String::new(),
                            level: "error".to_owned(),
                            message: "(a log frame that cannot be decoded)".to_owned(),
                        }]),
                    }
                }
            }
        });
        Ok(Self { lines })
    }

    /// The lines so far.
    #[must_use]
    pub fn lines(&self) -> Vec<Line> {
        self.lines.items().clone()
    }

    /// How many lines there are, to wait for one that is yet to come (see
    /// [`Board::wait_for_line`](super::Board::wait_for_line)).
    #[must_use]
    pub fn mark(&self) -> usize {
        self.lines.items().len()
    }

    /// Waits up to `limit` of real time for a line, counted from `mark`, that `wanted` takes.
    pub(super) fn wait_from(
        &self,
        mark: usize,
        limit: Duration,
        wanted: impl Fn(&Line) -> bool,
    ) -> Option<Line> {
        self.lines.wait(limit, |lines| {
            lines.iter().skip(mark).find(|line| wanted(line)).cloned()
        })
    }

    /// Whether the firmware has told, from `mark` on, that a panic or a fault stopped it.
    pub(super) fn tells_of_stop(&self, mark: usize) -> bool {
        let lines = self.lines.items();
        lines
            .iter()
            .skip(mark)
            .any(|line| line.message.starts_with("stopped"))
    }

    /// The last lines, to tell what happened.
    pub(super) fn tail(&self) -> String {
        let lines = self.lines();
        let start = lines.len().saturating_sub(25);
        let mut text = format!("log ({} lines, the last of them):\n", lines.len());
        for line in lines.iter().skip(start) {
            text.push_str(&format!("{line}\n"));
        }
        text
    }
}

fn parse(elf: &[u8]) -> Result<Table, Failure> {
    Table::parse(elf)
        .during("reading the log's table from the board's program")?
        .ok_or_else(|| {
            Failure::new("the board's program holds no log table: it was linked without defmt.x")
        })
}
