//! The five buttons: up PE0, down PE1, left PE2, right PE3, select PF1, each to ground.

use core::convert::Infallible;

use seamwright_firmware::buttons::{Button, Keys, Reading};

use crate::registers::{PORT_E, PORT_F};

const UP: u8 = 1 << 0;
const DOWN: u8 = 1 << 1;
const LEFT: u8 = 1 << 2;
const RIGHT: u8 = 1 << 3;
const SELECT: u8 = 1 << 1;

/// The button lines, once they are set up.
pub(crate) struct Lines(());

impl Lines {
    /// Makes the pins inputs with pull-ups.
    pub(crate) fn open() -> Self {
        PORT_E.make_inputs_pulled_up(UP | DOWN | LEFT | RIGHT);
        PORT_F.make_inputs_pulled_up(SELECT);
        Self(())
    }
}

impl Keys for Lines {
    type Error = Infallible;

    /// On the emulator a line reads low until its button's first release. The library's debouncer
    /// takes a button for pressed only once it has seen it up, so nothing is needed here.
    fn read(&mut self) -> Result<Reading, Infallible> {
        let arrows = !PORT_E.pins(UP | DOWN | LEFT | RIGHT).read();
        let select = !PORT_F.pins(SELECT).read();
        let closed = |lines: u32, pin: u8| lines & u32::from(pin) != 0;
        Ok(Reading::NONE
            .with(Button::Up, closed(arrows, UP))
            .with(Button::Down, closed(arrows, DOWN))
            .with(Button::Left, closed(arrows, LEFT))
            .with(Button::Right, closed(arrows, RIGHT))
            .with(Button::Select, closed(select, SELECT)))
    }
}
