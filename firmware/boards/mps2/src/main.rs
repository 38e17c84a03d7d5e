//! Seamwright's full gauge on Arm's MPS2 board with the AN385 image, a Cortex-M3 with room to spare.
//!
//! QEMU emulates this board (`-M mps2-an385`), and the tests drive it there: it shows that the gauge
//! with all its pages and its planner runs on an Arm chip. Neither display nor buttons are on the board;
//! both are at the other end of a serial line (`front`). It has never run on silicon.
#![no_std]
#![no_main]

mod chip;
mod clock;
mod front;
mod interrupts;
mod link_port;
mod log;
mod registers;
mod stop;

use cortex_m_rt::entry;
use seamwright_double as _;
use seamwright_firmware::page::Full;
use seamwright_runner::{Memory, Runner};
use static_cell::ConstStaticCell;

use crate::{
    chip::Chip,
    front::{Display, THUMB},
};

static MEMORY: ConstStaticCell<Memory<Full>> = ConstStaticCell::new(Memory::new());

#[entry]
fn main() -> ! {
    let chip = Chip::start();
    let mut display = Display::open();
    let mut thumb = &THUMB;
    let memory = MEMORY.take();
    memory.name("MPS2 board, Cortex-M3");
    let mut runner = Runner::start(memory, chip, &mut display);
    let mut log_lost = 0;
    loop {
        let busy = runner.step(&mut thumb, &mut display);
        log::drain(&mut log_lost);
        if !busy {
            // Until the next millisecond or the next byte.
            cortex_m::asm::wfi();
        }
    }
}
