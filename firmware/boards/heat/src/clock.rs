//! Ticks of the core clock since the start: `SysTick`, its wraps counted. At `-icount shift=0` and the 25 MHz of
//! the board the machine that runs the emulator knows how many instructions a tick is.

use core::cell::Cell;

use cortex_m::peripheral::{SCB, SYST, syst::SystClkSource};
use cortex_m_rt::exception;
use critical_section::Mutex;

const SPAN: u32 = 1 << 24;

static WRAPS: Mutex<Cell<u32>> = Mutex::new(Cell::new(0));

pub(crate) fn start(systick: &mut SYST) {
    systick.set_clock_source(SystClkSource::Core);
    systick.set_reload(SPAN - 1);
    systick.clear_current();
    systick.enable_counter();
    systick.enable_interrupt();
}

pub(crate) fn ticks() -> u64 {
    critical_section::with(|cs| {
        let mut wraps = WRAPS.borrow(cs).get();
        let mut left = SYST::get_current();
        if SCB::is_pendst_pending() {
            wraps = wraps.wrapping_add(1);
            left = SYST::get_current();
        }
        u64::from(wraps) * u64::from(SPAN) + u64::from(SPAN - 1 - left)
    })
}

#[exception]
fn SysTick() {
    critical_section::with(|cs| {
        let wraps = WRAPS.borrow(cs);
        wraps.set(wraps.get().wrapping_add(1));
    });
}
