//! Time: a millisecond count to live by, and a tick count to measure with.
//!
//! Milliseconds come from timer 0, whose interrupt also wakes the core from `wfi`. Ticks come from
//! the core's own `SysTick`, at the core clock. On the emulator `SysTick` loses time in `wfi`, so it
//! measures work, between two points with no `wfi` between them, and never paces anything.
#![expect(
    unsafe_code,
    reason = "unmasking an interrupt can break a critical section made by masking"
)]

use core::cell::Cell;

use cortex_m::peripheral::{NVIC, SCB, SYST, syst::SystClkSource};
use cortex_m_rt::exception;
use critical_section::Mutex;
use lm3s6965::{Interrupt, interrupt};

use crate::registers::{system, timer0};

/// The core clock in Hz, once [`start`] has run.
///
/// With QEMU's `-icount shift=0` an instruction takes 1 ns, so a tick (20 ns) is 20 instructions.
pub(crate) const CORE_HZ: u32 = 50_000_000;

/// `SysTick` counts down through 24 bits.
const SYSTICK_SPAN: u32 = 1 << 24;

static MILLISECONDS: Mutex<Cell<u64>> = Mutex::new(Cell::new(0));
static SYSTICK_WRAPS: Mutex<Cell<u32>> = Mutex::new(Cell::new(0));

/// Starts the PLL from the board's 8 MHz crystal, the millisecond timer and `SysTick`.
pub(crate) fn start(systick: &mut SYST) {
    start_pll();

    system::RCGC1.set(system::GATE_TIMER0);
    // A gate needs a few cycles before its peripheral answers.
    let _ = system::RCGC1.read();
    timer0::CTL.clear(timer0::ENABLE);
    timer0::CFG.write(0);
    timer0::TAMR.write(timer0::PERIODIC);
    timer0::TAILR.write(CORE_HZ / 1000 - 1);
    timer0::IMR.write(timer0::TIME_OUT);
    timer0::CTL.set(timer0::ENABLE);
    // SAFETY: no critical section is held by masking this interrupt.
    unsafe { NVIC::unmask(Interrupt::TIMER_0A) };

    systick.set_clock_source(SystClkSource::Core);
    systick.set_reload(SYSTICK_SPAN - 1);
    systick.clear_current();
    systick.enable_counter();
    systick.enable_interrupt();
}

/// The sequence of the data sheet's "Initialization and Configuration" for system control.
fn start_pll() {
    const BYPASS: u32 = 1 << 11;
    const USE_DIVIDER: u32 = 1 << 22;
    const DIVIDER: u32 = 0xF << 23;
    const DIVIDE_BY_4: u32 = 3 << 23;
    const CRYSTAL: u32 = 0xF << 6;
    const CRYSTAL_8_MHZ: u32 = 0xE << 6;
    const SOURCE: u32 = 3 << 4;
    const POWER_DOWN: u32 = 1 << 13;
    const MAIN_OFF: u32 = 1 << 0;

    system::RCC.modify(|rcc| (rcc | BYPASS) & !USE_DIVIDER & !MAIN_OFF);
    system::RCC.modify(|rcc| (rcc & !CRYSTAL & !SOURCE & !POWER_DOWN) | CRYSTAL_8_MHZ);
    system::RCC.modify(|rcc| (rcc & !DIVIDER) | DIVIDE_BY_4 | USE_DIVIDER);
    while system::RIS.read() & system::PLL_LOCKED == 0 {}
    system::RCC.modify(|rcc| rcc & !BYPASS);
}

/// Milliseconds since [`start`].
pub(crate) fn milliseconds() -> u64 {
    critical_section::with(|cs| MILLISECONDS.borrow(cs).get())
}

/// Core clock ticks since [`start`], `wfi` on the emulator not fully counted.
pub(crate) fn ticks() -> u64 {
    critical_section::with(|cs| {
        let mut wraps = SYSTICK_WRAPS.borrow(cs).get();
        let mut left = SYST::get_current();
        // A wrap that came after interrupts were masked is pending but not counted yet; then `left`
        // may be from before or after it, so read again.
        if SCB::is_pendst_pending() {
            wraps = wraps.wrapping_add(1);
            left = SYST::get_current();
        }
        u64::from(wraps) * u64::from(SYSTICK_SPAN) + u64::from(SYSTICK_SPAN - 1 - left)
    })
}

#[interrupt]
fn TIMER_0A() {
    timer0::ICR.write(timer0::TIME_OUT);
    critical_section::with(|cs| {
        let now = MILLISECONDS.borrow(cs);
        now.set(now.get().wrapping_add(1));
    });
}

#[exception]
fn SysTick() {
    critical_section::with(|cs| {
        let wraps = SYSTICK_WRAPS.borrow(cs);
        wraps.set(wraps.get().wrapping_add(1));
    });
}
