//! What went wrong with the emulated board, told so that a failed test explains itself.

use std::{fmt, io};

/// A failure, with all that was known of the board when it happened.
///
/// Tests return it from `main`-like functions; its `Debug` form is the message, so that the test
/// runner prints it readably.
pub struct Failure {
    what: String,
    context: String,
}

impl Failure {
    /// A failure that says what did not go as it should.
    pub fn new(what: impl Into<String>) -> Self {
        Self {
            what: what.into(),
            context: String::new(),
        }
    }

    /// Adds what else was known, below what is told already.
    #[must_use]
    pub fn with_context(mut self, context: &str) -> Self {
        self.context.push_str("\n  ");
        self.context
            .push_str(&context.trim_end().replace('\n', "\n  "));
        self
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.what, self.context)
    }
}

impl fmt::Debug for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl std::error::Error for Failure {}

/// Says what was being done when something else failed.
pub(super) trait During<T> {
    fn during(self, what: &str) -> Result<T, Failure>;
}

impl<T, E: fmt::Display> During<T> for Result<T, E> {
    fn during(self, what: &str) -> Result<T, Failure> {
        self.map_err(|error| Failure::new(format!("{what}: {error}")))
    }
}

/// Whether a read or write ended only because its time was up.
pub(super) fn is_timeout(error: &io::Error) -> bool {
    matches!(
        error.kind(),
        io::ErrorKind::WouldBlock | io::ErrorKind::TimedOut
    )
}
