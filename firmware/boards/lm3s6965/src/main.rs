//! Seamwright's bench gauge on the LM3S6965 evaluation board.
//!
//! QEMU emulates this board (`-M lm3s6965evb`), and the tests drive it there. The set-up follows the
//! real part's data sheet, clock gates and pull-ups included, but has never run on silicon.
#![no_std]
#![no_main]

mod chip;
mod clock;
mod display;
mod keys;
mod link_port;
mod log;
mod registers;
mod ssi;
mod stack;
mod stop;
mod uart;

use cortex_m_rt::entry;
use seamwright_double as _;
use seamwright_firmware::page::Small;
use seamwright_runner::{Memory, Polled, Runner};
use static_cell::ConstStaticCell;

use crate::{chip::Chip, display::Display, keys::Lines};

static MEMORY: ConstStaticCell<Memory<Small>> = ConstStaticCell::new(Memory::new());

#[entry]
fn main() -> ! {
    let chip = Chip::start();
    let mut lines = Polled::new(Lines::open());
    let mut display = Display::open();
    let memory = MEMORY.take();
    memory.name("LM3S6965 evaluation board");
    let mut runner = Runner::start(memory, chip, &mut display);
    let mut log_lost = 0;
    loop {
        runner.step(&mut lines, &mut display);
        log::drain(&mut log_lost);
        // Until the next millisecond or the next byte from the link.
        cortex_m::asm::wfi();
    }
}
