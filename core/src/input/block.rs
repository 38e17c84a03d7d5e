//! A box with plane cuts, as its maker describes it.

use heapless::Vec;

use super::limits::MAX_CUTS;
use super::{Face, Field, Sized, TooMany};
use crate::units::Length;

/// A plane that slices material off a block.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Cut {
    /// Takes an edge of the box off, by a leg along each of the two faces that meet there.
    Edge {
        /// The two faces.
        faces: [Face; 2],
        /// How far the cut reaches along each of them, in the same order.
        legs: [Length; 2],
    },
    /// Takes a corner of the box off.
    Corner {
        /// The three faces that meet there, in any order.
        faces: [Face; 3],
        /// How far the cut reaches from the corner along x, y and z.
        legs: [Length; 3],
    },
    /// Takes off all that lies on the outer side of a plane.
    Plane {
        /// Outward direction, of any length.
        normal: [f64; 3],
        /// A point of the plane, measured from the corner of the body that is sized.
        through: [Length; 3],
    },
}

/// A box and its cuts.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Block {
    /// What the sizes measure.
    pub sized: Sized,
    /// Along x.
    pub length: Length,
    /// Along y.
    pub width: Length,
    /// Along z.
    pub height: Length,
    /// The cuts, in order.
    pub cuts: Vec<Cut, MAX_CUTS>,
}

impl Block {
    /// A box without cuts, sized outside: along x, along y and along z.
    ///
    /// ```
    /// use seamwright_core::input::{Block, Cut, Face, Sized};
    /// use seamwright_core::units::{Length, LengthUnit};
    ///
    /// let mm = |value| Length::new(value, LengthUnit::Millimetre);
    /// let keel = Block {
    ///     sized: Sized::Inside,
    ///     ..Block::new(mm(320.0), mm(180.0), mm(160.0))
    /// };
    /// let chamfer = Cut::Edge { faces: [Face::Top, Face::Back], legs: [mm(45.0), mm(60.0)] };
    /// assert_eq!(keel.with_cut(chamfer)?.cuts.len(), 1);
    /// # Ok::<(), seamwright_core::input::TooMany>(())
    /// ```
    #[must_use]
    pub const fn new(length: Length, width: Length, height: Length) -> Self {
        Self {
            sized: Sized::Outside,
            length,
            width,
            height,
            cuts: Vec::new(),
        }
    }

    /// The same box with one more cut, after those that it has.
    ///
    /// # Errors
    /// [`TooMany`] where it has [`MAX_CUTS`] already.
    pub fn with_cut(mut self, cut: Cut) -> Result<Self, TooMany> {
        let number = u8::try_from(self.cuts.len() + 1).unwrap_or(u8::MAX);
        match self.cuts.push(cut) {
            Ok(()) => Ok(self),
            Err(_) => Err(TooMany {
                field: Field::Cut(number),
                most: MAX_CUTS,
            }),
        }
    }
}
