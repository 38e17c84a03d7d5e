//! Time: milliseconds from the core's `SysTick`, whose interrupt also wakes the core from `wfi` and looks
//! at the buttons; ticks of 40 ns from timer 0, to measure work with.
//!
//! With QEMU's `-icount shift=4` an instruction takes 16 ns, so a tick is two and a half instructions.

use core::cell::Cell;

use cortex_m::peripheral::{SYST, syst::SystClkSource};
use cortex_m_rt::exception;
use critical_section::Mutex;

use crate::{
    front,
    registers::{CORE_HZ, timer0},
};

static MILLISECONDS: Mutex<Cell<u64>> = Mutex::new(Cell::new(0));

/// Starts both.
pub(crate) fn start(systick: &mut SYST) {
    timer0::start();
    systick.set_clock_source(SystClkSource::Core);
    systick.set_reload(CORE_HZ / 1_000 - 1);
    systick.clear_current();
    systick.enable_interrupt();
    systick.enable_counter();
}

/// Milliseconds since [`start`].
pub(crate) fn milliseconds() -> u64 {
    critical_section::with(|cs| MILLISECONDS.borrow(cs).get())
}

#[exception]
fn SysTick() {
    let now = critical_section::with(|cs| {
        let count = MILLISECONDS.borrow(cs);
        count.set(count.get().wrapping_add(1));
        count.get()
    });
    front::tick(now);
}
