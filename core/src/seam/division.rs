//! A seam cut into equal stitches, none longer than a limit.

use crate::geom::split::pieces;
use crate::input::limits::MAX_STITCHES;
use crate::units::Length;

/// Equal stitches along one seam.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Division {
    /// How many.
    pub count: u16,
    /// Length of each.
    pub length: Length,
}

impl Division {
    /// The fewest equal stitches of at most `most` along a seam of `seam`, both above zero; `None`
    /// where the seam alone needs more than [`MAX_STITCHES`].
    #[must_use]
    pub fn of(seam: Length, most: Length) -> Option<Self> {
        let count = pieces(seam.si(), most.si());
        if !(count <= f64::from(MAX_STITCHES)) {
            return None;
        }
        // Whole and at most 256, so the conversion is exact.
        Some(Self {
            count: count as u16,
            length: Length::from_metres(seam.si() / count),
        })
    }

    /// Start and end of each stitch, from the start of the seam.
    pub fn runs(self) -> impl Iterator<Item = [Length; 2]> {
        let end = move |n: u16| Length::from_metres(f64::from(n) * self.length.si());
        (0..self.count).map(move |n| [end(n), end(n + 1)])
    }
}
