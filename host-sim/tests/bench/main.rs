//! `seamwright bench` in a pseudo-terminal: what it shows, and how it leaves.
#![cfg(unix)]
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "what the tests share may fail as the tests themselves may"
)]

mod ends;
mod refuses;
mod shows;
mod stand_in;
mod window;
