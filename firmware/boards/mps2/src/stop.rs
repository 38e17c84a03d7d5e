//! The end: a panic, a fault or an interrupt that nobody asked for is logged, then the gauge stands still.
//!
//! A restart would hide that something went wrong and show figures that nobody should trust.
#![expect(unsafe_code, reason = "a fault handler is unsafe by its signature")]

use core::panic::PanicInfo;

use cortex_m_rt::{ExceptionFrame, exception};
use seamwright_runner::log::abandon_frame;

use crate::log;

#[panic_handler]
fn panic(info: &PanicInfo<'_>) -> ! {
    cortex_m::interrupt::disable();
    abandon_frame();
    let (file, line) = info
        .location()
        .map_or(("?", 0), |place| (place.file(), place.line()));
    defmt::error!("stopped by a panic at {=str}:{=u32}", file, line);
    stand_still()
}

#[exception]
unsafe fn HardFault(frame: &ExceptionFrame) -> ! {
    cortex_m::interrupt::disable();
    abandon_frame();
    defmt::error!("stopped by a fault: pc {=u32:#x}", frame.pc());
    stand_still()
}

/// An interrupt that is not one of ours.
pub(crate) fn unasked(number: i16) -> ! {
    cortex_m::interrupt::disable();
    abandon_frame();
    defmt::error!("stopped by interrupt {=i16}", number);
    stand_still()
}

fn stand_still() -> ! {
    log::flush();
    loop {
        cortex_m::asm::wfi();
    }
}
