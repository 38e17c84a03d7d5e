//! Sums, differences and products of many pairs of doubles on the emulated chip, for the machine that tests it to
//! compare with its own, and what each takes.
#![no_std]
#![no_main]

mod clock;
mod pairs;
mod serial;

use core::fmt::Write;
use core::hint::black_box;

use cortex_m_rt::entry;
use seamwright_double as _;

use pairs::{Kind, digest};
use serial::Serial;

/// The three, each a call.
const OPERATIONS: [fn(f64, f64) -> f64; 3] = [add, subtract, multiply];

#[inline(never)]
fn add(a: f64, b: f64) -> f64 {
    a + b
}

#[inline(never)]
fn subtract(a: f64, b: f64) -> f64 {
    a - b
}

#[inline(never)]
fn multiply(a: f64, b: f64) -> f64 {
    a * b
}

/// Called as these are, and nothing done.
#[inline(never)]
fn first(a: f64, _: f64) -> f64 {
    a
}

#[entry]
fn main() -> ! {
    if let Some(mut parts) = cortex_m::Peripherals::take() {
        clock::start(&mut parts.SYST);
    }
    let mut out = Serial::open();
    let _ = writeln!(out, "ready");
    let _ = Serial::receive();
    for kind in Kind::ALL {
        let [add, subtract, multiply] = OPERATIONS.map(|operation| digest(kind, operation));
        let _ = writeln!(
            out,
            "{} {add:016x} {subtract:016x} {multiply:016x}",
            kind.name()
        );
    }
    // Over the same pairs with the operation and without, so that the operation and its call are left.
    let none = took(first);
    let _ = write!(out, "ticks");
    for operation in OPERATIONS {
        let _ = write!(out, " {}", took(operation).saturating_sub(none));
    }
    let _ = writeln!(out);
    loop {
        cortex_m::asm::nop();
    }
}

/// Ticks that all ordinary pairs take.
fn took(of: fn(f64, f64) -> f64) -> u64 {
    let begun = clock::ticks();
    let _ = black_box(digest(Kind::Ordinary, of));
    clock::ticks() - begun
}

#[panic_handler]
fn panic(_: &core::panic::PanicInfo<'_>) -> ! {
    let _ = writeln!(Serial, "panicked");
    loop {
        cortex_m::asm::nop();
    }
}
