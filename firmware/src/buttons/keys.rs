//! Reading the raw lines, bounce and all.

use embedded_hal::digital::{ErrorType, InputPin};

use super::Button;

/// Which buttons' contacts are closed at one moment.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Reading(u8);

impl Reading {
    /// No contact closed.
    pub const NONE: Self = Self(0);
    /// Every contact closed.
    pub const ALL: Self = Self(0b1_1111);

    /// Adds `button` if its contact is `closed`.
    #[must_use]
    pub const fn with(self, button: Button, closed: bool) -> Self {
        if closed {
            Self(self.0 | 1 << button as u8)
        } else {
            self
        }
    }

    /// Whether that button's contact is closed.
    #[must_use]
    pub const fn is_closed(self, button: Button) -> bool {
        self.0 & 1 << button as u8 != 0
    }
}

/// Something that can tell which contacts are closed.
pub trait Keys {
    /// What can go wrong in reading.
    type Error;

    /// The contacts as they are now.
    ///
    /// # Errors
    /// Whatever the port reports.
    fn read(&mut self) -> Result<Reading, Self::Error>;
}

/// Five input pins with pull-ups whose buttons connect them to ground: low is closed.
#[derive(Debug)]
pub struct ActiveLow<U, D, L, R, S> {
    /// The pin of [`Button::Up`].
    pub up: U,
    /// The pin of [`Button::Down`].
    pub down: D,
    /// The pin of [`Button::Left`].
    pub left: L,
    /// The pin of [`Button::Right`].
    pub right: R,
    /// The pin of [`Button::Select`].
    pub select: S,
}

impl<U, D, L, R, S> Keys for ActiveLow<U, D, L, R, S>
where
    U: InputPin,
    D: InputPin + ErrorType<Error = U::Error>,
    L: InputPin + ErrorType<Error = U::Error>,
    R: InputPin + ErrorType<Error = U::Error>,
    S: InputPin + ErrorType<Error = U::Error>,
{
    type Error = U::Error;

    fn read(&mut self) -> Result<Reading, U::Error> {
        Ok(Reading::NONE
            .with(Button::Up, self.up.is_low()?)
            .with(Button::Down, self.down.is_low()?)
            .with(Button::Left, self.left.is_low()?)
            .with(Button::Right, self.right.is_low()?)
            .with(Button::Select, self.select.is_low()?))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use core::convert::Infallible;

    struct Pin(bool);

    impl ErrorType for Pin {
        type Error = Infallible;
    }

    impl InputPin for Pin {
        fn is_high(&mut self) -> Result<bool, Infallible> {
            Ok(self.0)
        }
        fn is_low(&mut self) -> Result<bool, Infallible> {
            Ok(!self.0)
        }
    }

    #[test]
    fn a_low_pin_is_a_closed_contact() {
        for pressed in Button::ALL {
            let high = |button| Pin(button != pressed);
            let mut keys = ActiveLow {
                up: high(Button::Up),
                down: high(Button::Down),
                left: high(Button::Left),
                right: high(Button::Right),
                select: high(Button::Select),
            };
            let reading = keys.read().unwrap();
            for button in Button::ALL {
                assert_eq!(reading.is_closed(button), button == pressed);
            }
        }
    }
}
