//! The proof that core's calculations cannot panic: this program links.
//!
//! Its panic handler calls a symbol that nobody defines, so the linker objects if one reachable panic
//! is left after optimisation (profile `proof`). `tests/all.sh` also builds it with the feature
//! `can-panic`, and insists that this does not link.
//!
//! Every input comes through `black_box`: the optimiser may assume nothing of it but that its type is
//! valid, so nothing is computed ahead and no branch is left out. Outside the proof stay the wire
//! (postcard is not free of panics), reading text (nor is the standard library's number parser),
//! `Display` with a format string, the stitch planner with more cells than a gauge has room for, and the
//! gauge's screens.
#![no_std]
#![no_main]

mod balance;
mod calibrate;
mod heat;
mod leak;
mod liquid;
mod plan;
mod quantity;
mod strength;
mod supplies;
mod weld;
mod work;

use cortex_m_rt::entry;
use panic_never as _;

#[entry]
fn main() -> ! {
    plan::prove();
    quantity::prove();
    #[cfg(feature = "can-panic")]
    deliberate(core::hint::black_box(7));
    loop {
        core::hint::black_box(());
    }
}

/// Indexes past the end for any `at` over 3: what the proof must catch.
#[cfg(feature = "can-panic")]
fn deliberate(at: usize) {
    let array = core::hint::black_box([0_u8; 4]);
    #[expect(
        clippy::indexing_slicing,
        reason = "the panic that this feature is for"
    )]
    core::hint::black_box(array[at]);
}
