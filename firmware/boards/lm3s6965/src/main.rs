//! Seamwright's bench gauge on the LM3S6965 evaluation board.
//!
//! QEMU emulates this board (`-M lm3s6965evb`), and the tests drive it there. The set-up follows the
//! real part's data sheet, clock gates and pull-ups included, but has never run on silicon.
#![no_std]
#![no_main]

mod clock;
mod contacts;
mod display;
mod keys;
mod link_port;
mod log;
mod registers;
mod ring;
mod ssi;
mod stack;
mod stop;
mod uart;

use cortex_m_rt::entry;
use embedded_graphics::{
    pixelcolor::Gray4,
    prelude::*,
    primitives::{PrimitiveStyle, Rectangle},
};
use seamwright_firmware::{
    buttons::{Debouncer, Keys as _},
    frame::Frame,
    glass::Shown,
};

use crate::{contacts::Contacts, display::Display, keys::Lines, registers::system};

#[entry]
fn main() -> ! {
    let Some(mut core) = cortex_m::Peripherals::take() else {
        cortex_m::asm::udf()
    };
    stack::guard(&mut core.MPU);
    clock::start(&mut core.SYST);
    system::RCGC2.set(0x7F);
    let _ = system::RCGC2.read();
    log::open();
    link_port::open();
    ssi::open();
    let mut display = Display::open();
    let mut lines = Lines::open();
    let mut debouncer = Debouncer::new();
    let mut frame = Frame::new();
    let mut shown = Shown::new();

    for grey in 0..16 {
        let bar = Rectangle::new(Point::new(i32::from(grey) * 8, 0), Size::new(8, 64));
        let _ = bar
            .into_styled(PrimitiveStyle::with_fill(Gray4::new(grey)))
            .draw(&mut frame);
    }
    let Ok(sent) = shown.show(&frame, &mut display);
    defmt::info!(
        "first picture: ticks={=u64} bytes={=u32}",
        clock::ticks(),
        sent.bytes
    );

    let mut contacts = Contacts::new();
    loop {
        let now = clock::milliseconds();
        let Ok(reading) = lines.read();
        for event in debouncer.poll(now as u32, reading) {
            defmt::info!("{}", event);
        }
        contacts.watch(now, reading);
        while let Some(byte) = link_port::receive() {
            link_port::send(&[byte]);
        }
        log::drain();
        cortex_m::asm::wfi();
    }
}
