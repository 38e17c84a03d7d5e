//! A board to copy.
//!
//! It has all that a board gives to the gauge and nothing of a chip: a display behind an SPI bus, five buttons on
//! input pins, a clock, a serial line. All of these are embedded-hal's traits or the one of [`Chip`], so that the test
//! runs this board on the machine that builds it, before a simulated display and a simulated thumb.
//!
//! A program for a real chip sets the chip up, makes these parts and runs the loop:
//!
//! ```ignore
//! static MEMORY: ConstStaticCell<Memory<Small>> = ConstStaticCell::new(Memory::new());
//!
//! let memory = MEMORY.take();
//! memory.name("the board's name");
//! let mut display = Display::open(spi, data_line)?;
//! let mut thumb = Polled::new(ActiveLow { up, down, left, right, select });
//! let mut runner = Runner::start(memory, Board::new(chip), &mut display);
//! loop {
//!     if !runner.step(&mut thumb, &mut display) {
//!         // Until the next millisecond or the next byte from the link.
//!         cortex_m::asm::wfi();
//!     }
//! }
//! ```
//!
//! The folder's README says step by step how one comes from here to there.
#![no_std]

mod board;
mod display;

pub use board::{Board, Chip};
pub use display::{Display, Fault};
