//! The inside of a tank as baffles, bulkheads and its own legs part it.
//!
//! The space is parted into convex pieces: the section of a profile is split at its inside corners, a drum along its
//! axis, and all of them at both surfaces of every baffle. Pieces meet in doors: an open face that two of them
//! share, a hole in a baffle, a pipe from fitting to fitting. Within a convex piece the straight line between two points is
//! never higher than the higher of them, so liquid gets from one place to another where no door on its way is higher
//! at its lowest point; the least such height over all ways is found door by door. Air goes the same ways with up and
//! down exchanged. Both are exact where walls are plane, at any lean.
//!
//! A rounded corner is taken as the straight sides that touch its arc: at an outside corner a little more room than
//! there is, at an inside corner a little higher a sill, so that what is held back is never told too small.
//! [`Compartments::doubt`] is the room by which the pieces differ from the space.
//!
//! A compartment is what lies between baffles and in one leg of the body: pieces that drain into each other through
//! their open faces while the tank stands level are one compartment.

mod build;
mod door;
mod drum;
mod mouth;
mod pick_up;
mod piece;
mod rooms;
mod section;
mod ways;

pub use door::DoorKind;
pub use mouth::Mouth;
pub use pick_up::{PickUp, PickUpOutside};
pub use rooms::{Compartment, Way};
pub use ways::Heights;

use core::fmt;

use heapless::Vec;

use crate::geom::Vector;
use door::{Door, Pipe};
use piece::Piece;

/// Convex pieces that a tank may have.
pub const MAX_PIECES: usize = 128;
/// Doors between them.
pub const MAX_DOORS: usize = 384;
/// Pipes outside the tank, from fitting to fitting.
pub const MAX_PIPES: usize = 4;
/// Corners of all faces and doors.
const MAX_POINTS: usize = 2_048;
/// Corners of all sections.
const MAX_FLAT: usize = 1_024;

/// More pieces, doors or corners than there is room for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct TooManyPieces;

impl fmt::Display for TooManyPieces {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "the inside falls into more than {MAX_PIECES} pieces or {MAX_DOORS} ways between them: take sharp corners for small radii, or fewer baffles"
        )
    }
}

impl core::error::Error for TooManyPieces {}

/// A part of one of the lists of corners.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct Range {
    start: u16,
    len: u16,
}

impl Range {
    fn of<T>(self, list: &[T]) -> &[T] {
        let start = usize::from(self.start);
        list.get(start..start + usize::from(self.len))
            .unwrap_or_default()
    }
}

/// A few things in a list that has room for so many.
fn gathered<T, const N: usize>(
    all: impl IntoIterator<Item = T>,
) -> Result<Vec<T, N>, TooManyPieces> {
    let mut list = Vec::new();
    for one in all {
        list.push(one).map_err(|_| TooManyPieces)?;
    }
    Ok(list)
}

/// The inside of a tank in convex pieces with the doors between them; some 130 KB.
#[derive(Clone, Debug, PartialEq)]
pub struct Compartments {
    pieces: Vec<Piece, MAX_PIECES>,
    doors: Vec<Door, MAX_DOORS>,
    pipes: Vec<Pipe, MAX_PIPES>,
    /// The pieces on the two sides of each baffle, counted from 1, where they face each other.
    faced: Vec<(u8, [u8; 2]), MAX_DOORS>,
    faces: Vec<Range, MAX_POINTS>,
    points: Vec<Vector, MAX_POINTS>,
    flat: Vec<[f64; 2], MAX_FLAT>,
    /// The compartment of each piece, counted from 0.
    rooms: Vec<u8, MAX_PIECES>,
    exact: f64,
}

impl Compartments {
    /// A place for them.
    const EMPTY: Self = Self {
        pieces: Vec::new(),
        doors: Vec::new(),
        pipes: Vec::new(),
        faced: Vec::new(),
        faces: Vec::new(),
        points: Vec::new(),
        flat: Vec::new(),
        rooms: Vec::new(),
        exact: 0.0,
    };

    /// How many convex pieces there are.
    #[must_use]
    pub fn piece_count(&self) -> usize {
        self.pieces.len()
    }

    /// By how much the pieces together differ from the space that they part, in cubic metres: nothing but rounding
    /// where all walls are plane, what rounded corners take or give where they are not.
    #[must_use]
    pub fn doubt(&self) -> f64 {
        let all: f64 = (0..self.pieces.len()).map(|place| self.volume(place)).sum();
        libm::fabs(all - self.exact)
    }

    fn keep_points(
        &mut self,
        points: impl IntoIterator<Item = Vector>,
    ) -> Result<Range, TooManyPieces> {
        let start = u16::try_from(self.points.len()).map_err(|_| TooManyPieces)?;
        for point in points {
            self.points.push(point).map_err(|_| TooManyPieces)?;
        }
        let end = u16::try_from(self.points.len()).map_err(|_| TooManyPieces)?;
        Ok(Range {
            start,
            len: end.saturating_sub(start),
        })
    }
}
