//! The display: 128 x 64 pixels in 16 greys behind a SSD0323 controller, on an SPI bus with a line that says whether a
//! byte is a command.
//!
//! Commands: Solomon Systech's SSD0323 data sheet, "Command Table"; from memory of it, tried on an emulator.

use embedded_hal::digital::OutputPin;
use embedded_hal::spi::SpiBus;
use seamwright_firmware::{
    frame::{Frame, Window},
    glass::{Cost, Glass},
};

const SET_COLUMNS: u8 = 0x15;
const SET_ROWS: u8 = 0x75;

/// What a panel of this kind is told once after power-on.
const SETTINGS: &[u8] = &[
    0xAE, // off while being set up
    0xA8, 63, // 64 rows driven
    0xA1, 0, // start at the memory's first row
    0xA2, 0, // no vertical shift
    0xA0, 0,    // columns and nibbles in plain order, window filled left to right
    0x86, // full current range
    0x81, 0x40, // contrast, half way
    0xA4, // show the memory
    0xAF, // on
];

/// What can go wrong on the way to the display.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault<B, P> {
    /// The bus reports it.
    Bus(B),
    /// The pin of the data line does.
    Pin(P),
}

/// The display.
#[derive(Debug)]
pub struct Display<B, P> {
    bus: B,
    /// Low while commands are sent, high while picture bytes are.
    data_line: P,
    ready: bool,
}

impl<B: SpiBus, P: OutputPin> Display<B, P> {
    /// Takes bus and line. The controller is set up with the first picture, and anew after a failure, since it may
    /// have lost power.
    pub const fn open(bus: B, data_line: P) -> Self {
        Self {
            bus,
            data_line,
            ready: false,
        }
    }

    fn command(&mut self, bytes: &[u8]) -> Result<(), Fault<B::Error, P::Error>> {
        self.data_line.set_low().map_err(Fault::Pin)?;
        self.bus.write(bytes).map_err(Fault::Bus)?;
        // The line may change only once the last bit is out.
        self.bus.flush().map_err(Fault::Bus)
    }

    fn draw(&mut self, frame: &Frame, window: Window) -> Result<(), Fault<B::Error, P::Error>> {
        if !self.ready {
            self.command(SETTINGS)?;
        }
        self.command(&[
            SET_COLUMNS,
            window.left(),
            window.right(),
            SET_ROWS,
            window.top(),
            window.bottom(),
        ])?;
        self.data_line.set_high().map_err(Fault::Pin)?;
        for row in frame.bytes_of(window) {
            self.bus.write(row).map_err(Fault::Bus)?;
        }
        self.bus.flush().map_err(Fault::Bus)
    }
}

impl<B: SpiBus, P: OutputPin> Glass for Display<B, P> {
    type Error = Fault<B::Error, P::Error>;

    /// Six bytes of commands, then a byte for two pixels.
    const COST: Cost = Cost::new(6, 1, 1);

    fn send(&mut self, frame: &Frame, window: Window) -> Result<usize, Self::Error> {
        let drawn = self.draw(frame, window);
        self.ready = drawn.is_ok();
        drawn.map(|()| Self::COST.of(window))
    }
}
