//! The bench gauge from the laptop: shown in a terminal, fed over a line, and the wire between them.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "what the tests share may fail as the tests themselves may"
)]

#[cfg(unix)]
mod link;
#[cfg(unix)]
mod terminal;
mod wire_types;

/// Job files of the examples.
const HEADER: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/header-tank.toml");
const RINSE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/rinse-tank.toml");
