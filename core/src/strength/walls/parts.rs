//! The plates of a tank's walls, their holes and their loads, as the net has them.

use heapless::Vec;

use super::super::load::{Frame, Load};
use super::super::plate::{Eased, Enclosing, MOST_PLATES, Net, Ramp};
use crate::geom::Vector;
use crate::input::Face;
use crate::input::limits::MAX_FITTINGS;

/// Plates at the most, as in a net.
pub(super) const PLATES: usize = MOST_PLATES;
/// Edges of plates at the most.
pub(super) const EDGES: usize = 110;
/// Loads that are gone through at the most: one for each wall that has one of its own.
const LOADS: usize = 12;
/// A hole wider than this share of its plate's short side changes how the plate bends: common practice, no source.
const WIDE: f64 = 0.3;

/// A plate of the net.
#[derive(Clone, Copy)]
pub(super) struct Part {
    pub(super) face: Face,
    pub(super) thickness: f64,
    pub(super) shape: Enclosing,
    pub(super) frame: Frame,
    /// Its worst load, by the list of loads; none of a baffle.
    pub(super) load: Option<usize>,
}

/// How a plate stretches.
#[derive(Clone, Copy)]
pub(super) struct Stretched {
    /// What that eases it by.
    pub(super) eased: Eased,
    /// Its bulge by bending alone, in sheets.
    pub(super) bulge: f64,
    /// The volume that it sweeps by bending alone, in m³.
    pub(super) swept: f64,
}

impl Stretched {
    /// A plate that nothing presses.
    pub(super) const FLAT: Self = Self {
        eased: Eased::NONE,
        bulge: 0.0,
        swept: 0.0,
    };
}

/// A hole in a plate: where its middle lies, from the plate's own, along its short and its long side.
#[derive(Clone, Copy)]
pub(super) struct Hole {
    pub(super) slab: usize,
    pub(super) at: [f64; 2],
    pub(super) wide: bool,
}

/// The net of a tank's walls, and what its plates are.
pub(super) struct Walls {
    /// Plates that meet at an edge for which one of them has no side.
    pub(super) lost: Vec<[usize; 2], EDGES>,
    pub(super) holes: Vec<Hole, MAX_FITTINGS>,
    pub(super) net: Net,
    pub(super) parts: Vec<Part, PLATES>,
    /// How each stretches under what is laid on it.
    pub(super) stretched: Vec<Stretched, PLATES>,
    pub(super) loads: Vec<Load, LOADS>,
}

impl Walls {
    /// No plates yet.
    pub(super) const NONE: Self = Self {
        lost: Vec::new(),
        holes: Vec::new(),
        net: Net::new(),
        parts: Vec::new(),
        stretched: Vec::new(),
        loads: Vec::new(),
    };
}

impl Part {
    /// A hole, where its middle lies in this plate.
    pub(super) fn hole(&self, slab: usize, centre: Vector, diameter: f64) -> Option<Hole> {
        let from = centre - self.frame.origin;
        let [u, v] = [self.frame.u.dot(from), self.frame.v.dot(from)];
        let [cu, cv] = self.shape.centre;
        let along = |[x, y]: [f64; 2]| x * (u - cu) + y * (v - cv);
        let at = [along(self.shape.across), along(self.shape.along)];
        let (short, long) = (self.shape.sides.short(), self.shape.sides.long());
        let [across, length] = at.map(libm::fabs);
        (across <= 0.5 * short && length <= 0.5 * long).then_some(Hole {
            slab,
            at,
            wide: diameter > WIDE * short,
        })
    }

    pub(super) fn ramp(&self, load: &Load) -> Ramp {
        let pressing = load.pressing(&self.frame);
        self.shape.ramp(pressing.at_origin.si(), pressing.slope)
    }
}
