//! Why a command did not do what it was asked, and the exit status that says so.

use std::fmt;

use crate::diagnostics::{Report, clean};

/// Why a command failed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Failure {
    /// A file with problems that can be pointed at.
    Problems(Box<Report>),
    /// Bad input with no place in a file: an argument, a path.
    Input {
        /// What is wrong.
        message: String,
        /// The way out.
        help: String,
    },
    /// Anything else: the machine, a device, a bug.
    Other {
        /// What went wrong.
        message: String,
        /// The way out; empty if there is none to tell.
        help: String,
    },
}

impl Failure {
    /// Bad input.
    pub fn input(message: impl Into<String>, help: impl Into<String>) -> Self {
        Self::Input {
            message: message.into(),
            help: help.into(),
        }
    }

    /// Anything else.
    pub fn other(message: impl Into<String>, help: impl Into<String>) -> Self {
        Self::Other {
            message: message.into(),
            help: help.into(),
        }
    }

    /// The process's exit status: 2 for bad input, 1 for anything else.
    #[must_use]
    pub const fn exit_code(&self) -> u8 {
        match self {
            Self::Problems(_) | Self::Input { .. } => 2,
            Self::Other { .. } => 1,
        }
    }

    /// The message as shown on standard error, with terminal colours if `colour`.
    #[must_use]
    pub fn render(&self, colour: bool) -> String {
        match self {
            Self::Problems(report) => report.render(colour),
            Self::Input { message, help } | Self::Other { message, help } => {
                let (red, bold, plain) = if colour {
                    ("\u{1b}[1;31m", "\u{1b}[1m", "\u{1b}[0m")
                } else {
                    ("", "", "")
                };
                let mut text = format!("{red}error{plain}{bold}: {}{plain}\n", clean(message));
                if !help.is_empty() {
                    text.push_str(&format!("  = {bold}help{plain}: {}\n", clean(help)));
                }
                text
            }
        }
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.render(false))
    }
}

impl std::error::Error for Failure {}

impl From<Report> for Failure {
    fn from(report: Report) -> Self {
        Self::Problems(Box::new(report))
    }
}
