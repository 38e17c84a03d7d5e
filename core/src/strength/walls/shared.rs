//! The flat walls of a tank together: what their seams hand from one to the other.
//!
//! Every part of a wall between baffles is a plate of a net, by the rectangle that stands for it; so is a baffle that is
//! held all round, with nothing pressing on it. Where edges of two plates lie on one line they are joined. An edge of a
//! wall that is no rectangle is taken as the side of its rectangle that faces the same way; what meets an edge for which
//! there is no such side is held from turning there, and bears the most that its neighbour has at any edge. Since the
//! rectangle encloses the wall, what is found then is at most what the tank bears.

use heapless::Vec;

use super::super::error::StrengthError;
use super::super::load::{Frame, Load};
use super::super::plate::{
    Eased, Enclosing, MOST_PLATES, MOST_RATIO, Net, Ramp, Slab, enclosing, stiffness,
};
use super::flat_wall::{Corners, WallPlate, laid};
use super::joined::Shares;
use super::judge::Judge;
use super::meeting::{EDGES, NEAR, Rim, edges, joined};
use crate::body::{FlatForm, area_vector};
use crate::fitting::Baffle;
use crate::geom::Vector;
use crate::input::Face;
use crate::input::limits::MAX_FITTINGS;

/// Plates at the most, as in a net.
const PLATES: usize = MOST_PLATES;
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
    const FLAT: Self = Self {
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
    const NONE: Self = Self {
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
    fn hole(&self, slab: usize, centre: Vector, diameter: f64) -> Option<Hole> {
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

impl Judge<'_> {
    /// What the walls bear together; none of a tank whose walls cannot be taken together.
    pub(super) fn shares(&self) -> Result<Shares, StrengthError> {
        if self.tank.body.inside.turned().is_some() {
            return Ok(Shares::NONE);
        }
        let mut walls = Walls::NONE;
        if self.walls(&mut walls)? {
            self.shared_out(&mut walls)
        } else {
            Ok(Shares::NONE)
        }
    }

    /// Makes the net; whether there was room for it, and no plate is too long.
    // Out of line, as is what follows: each needs much stack, and only while it works.
    #[inline(never)]
    fn walls(&self, walls: &mut Walls) -> Result<bool, StrengthError> {
        let mut rims: Vec<Rim, EDGES> = Vec::new();
        let inside = self.tank.body.inside.vertices();
        let mut fits = true;
        for view in self.tank.body.outside.faces() {
            let thickness = self.tank.job.thickness_of(view.face());
            self.each_plate(&view, |plate| {
                let Ok(shape) = enclosing(&plate.flat) else {
                    // A sliver beside a baffle is no plate.
                    return Ok(());
                };
                let load = self.load(inside, &plate.corners)?;
                let known = walls.loads.iter().position(|old| *old == load);
                let load = known.or_else(|| {
                    walls.loads.push(load).ok()?;
                    Some(walls.loads.len() - 1)
                });
                let part = Part {
                    face: view.face(),
                    thickness: thickness.si(),
                    shape,
                    frame: plate.frame,
                    load,
                };
                fits &= load.is_some() && self.put(walls, &mut rims, part, plate);
                Ok(())
            })?;
        }
        let baffles = self.tank.inner.baffles();
        for (place, baffle) in baffles.iter().enumerate() {
            if let Some(plate) = self.stiffening(place, baffle)
                && let Ok(shape) = enclosing(&plate.flat)
            {
                let part = Part {
                    face: u8::try_from(place + 1).map_or(Face::Shell, Face::Baffle),
                    thickness: baffle.thickness().si(),
                    shape,
                    frame: plate.frame,
                    load: None,
                };
                fits &= self.put(walls, &mut rims, part, &plate);
            }
        }
        let thickest = walls.parts.iter().map(|part| part.thickness);
        let near = NEAR * thickest.fold(0.0, libm::fmax);
        fits &= joined(walls, &mut rims, near);
        Ok(fits)
    }

    /// Adds a plate and its edges; whether there was room.
    fn put(
        &self,
        walls: &mut Walls,
        rims: &mut Vec<Rim, EDGES>,
        part: Part,
        plate: &WallPlate,
    ) -> bool {
        let sides = part.shape.sides;
        if sides.ratio() > MOST_RATIO {
            return false;
        }
        let stiff = stiffness(self.modulus().si(), self.poisson(), part.thickness);
        let Ok(slab) = walls.net.add(Slab::new(sides, Ramp::default(), stiff)) else {
            return false;
        };
        for fitting in self.tank.fittings() {
            if fitting.face() == part.face
                && let Some(hole) = part.hole(slab, fitting.centre, fitting.hole().si())
            {
                // As many as there are fittings.
                let _ = walls.holes.push(hole);
            }
        }
        walls.parts.push(part).is_ok()
            && walls.stretched.push(Stretched::FLAT).is_ok()
            && edges(rims, slab, &part, plate)
    }

    /// A baffle that keeps the walls it is welded to from turning: one held all round, all baffles of one way.
    fn stiffening(&self, place: usize, baffle: &Baffle) -> Option<WallPlate> {
        let baffles = self.tank.inner.baffles();
        let crossed = |other: &Baffle| libm::fabs(other.axis().dot(baffle.axis())) < 0.5;
        if self.has_free_edge(place, baffle) || baffles.iter().any(crossed) {
            return None;
        }
        let inside = &self.tank.body.inside;
        if matches!(baffle.uncut(inside), FlatForm::Disc { .. }) {
            return None;
        }
        let corners: Corners = super::baffle::corners(baffle, inside);
        // Counter-clockwise as seen from where it points to, whichever way that is.
        let normal = area_vector(corners.iter().copied()).unit()?;
        let (frame, flat) = laid(&corners, normal)?;
        Some(WallPlate {
            corners,
            frame,
            flat,
        })
    }
}
