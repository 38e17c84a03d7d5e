//! The end: a panic is logged, then the gauge stands still.
//!
//! A restart would hide that something went wrong and show figures that nobody should trust.

use core::panic::PanicInfo;

/// Logs why, and stands still.
pub(crate) fn stop(why: &str) -> ! {
    defmt::error!("stopped: {=str}", why);
    stand_still()
}

#[panic_handler]
fn panic(info: &PanicInfo<'_>) -> ! {
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

fn stand_still() -> ! {
    cortex_m::interrupt::disable();
    loop {
        cortex_m::asm::wfi();
    }
}
