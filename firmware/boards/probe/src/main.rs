//! The proof that core's calculations cannot panic: this program links.
//!
//! Its panic handler calls a symbol that nobody defines, so the linker objects if one reachable panic
//! is left after optimisation (profile `proof`). `tests/all.sh` also builds it with the feature
//! `can-panic`, and insists that this does not link.
#![no_std]
#![no_main]

use core::hint::black_box;

use cortex_m_rt::entry;
use panic_never as _;
use seamwright_core::quantity::Length;

#[entry]
fn main() -> ! {
    let length = Length::from_metres(black_box(0.32));
    black_box(length.si());
    #[cfg(feature = "can-panic")]
    deliberate(black_box(length.si()) as usize);
    loop {
        black_box(());
    }
}

/// Indexes past the end for any `at` over 3: what the proof must catch.
#[cfg(feature = "can-panic")]
fn deliberate(at: usize) {
    #[expect(
        clippy::indexing_slicing,
        reason = "the panic that this feature is for"
    )]
    black_box(black_box([0_u8; 4])[at]);
}
