//! The stitches of a tank as the simulation has them: where they lie among the cells and about the tank.

use crate::geom::Vector;

/// Places where stitches begin and end, of all seams together.
pub(super) const MAX_STITCH_ENDS: usize = 384;

/// A stitch by its number, counted seam by seam, and whether it is welded from its seam's end towards its start.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Directed {
    pub(super) stitch: u8,
    pub(super) reversed: bool,
}

/// One stitch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct LaidStitch {
    /// The place of its seam in the list of seams.
    pub(super) seam: u8,
    /// Which of its seam's stitches it is, from 0.
    pub(super) number: u8,
    /// How many stitches its seam has.
    pub(super) of: u8,
    /// Its length, in m.
    pub(super) length: f32,
    /// From its seam's start of one stitch to that of the next, in m, where there are gaps between them; else 0.
    pub(super) pitch: f32,
    /// The stage of building in which it is welded, counted from 1.
    pub(super) stage: u8,
    /// Whether it is welded last of its stage.
    pub(super) last: bool,
    /// The panels on its two sides, by the places of their marks.
    pub(super) panels: [u8; 2],
    /// The place of its first end among the stitch ends; its second end is the next.
    pub(super) first_end: u16,
    /// Its middle, measured from the mean of all stitches' middles, in tenths of a millimetre.
    pub(super) middle: [i16; 3],
}

impl LaidStitch {
    /// Where it lies along an edge that is `whole` metres long: its start, from the edge's first end, and its length.
    pub(super) fn lies(&self, whole: f64) -> (f64, f64) {
        if self.pitch > 0.0 {
            let from = f64::from(self.pitch) * f64::from(self.number);
            // The last one ends where its seam does, whatever rounding made of the pitch.
            let length = f64::from(self.length);
            return (libm::fmin(from, whole - length), length);
        }
        let length = whole / f64::from(self.of);
        (length * f64::from(self.number), length)
    }

    /// When its turn is: nothing of a later turn is begun before all of the earlier is done.
    pub(super) const fn turn(&self) -> u8 {
        2 * self.stage + self.last as u8
    }

    /// From the mean of all stitches' middles to its own, in m.
    pub(super) fn arm(&self) -> Vector {
        let [x, y, z] = self.middle.map(|tenths| 1e-4 * f64::from(tenths));
        Vector::new(x, y, z)
    }
}

/// A vector of metres in whole tenths of a millimetre. Tanks of over six metres are measured from their middle to three
/// metres.
pub(super) fn tenths(of: Vector) -> [i16; 3] {
    let fitted = |value: f64| libm::fmin(libm::fmax(libm::round(value * 1e4), -32_767.0), 32_767.0);
    [of.x, of.y, of.z].map(|value| fitted(value) as i16)
}

/// A place where stitches begin or end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct StitchEnd {
    /// The cells on the two sides of the seam there.
    pub(super) cells: [u16; 2],
    /// Whether the seam itself ends there, in a corner of the tank.
    pub(super) corner: bool,
}
