//! A place for one tank.

use seamwright_core::job::Tank;

/// A place for a tank, which is made where it stays.
///
/// Its tag stands apart (`repr`), so that an empty place is all zeros: a static that holds one then takes
/// no flash for its first value.
#[derive(Clone, Debug)]
#[repr(u8)]
#[expect(
    clippy::large_enum_variant,
    reason = "without allocation a tank lives in its place"
)]
pub(crate) enum Slot {
    Empty,
    Made(Tank),
}

impl Slot {
    /// The tank that was made last.
    pub(crate) const fn tank(&self) -> Option<&Tank> {
        match self {
            Self::Made(tank) => Some(tank),
            Self::Empty => None,
        }
    }

    /// A tank to be made anew.
    // Out of line: an empty tank is on the stack only here, and not while one is made.
    #[inline(never)]
    pub(crate) fn prepared(&mut self) -> Option<&mut Tank> {
        if matches!(self, Self::Empty) {
            *self = Self::Made(Tank::empty());
        }
        match self {
            Self::Made(tank) => Some(tank),
            Self::Empty => None,
        }
    }
}
