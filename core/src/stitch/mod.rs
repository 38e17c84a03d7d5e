//! Stitches: seams cut into equal runs, none longer than a limit, and the order in which to weld them;
//! and the order of the tacks that hold the tank together before.

mod bench;
mod course;
mod halving;
mod order;
mod pull;
mod rest;
mod run;
mod step;
mod tack;

pub use bench::{Bench, Manner, PlanError, Planned, Sum};
pub(crate) use course::{Advance, Course, Standing};
pub(crate) use order::coolest;
pub use order::{WAYS, Weights};
pub(crate) use run::tenths;
pub use run::{MAX_POINTS, Point, Run, Seams, Turn};
pub use step::WeldStep;
pub(crate) use tack::Row;
pub use tack::{MAX_SEAMS, Tack, Tacking};

use crate::heat::network::Fineness;
use crate::quantity::Length;
use crate::split::pieces;

/// Cells of the shell that a gauge has room for.
pub const DEVICE_CELLS: usize = 224;
/// Links between them.
pub const DEVICE_LINKS: usize = 520;
/// As fine as a gauge plans.
pub const DEVICE_FINE: Fineness = Fineness::with_rim(0.008);
/// A first look, coarse enough for a gauge to have it in two seconds.
pub const FIRST_LOOK: Fineness = Fineness {
    rim: 0.1,
    cells: 64,
    longest: 10.0,
    beads: false,
};

/// Stitches a job may have.
pub const MAX_STITCHES: u16 = 256;

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
