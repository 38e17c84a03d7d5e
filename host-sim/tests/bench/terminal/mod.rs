//! `seamwright bench` in a pseudo-terminal: what it shows, and how it leaves.
mod ends;
mod refuses;
mod shows;
mod stand_in;
mod window;
