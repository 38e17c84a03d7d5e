//! The flat walls of a tank together: what their seams hand from one to the other.
//!
//! Every part of a wall between baffles is a plate of a net, by the rectangle that stands for it; so is a baffle that is
//! held all round, with nothing pressing on it. Where edges of two plates lie on one line they are joined. An edge of a
//! wall that is no rectangle is taken as the side of its rectangle that faces the same way; what meets an edge for which
//! there is no such side is held from turning there, and bears the most that its neighbour has at any edge. Since the
//! rectangle encloses the wall, what is found then is at most what the tank bears.

use heapless::Vec;

use super::super::error::StrengthError;
use super::super::plate::{MOST_RATIO, Ramp, Slab, enclosing, stiffness};
use super::flat_wall::{Corners, WallPlate, laid};
use super::joined::Shares;
use super::judge::Judge;
use super::meeting::{NEAR, Rim, edges, joined};
use super::parts::{EDGES, Part, Stretched, Walls};
use crate::body::{FlatForm, area_vector};
use crate::fitting::Baffle;
use crate::input::Face;

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
