//! The display: 128 x 64 without greys, behind a SSD1306 controller on I2C.

use core::cell::Cell;

use display_interface::DisplayError;
use embedded_hal::i2c::{ErrorType, I2c, Operation};
use seamwright_firmware::{
    frame::{Frame, Window},
    glass::{Cost, Glass},
    ink::MONO_THRESHOLD,
};
use ssd1306::{
    I2CDisplayInterface, Ssd1306,
    mode::{BasicMode, DisplayConfig as _},
    prelude::{DisplayRotation, DisplaySize128x64, I2CInterface},
};

/// The controller's memory holds eight rows of one column in a byte, the top row lowest.
const PAGE_ROWS: u8 = 8;

/// The display, ready or yet to answer.
pub(crate) struct Display<'a, B: I2c> {
    controller: Ssd1306<I2CInterface<Counted<'a, B>>, DisplaySize128x64, BasicMode>,
    sent: &'a Cell<usize>,
    ready: bool,
}

impl<'a, B: I2c> Display<'a, B> {
    /// Takes the bus; the controller is set up with the first picture. `sent` counts bytes on the bus.
    pub(crate) fn open(bus: B, sent: &'a Cell<usize>) -> Self {
        let interface = I2CDisplayInterface::new(Counted { bus, sent });
        let controller = Ssd1306::new(interface, DisplaySize128x64, DisplayRotation::Rotate0);
        Self {
            controller,
            sent,
            ready: false,
        }
    }

    fn draw(&mut self, frame: &Frame, window: Window) -> Result<(), DisplayError> {
        if !self.ready {
            self.controller.init()?;
            self.ready = true;
        }
        // Two pixels of the frame share a byte.
        let (left, right) = (window.left() * 2, window.right() * 2 + 1);
        let (first, last) = (window.top() / PAGE_ROWS, window.bottom() / PAGE_ROWS);
        let end_row = (last + 1) * PAGE_ROWS;
        self.controller
            .set_draw_area((left, first * PAGE_ROWS), (right + 1, end_row))?;
        for page in first..=last {
            let mut bytes = [0; 128];
            let columns = (left..=right).zip(&mut bytes);
            let count = columns
                .map(|(x, byte)| *byte = column_bits(frame, x, page))
                .count();
            self.controller
                .draw(bytes.get(..count).unwrap_or_default())?;
        }
        Ok(())
    }
}

impl<B: I2c> Glass for Display<'_, B> {
    type Error = DisplayError;

    /// Two commands of three bytes, each behind an address and a control byte, and one such pair for the bytes of
    /// the picture; then a byte for eight rows of a column. The pairs that longer rows need (one for sixteen
    /// bytes) are not counted.
    const COST: Cost = Cost::new(12, PAGE_ROWS, 2);

    fn send(&mut self, frame: &Frame, window: Window) -> Result<usize, DisplayError> {
        let before = self.sent.get();
        let result = self.draw(frame, window);
        // After a failure the controller may have lost power: it is set up afresh before the next try.
        self.ready = result.is_ok();
        result.map(|()| self.sent.get().wrapping_sub(before))
    }
}

/// The eight pixels of `page` in column `x`, lit where the frame's grey is bright enough.
fn column_bits(frame: &Frame, x: u8, page: u8) -> u8 {
    (0..PAGE_ROWS).rev().fold(0, |bits, row| {
        let grey = frame.level(x.into(), (page * PAGE_ROWS + row).into());
        (bits << 1) | u8::from(grey.is_some_and(|grey| grey >= MONO_THRESHOLD))
    })
}

/// A bus that counts the bytes written to it, the address byte of each transaction included.
pub(crate) struct Counted<'a, B> {
    bus: B,
    sent: &'a Cell<usize>,
}

impl<B: ErrorType> ErrorType for Counted<'_, B> {
    type Error = B::Error;
}

impl<B: I2c> I2c for Counted<'_, B> {
    fn transaction(
        &mut self,
        address: u8,
        operations: &mut [Operation<'_>],
    ) -> Result<(), B::Error> {
        let written = operations.iter().map(|operation| match operation {
            Operation::Write(bytes) => bytes.len(),
            Operation::Read(_) => 0,
        });
        self.sent
            .set(self.sent.get().wrapping_add(1 + written.sum::<usize>()));
        self.bus.transaction(address, operations)
    }
}
