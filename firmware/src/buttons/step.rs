//! What up and down mean, on every page alike.

use super::{Button, Event};

/// A way up or down, by one press or by a repeat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Step {
    /// More, and not less.
    pub up: bool,
    /// By a repeat: the coarse step.
    pub coarse: bool,
}

impl Step {
    /// What up and down mean; nothing of the other buttons.
    #[must_use]
    pub const fn of(event: Event) -> Option<Self> {
        let (up, coarse) = match event {
            Event::Press(Button::Up) => (true, false),
            Event::Press(Button::Down) => (false, false),
            Event::Repeat(Button::Up) => (true, true),
            Event::Repeat(Button::Down) => (false, true),
            Event::Press(_) | Event::Repeat(_) | Event::Hold => return None,
        };
        Some(Self { up, coarse })
    }
}
