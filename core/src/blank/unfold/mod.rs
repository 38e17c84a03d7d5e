//! Parts joined by folds, laid out flat as one blank.
//!
//! Each part lies in coordinates of its own. A fold joins a straight side of one part, the parent, to a
//! straight side of another, the child; between the two lies the strip of sheet that the bend takes, as
//! wide as its [allowance](crate::blank::Bend::allowance). The folds make a tree. The blank is walked
//! around that tree: along the parent to where the strip begins, across it, around the child, and back.
//!
//! ```
//! use seamwright_core::blank::unfold::{FoldLink, PartSide, Unfolded, unfold};
//! use seamwright_core::geom::outline::Node;
//! use seamwright_core::units::{Angle, AngleUnit};
//!
//! let square = [(0.0, 0.0), (0.1, 0.0), (0.1, 0.1), (0.0, 0.1)].map(|(x, y)| Node::corner(x, y));
//! let fold = FoldLink {
//!     parent: PartSide { part: 0, side: 1 },
//!     child: PartSide { part: 1, side: 3 },
//!     along: 0.0,
//!     width: 0.005,
//!     turn: Angle::new(90.0, AngleUnit::Degree),
//! };
//! let mut flat = Unfolded::default();
//! unfold(&[&square, &square], &[fold], &mut flat).unwrap();
//! assert_eq!(flat.outline().nodes().len(), 4);
//! assert!((flat.outline().area() - 0.1 * 0.205).abs() < 1e-12);
//! ```

mod error;
mod place;
#[cfg(test)]
mod tests;
mod walk;

pub use error::{LinkField, UnfoldError};

use heapless::Vec;

use crate::geom::outline::{Node, Outline, Placing, Point};
use crate::units::Angle;

/// Most parts of one blank.
pub const MOST_PARTS: usize = 16;

/// A side of a part, both counted from 0; the side leads from the node of its number to the next.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct PartSide {
    /// The part.
    pub part: u8,
    /// Its side.
    pub side: u8,
}

/// A fold between two parts.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct FoldLink {
    /// The side nearer the root of the tree; several folds may share it.
    pub parent: PartSide,
    /// The side further out; it belongs to this fold alone.
    pub child: PartSide,
    /// Where the child's side starts: this many metres back from the end of the parent's side. In the
    /// flat the two sides run against each other, so 0 puts the start of one opposite the end of the
    /// other. The strip is as long as the two sides face each other.
    pub along: f64,
    /// Width of the strip between the two sides, in metres, zero or more.
    pub width: f64,
    /// How far the fold turns, above −180° and below 180°; which way is above zero is the caller's to
    /// say.
    pub turn: Angle,
}

/// The line along which a fold is bent: the middle of its strip.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct BendLine {
    /// Its two ends, in the order in which the parent's side runs.
    pub ends: [Point; 2],
    /// How far it turns, as the fold says.
    pub turn: Angle,
    /// The fold, counted from 0.
    pub fold: u8,
}

/// Parts laid out flat. Filled by [`unfold`]; about 4 KiB.
#[derive(Clone, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Unfolded {
    placings: Vec<Placing, MOST_PARTS>,
    bends: Vec<BendLine, MOST_PARTS>,
    outline: Outline,
}

impl Unfolded {
    /// Nothing yet; a place for [`unfold`] to write to.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            placings: Vec::new(),
            bends: Vec::new(),
            outline: Outline::EMPTY,
        }
    }

    /// Where each part lies, in the order of the parts. The root stays where it was.
    #[must_use]
    pub fn placings(&self) -> &[Placing] {
        &self.placings
    }

    /// The bend lines, in the order of the folds.
    #[must_use]
    pub fn bends(&self) -> &[BendLine] {
        &self.bends
    }

    /// The blank, parts and strips together, counter-clockwise. Where two parts come to lie edge to edge
    /// with no fold between them, it has a slit without width, cut but not open.
    #[must_use]
    pub fn outline(&self) -> &Outline {
        &self.outline
    }

    pub(crate) fn clear(&mut self) {
        self.placings.clear();
        self.bends.clear();
        self.outline.clear();
    }
}

/// Lays `parts` out flat as `folds` join them, and writes the blank to `flat`. At most [`MOST_PARTS`]
/// parts; the root is the part that is no fold's child and stays where it is.
///
/// # Errors
///
/// See [`UnfoldError`]; `flat` is then empty.
pub fn unfold(
    parts: &[&[Node]],
    folds: &[FoldLink],
    flat: &mut Unfolded,
) -> Result<(), UnfoldError> {
    flat.clear();
    let result = place::place(parts, folds, flat).and_then(|()| walk::walk(parts, folds, flat));
    if result.is_err() {
        flat.clear();
    }
    result
}
