//! The bench gauge as a library: what it shows, how its buttons read, and what is sent to its display.
//!
//! Nothing here knows a chip. Bottom up:
//!
//! - [`frame`] holds the picture as the display's memory does and finds what changed in it;
//! - [`glass`] is the seam to a display: a trait that takes a window, and sending only the difference;
//! - [`ink`], [`text`], [`figures`] and [`pen`] are what a page is written with;
//! - [`picture`] draws the tank from its own geometry;
//! - [`amount`] puts quantities into the units that the gauge shows;
//! - [`buttons`] turns bouncing contacts into presses, repeats and holds;
//! - [`page`] has the screens, and [`gauge`] says which is shown and what the buttons do there;
//! - [`link`] answers what the laptop asks.
//!
//! A board supplies a [`glass::Glass`], a [`buttons::Keys`] and a clock in milliseconds. No heap, no
//! `unsafe`, and no panic of our own: a screen that cannot be drawn is shown as far as it goes.
#![no_std]

#[cfg(test)]
extern crate std;

#[cfg(test)]
mod bench;

pub mod amount;
pub mod buttons;
pub mod figures;
pub mod frame;
pub mod gauge;
pub mod glass;
pub mod ink;
pub mod link;
mod log;
pub mod page;
pub mod pen;
pub mod picture;
pub mod text;
