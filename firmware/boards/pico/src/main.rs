//! Bring-up.
#![no_std]
#![no_main]
#[cortex_m_rt::entry]
fn main() -> ! {
    loop {}
}
#[panic_handler]
fn p(_: &core::panic::PanicInfo) -> ! {
    loop {}
}
