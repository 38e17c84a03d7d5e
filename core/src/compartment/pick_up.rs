//! Where liquid is drawn, and how much of it does not get there.

use core::fmt;

use super::{Compartments, Heights, Mouth};
use crate::geom::Vector;
use crate::units::{Length, LengthUnit};

/// A point this far outside a piece still counts as inside, in metres: rounding of a point that was computed to lie on
/// the sheet.
const SLACK: f64 = 1e-8;

/// A pick-up, and the piece of the inside that it draws from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PickUp {
    pub(crate) mouth: Mouth,
    pub(crate) piece: usize,
}

impl PickUp {
    /// Where it draws.
    #[must_use]
    pub const fn mouth(&self) -> Mouth {
        self.mouth
    }
}

/// A pick-up that lies in no compartment: outside the inner face of the walls, or in the sheet of a baffle.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct PickUpOutside {
    /// How far it is from the nearest compartment, measured square to the wall that it is past.
    pub by: Length,
}

impl fmt::Display for PickUpOutside {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "it lies {} outside the space that holds liquid",
            self.by.display(LengthUnit::Millimetre, 2)
        )
    }
}

impl core::error::Error for PickUpOutside {}

impl Compartments {
    /// A pick-up at a place.
    ///
    /// # Errors
    /// [`PickUpOutside`] where no compartment holds it.
    pub fn pick_up(&self, mouth: Mouth) -> Result<PickUp, PickUpOutside> {
        match self.piece_at(mouth.at, SLACK) {
            Some(piece) => Ok(PickUp { mouth, piece }),
            None => Err(PickUpOutside {
                by: Length::from_metres(self.off(mouth.at).1),
            }),
        }
    }

    /// A pick-up whose place is not told to be in one compartment or another: in the nearest, the first of equals.
    #[must_use]
    pub fn nearest_pick_up(&self, mouth: Mouth) -> PickUp {
        PickUp {
            mouth,
            piece: self.off(mouth.at).0,
        }
    }

    /// The nearest piece, and how far off it is.
    fn off(&self, point: Vector) -> (usize, f64) {
        let mut nearest = (0, f64::INFINITY);
        for piece in 0..self.piece_count() {
            let off = self.outside(piece, point);
            if off < nearest.1 - SLACK {
                nearest = (piece, off);
            }
        }
        nearest
    }

    /// For each piece the level along up, in metres from the origin, down to which the pick-ups draw its liquid; infinite where
    /// none reaches it. No level is lower than that of the lowest pick-up.
    #[must_use]
    pub fn drawn_to(&self, up: Vector, pick_ups: &[PickUp]) -> Heights {
        let mut places: heapless::Vec<(usize, f64), 8> = heapless::Vec::new();
        for one in pick_ups {
            // A job names a handful.
            let _ = places.push((one.piece, one.mouth.high(up)));
        }
        self.drained_to(up, &places)
    }

    /// What stays in each piece above a level once all is drawn that the pick-ups reach, in m³: that is nothing where the
    /// piece is drawn down to that level.
    pub(crate) fn kept_over(&self, up: Vector, drawn: &Heights, level: f64) -> f64 {
        let kept = drawn.iter().enumerate().map(|(piece, to)| {
            if *to > level && to.is_finite() {
                self.below(piece, up, *to) - self.below(piece, up, level)
            } else {
                0.0
            }
        });
        kept.sum()
    }

    /// What of the pieces that no pick-up reaches lies below a level, in m³.
    pub(crate) fn under_shut_off(&self, up: Vector, drawn: &Heights, level: f64) -> f64 {
        let shut = drawn.iter().enumerate();
        shut.filter(|(_, to)| !to.is_finite())
            .map(|(piece, _)| self.below(piece, up, level))
            .sum()
    }

    /// The same, from the pick-ups.
    pub(crate) fn shut_off(&self, up: Vector, pick_ups: &[PickUp], level: f64) -> f64 {
        self.under_shut_off(up, &self.drawn_to(up, pick_ups), level)
    }
}
