//! The display: 128 x 64 in 16 greys, behind a SSD0323 controller.
//!
//! Commands: Solomon Systech's SSD0323 data sheet, "Command Table"; from memory of it, tried on the
//! emulator, which takes the settings of current and timing without any effect. Only a real panel can
//! tell whether they suit it.

use core::convert::Infallible;

use seamwright_firmware::{
    frame::{Frame, Window},
    glass::{Cost, Glass},
};

use crate::{
    registers::{PORT_C, PORT_D, Register},
    ssi,
};

/// PC7: low while commands are sent, high while picture bytes are.
const DATA: u8 = 1 << 7;
/// PC6 on the real board: switches the panel's 15 V supply (from memory).
const PANEL_SUPPLY: u8 = 1 << 6;
/// PD0: high takes the memory card off the bus that the two share.
const CARD_OFF: u8 = 1 << 0;

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

/// The display, once it is set up.
pub(crate) struct Display {
    data_line: Register,
}

impl Display {
    /// Sets the pins and the controller up. The bus comes first. The panel's memory is left as it is.
    pub(crate) fn open() -> Self {
        PORT_C.make_outputs(DATA | PANEL_SUPPLY);
        PORT_D.make_outputs(CARD_OFF);
        // A reset of the chip alone leaves the emulator's display in the mode it was in, and only an
        // edge changes that. So both lines are driven one way, then the way they are to stay.
        let data_line = PORT_C.pins(DATA);
        data_line.write(DATA.into());
        data_line.write(0);
        PORT_D.pins(CARD_OFF).write(0);
        PORT_D.pins(CARD_OFF).write(CARD_OFF.into());
        PORT_C.pins(PANEL_SUPPLY).write(PANEL_SUPPLY.into());

        let display = Self { data_line };
        display.command(SETTINGS);
        display
    }

    fn command(&self, bytes: &[u8]) {
        self.data_line.write(0);
        for &byte in bytes {
            ssi::send(byte);
        }
    }
}

impl Glass for Display {
    /// The bus has no way to tell of a failure.
    type Error = Infallible;

    /// Six bytes of commands, then a byte for two pixels.
    const COST: Cost = Cost::new(6, 1, 1);

    fn send(&mut self, frame: &Frame, window: Window) -> Result<usize, Infallible> {
        self.command(&[
            SET_COLUMNS,
            window.left(),
            window.right(),
            SET_ROWS,
            window.top(),
            window.bottom(),
        ]);
        self.data_line.write(DATA.into());
        for row in frame.bytes_of(window) {
            for &byte in row {
                ssi::send(byte);
            }
        }
        Ok(Self::COST.of(window))
    }
}
