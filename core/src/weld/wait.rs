//! Why the welder waits before a stitch.
//!
//! Between the end of one stitch and the arc of the next lie, in this order: the move; the time until the metal where the
//! stitch starts is below the interpass limit; and the time until power source and torch have rested, where they need
//! longer than the metal. `simulation` measures them step by step.

use crate::arc::RatedPart;
use crate::seam::SeamMark;
use crate::units::{Length, Temperature, Time};

/// Where the metal is too warm for an arc.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WarmPlace {
    /// The seam of the stitch.
    pub seam: SeamMark,
    /// Where on that seam the stitch starts, from the seam's first end.
    pub at: Length,
    /// How warm the metal was there when it was first found above the limit.
    pub temperature: Temperature,
}

/// What keeps the welder from lighting the arc.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WaitCause {
    /// The torch goes from the stitch before to this one.
    Move,
    /// The metal where this stitch starts is above the interpass limit.
    WarmMetal(WarmPlace),
    /// The arc has burnt for as much of the last ten minutes as this part allows.
    Rest(RatedPart),
}

/// A part of the wait before a stitch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WaitPart {
    /// What it is for.
    pub cause: WaitCause,
    /// How long it lasts.
    pub lasts: Time,
}

/// The wait before a stitch, by its causes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StitchWait {
    pub(super) move_part: Option<WaitPart>,
    pub(super) metal_part: Option<WaitPart>,
    pub(super) rest_part: Option<WaitPart>,
    pub(super) beside_move: Time,
}

impl StitchWait {
    /// How long it is besides the move.
    #[must_use]
    pub const fn beside_move(&self) -> Time {
        self.beside_move
    }

    /// Its parts in the order in which they are waited for, the move first; none lasts no time.
    pub fn parts(&self) -> impl Iterator<Item = WaitPart> + use<> {
        [self.move_part, self.metal_part, self.rest_part]
            .into_iter()
            .flatten()
    }

    /// Its parts without the move.
    pub fn parts_beside_move(&self) -> impl Iterator<Item = WaitPart> + use<> {
        [self.metal_part, self.rest_part].into_iter().flatten()
    }
}
