//! The bench gauge as a library: what it shows, how its buttons read, and what is sent to its display.
//!
//! Nothing here knows a chip. Bottom up, no module using one that stands after it:
//!
//! - `bench` has jobs for the unit tests, and is there only with them;
//! - `log` tells through defmt what the gauge does;
//! - [`ink`] names the greys;
//! - [`frame`] holds the picture as the display's memory does;
//! - [`glass`] is the seam to a display: a trait that takes a window and says what one costs, and sending only the
//!   difference;
//! - [`buttons`] turns bouncing contacts into presses, repeats and holds;
//! - [`text`] has the letters and breaks lines;
//! - [`figures`] are large numbers and words;
//! - [`pen`] writes a page with these, and keeps account of what stands where;
//! - [`amount`] puts quantities into the units that the gauge shows;
//! - [`picture`] draws the tank from its own geometry;
//! - [`work`] is an open job as pages see it: tank, order of the stitches, units;
//! - [`page`] has the pages, a file each, their list, and the kinds of gauges that have them;
//! - [`gauge`] says what is shown, and what the buttons do there;
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
pub mod work;
