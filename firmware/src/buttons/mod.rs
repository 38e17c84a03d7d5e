//! Five buttons: what they are, how they are read, and what a thumb on them means.

mod debounce;
mod keys;
mod step;

pub use debounce::{Debouncer, Events};
pub use keys::{ActiveLow, Keys, Reading};
pub use step::Step;

/// One of the five buttons.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Button {
    /// Chooses or changes, upwards.
    Up,
    /// Chooses or changes, downwards.
    Down,
    /// Turns back a page.
    Left,
    /// Turns to the next page.
    Right,
    /// Enters; held, goes back.
    Select,
}

impl Button {
    /// All five, in the order of [`Reading`]'s bits.
    pub const ALL: [Self; 5] = [Self::Up, Self::Down, Self::Left, Self::Right, Self::Select];
}

/// What a thumb did.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Event {
    /// A button was pressed once. Select counts when it is let go, since until then it may still
    /// become a hold; the others count at once.
    Press(Button),
    /// Up or down is being kept down: count it as one more press.
    Repeat(Button),
    /// Select has been kept down: go back.
    Hold,
}
