//! The stitches of a tank as the simulation has them: where they lie among the cells and about the tank.

use crate::geom::Vector;

/// The bit of a [`Directed`] that says which way; the others are the number, which is far below it.
const REVERSED: u16 = 0x8000;

/// A stitch by its number, counted seam by seam, and whether it is welded from its seam's end towards its start: in two
/// bytes, of which a planner holds some for each stitch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Directed(u16);

impl Directed {
    pub(super) const fn new(stitch: u16, reversed: bool) -> Self {
        Self(if reversed {
            stitch | REVERSED
        } else {
            stitch & !REVERSED
        })
    }

    /// Its number.
    pub(super) const fn stitch(self) -> u16 {
        self.0 & !REVERSED
    }

    /// Its number as a place in a list.
    pub(super) const fn place(self) -> usize {
        self.stitch() as usize
    }

    /// Whether it is welded backwards.
    pub(super) const fn reversed(self) -> bool {
        self.0 & REVERSED != 0
    }

    /// The same stitch, welded the other way.
    pub(super) const fn turned(self) -> Self {
        Self(self.0 ^ REVERSED)
    }
}

/// One stitch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct LaidStitch {
    /// The place of its seam in the list of seams.
    pub(super) seam: u8,
    /// Which of its seam's stitches it is, from 0.
    pub(super) number: u16,
    /// How many stitches its seam has.
    pub(super) of: u16,
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
    /// The cells on the two sides of its seam at its first end and at its second.
    pub(super) ends: [[u16; 2]; 2],
    /// Whether its seam goes round and has no ends, which would lie in corners of the tank.
    pub(super) round: bool,
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

    /// The cells at the end of it that is nearer to a place so many metres along it.
    pub(super) fn nearest(&self, along: f64) -> [u16; 2] {
        let [first, second] = self.ends;
        if along > 0.5 * f64::from(self.length) {
            second
        } else {
            first
        }
    }

    /// Whether its first or its second end is the seam's own, in a corner of the tank.
    pub(super) const fn is_corner(&self, second: bool) -> bool {
        let outermost = if second { self.of.saturating_sub(1) } else { 0 };
        !self.round && self.number == outermost
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
