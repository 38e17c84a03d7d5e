//! The end: a panic or a fault is logged and shown, then the gauge stands still.
//!
//! Standing still is right for a gauge: a restart would hide that something went wrong and show
//! figures that nobody should trust. It keeps nothing moving or hot.
#![expect(unsafe_code, reason = "a fault handler is unsafe by its signature")]

use core::panic::PanicInfo;

use cortex_m::peripheral::SCB;
use cortex_m_rt::{ExceptionFrame, exception};
use seamwright_runner::log::abandon_frame;

use crate::log;

#[panic_handler]
fn panic(info: &PanicInfo<'_>) -> ! {
    cortex_m::interrupt::disable();
    abandon_frame();
    match info.location() {
        Some(place) => defmt::error!(
            "stopped by a panic at {=str}:{=u32}: {}",
            place.file(),
            place.line(),
            defmt::Display2Format(&info.message())
        ),
        None => defmt::error!(
            "stopped by a panic: {}",
            defmt::Display2Format(&info.message())
        ),
    }
    stand_still()
}

#[exception]
unsafe fn HardFault(frame: &ExceptionFrame) -> ! {
    cortex_m::interrupt::disable();
    abandon_frame();
    // SAFETY: reads of two fault registers, which have no side effect.
    let scb = unsafe { &*SCB::PTR };
    defmt::error!(
        "stopped by a fault: pc {=u32:#x}, cfsr {=u32:#x}, mmfar {=u32:#x}",
        frame.pc(),
        scb.cfsr.read(),
        scb.mmfar.read()
    );
    stand_still()
}

fn stand_still() -> ! {
    log::flush();
    loop {
        cortex_m::asm::wfi();
    }
}
