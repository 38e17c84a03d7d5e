//! The stitches of a tank as the planner sees them.

use crate::body::Edge;
use crate::geom::Vector;

/// Places where stitches begin and end, of all seams together.
pub const MAX_POINTS: usize = 320;

/// When a seam may be welded.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Turn {
    /// Before the tank is closed about it: the seams of a baffle.
    Within,
    /// In the body of the job.
    Body,
    /// Last of all: the stitch that closes the tank, so that the air within has a way out until then.
    Closing,
}

/// One stitch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// The place of its seam in the list of seams.
    pub seam: u8,
    /// Which of its seam's stitches it is, from 0.
    pub number: u8,
    /// How many there are along its seam.
    pub of: u8,
    /// Its length, in m.
    pub length: f32,
    /// When it may be welded.
    pub turn: Turn,
    /// The panels on its two sides, by the places of their marks.
    pub panels: [u8; 2],
    /// The place among the points where it begins; the one after that is its end.
    pub point: u16,
    /// Its middle from the middle of the tank, in tenths of a millimetre.
    pub middle: [i16; 3],
}

impl Run {
    /// From the middle of the tank to its own, in m.
    #[must_use]
    pub fn arm(&self) -> Vector {
        let [x, y, z] = self.middle.map(|tenths| 1e-4 * f64::from(tenths));
        Vector::new(x, y, z)
    }
}

/// Tenths of a millimetre; tanks of over six metres are measured from their middle to three.
pub(crate) fn tenths(of: Vector) -> [i16; 3] {
    let fitted = |value: f64| libm::fmin(libm::fmax(libm::round(value * 1e4), -32_767.0), 32_767.0);
    [of.x, of.y, of.z].map(|value| fitted(value) as i16)
}

/// A place where stitches begin or end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Point {
    /// The cells there.
    pub cells: [u16; 2],
    /// Whether the seam itself ends there, in a corner.
    pub corner: bool,
}

/// What the planner asks of a seam while an arc runs along it.
pub trait Seams {
    /// The way that a seam of the list runs.
    fn edge(&self, seam: u8) -> Option<Edge>;
}

impl<F: Fn(u8) -> Option<Edge>> Seams for F {
    fn edge(&self, seam: u8) -> Option<Edge> {
        self(seam)
    }
}
