//! How each wall bears its load, and how tight a tank is shown to be: against published figures and against numerical
//! solutions written apart from `core`.

// A helper that cannot go on stops its test at once.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

mod bent_plates;
mod discs;
mod heated;
mod intermittent;
mod large_plates;
mod large_walls;
mod leak;
mod leak_made_up;
mod mounts;
mod page;
mod plate_shell;
mod plugs;
mod seams_judged;
mod shared_walls;
mod sloshing;
mod strength;
mod strength_numerical;
mod strips;
mod tank_walls;
mod thin_walls;
