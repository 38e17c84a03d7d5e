//! The flat walls of a tank together: what their seams hand from one to the other.
//!
//! Every part of a wall between baffles is a plate of a net, by the rectangle that stands for it; so is a baffle that is
//! held all round, with nothing pressing on it. Where edges of two plates lie on one line they are joined. An edge of a
//! wall that is no rectangle is taken as the side of its rectangle that faces the same way; what meets an edge for which
//! there is no such side is held from turning there, and bears the most that its neighbour has at any edge. Since the
//! rectangle encloses the wall, what is found then is at most what the tank bears.

use heapless::Vec;

use super::super::elastic::round_a_hole;
use super::super::error::StrengthError;
use super::super::load::{Frame, Load};
use super::super::plate::{
    Enclosing, Joint, MOST_PLATES, MOST_RATIO, Net, Place, PlateEdge, Ramp, Slab, enclosing,
    stiffness,
};
use super::bearing::Trial;
use super::flat_wall::{Corners, WallPlate, laid};
use super::joined::{SeamShare, Shares, WallShare};
use super::judge::Judge;
use crate::body::{FlatForm, area_vector};
use crate::fitting::Baffle;
use crate::geom::Vector;
use crate::input::Face;
use crate::input::limits::MAX_FITTINGS;
use crate::units::Length;

/// Plates at the most, as in a net.
const PLATES: usize = MOST_PLATES;
/// Edges of plates at the most.
const EDGES: usize = 110;
/// Loads that are gone through at the most: one for each wall that has one of its own.
const LOADS: usize = 12;
/// How near to each other the ends of two edges lie that meet, in sheets.
const NEAR: f64 = 4.0;
/// The cosine of the angle between an edge and the side of the rectangle that stands for it, at the least.
const FACING: f64 = 0.7;
/// An outline that fills this share of its rectangle is one.
const RECTANGLE: f64 = 0.999;
/// A hole wider than this share of its plate's short side changes how the plate bends: common practice, no source.
const WIDE: f64 = 0.3;
/// How often the sheet that mends a wall is set right.
const ROUNDS: u8 = 8;
/// What is put on a sheet so found, for what is left of the error.
const MORE: f64 = 1.001;

/// A plate of the net.
#[derive(Clone, Copy)]
struct Part {
    face: Face,
    thickness: f64,
    shape: Enclosing,
    frame: Frame,
    /// Its worst load, by the list of loads; none of a baffle.
    load: Option<usize>,
}

/// An edge of a plate.
#[derive(Clone, Copy)]
struct Rim {
    slab: usize,
    face: Face,
    ends: [Vector; 2],
    /// The middle of the plate.
    centre: Vector,
    /// The side of its rectangle that stands for it, and which way that is told.
    side: Option<(PlateEdge, Vector)>,
    /// It has been joined.
    used: bool,
}

/// A hole in a plate: where its middle lies, from the plate's own, along its short and its long side.
#[derive(Clone, Copy)]
struct Hole {
    slab: usize,
    at: [f64; 2],
    wide: bool,
}

/// The net of a tank's walls, and what its plates are.
struct Walls {
    /// Plates that meet at an edge for which one of them has no side.
    lost: Vec<[usize; 2], EDGES>,
    holes: Vec<Hole, MAX_FITTINGS>,
    net: Net,
    parts: Vec<Part, PLATES>,
    loads: Vec<Load, LOADS>,
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

    fn ramp(&self, load: &Load) -> Ramp {
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
        walls.parts.push(part).is_ok() && edges(rims, slab, &part, plate)
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

    /// Goes through all loads, and mends what has not the reserve that is wanted.
    #[inline(never)]
    fn shared_out(&self, walls: &mut Walls) -> Result<Shares, StrengthError> {
        let mut shares = Shares::NONE;
        shares.at_most = walls.parts.iter().any(|part| part.shape.filled < RECTANGLE);
        let poisson = self.poisson();
        for load in 0..walls.loads.len() {
            walls.press(Some(load));
            walls.tell(&mut shares, poisson, |share, [stress, hole]| {
                share.stress = libm::fmax(share.stress, stress);
                share.hole = libm::fmax(share.hole, hole);
            });
            walls.seams(&mut shares);
        }
        if matches!(self.trial, Trial::Test(_)) {
            // The only load was even.
            let over = self.over().si();
            for wall in &mut shares.walls {
                wall.even = wall.stress / over;
                wall.even_hole = wall.hole / over;
            }
        } else {
            walls.press(None);
            walls.tell(&mut shares, poisson, |share, [stress, hole]| {
                share.even = libm::fmax(share.even, stress);
                share.even_hole = libm::fmax(share.even_hole, hole);
            });
        }
        let wanted = self.trial.wanted();
        for place in 0..shares.walls.len() {
            let Some(share) = shares.walls.get(place).copied() else {
                continue;
            };
            let sheet = self.tank.job.thickness_of(share.face);
            if self.strength(sheet)?.yield_strength.si() < wanted * share.stress {
                let mended = self.mended(walls, share, sheet)?;
                if let Some(share) = shares.walls.get_mut(place) {
                    share.mended = Some(mended);
                }
            }
        }
        Ok(shares)
    }

    /// The sheet that gives a wall the reserve that is wanted, whether the others stay as they are or become as much thicker.
    fn mended(
        &self,
        walls: &mut Walls,
        share: WallShare,
        sheet: Length,
    ) -> Result<Length, StrengthError> {
        let (mut thickness, mut stress) = (sheet.si(), share.stress);
        for _ in 0..ROUNDS {
            let strength = self.strength(Length::from_metres(thickness))?;
            let short = self.trial.wanted() * stress / strength.yield_strength.si();
            thickness *= libm::sqrt(short);
            walls.resheet(share.face, thickness, self.modulus().si(), self.poisson());
            stress = 0.0;
            for load in 0..walls.loads.len() {
                walls.press(Some(load));
                stress = libm::fmax(stress, walls.stress_of(share.face, self.poisson()));
            }
        }
        walls.resheet(share.face, sheet.si(), self.modulus().si(), self.poisson());
        // Where all sheets become thicker alike, the moments stay as they are.
        let strength = self.strength(sheet)?.yield_strength.si();
        let alike = sheet.si() * libm::sqrt(self.trial.wanted() * share.stress / strength);
        Ok(Length::from_metres(MORE * libm::fmax(thickness, alike)))
    }
}

impl Walls {
    /// No plates yet.
    const NONE: Self = Self {
        lost: Vec::new(),
        holes: Vec::new(),
        net: Net::new(),
        parts: Vec::new(),
        loads: Vec::new(),
    };

    /// Lays a load of the list on the walls, or 1 Pa everywhere, and finds the moments.
    fn press(&mut self, load: Option<usize>) {
        let load = load.and_then(|place| self.loads.get(place));
        for (slab, part) in self.parts.iter().enumerate() {
            let ramp = match (part.load, load) {
                (None, _) => Ramp::default(),
                (Some(_), Some(load)) => part.ramp(load),
                (Some(_), None) => Ramp::even(1.0),
            };
            self.net.press(slab, ramp);
        }
        self.net.solve();
    }

    fn resheet(&mut self, face: Face, thickness: f64, modulus: f64, poisson: f64) {
        for (slab, part) in self.parts.iter_mut().enumerate() {
            if part.face == face {
                part.thickness = thickness;
                self.net
                    .stiffen(slab, stiffness(modulus, poisson, thickness));
            }
        }
    }

    /// The highest stress of a plate.
    fn stress(&self, slab: usize, part: &Part, poisson: f64) -> f64 {
        let [moment, _] = self.net.within(slab, poisson);
        let mut moment = libm::fmax(moment, self.at_edges(slab));
        for [one, other] in &self.lost {
            // What the other hands over there is no more than the most that it has at any edge.
            if *one == slab {
                moment = libm::fmax(moment, self.at_edges(*other));
            } else if *other == slab {
                moment = libm::fmax(moment, self.at_edges(*one));
            }
        }
        6.0 * moment / (part.thickness * part.thickness)
    }

    /// The highest moment along the edges of a plate.
    fn at_edges(&self, slab: usize) -> f64 {
        let edges = PlateEdge::ALL.into_iter();
        edges
            .map(|edge| self.net.edge_moment(slab, edge))
            .fold(0.0, libm::fmax)
    }

    /// The highest stress at the edge of a hole in a plate.
    fn at_holes(&self, slab: usize, part: &Part, poisson: f64) -> f64 {
        let own = self.holes.iter().filter(|hole| hole.slab == slab);
        own.map(|hole| {
            let moments = self.net.moments_at(slab, hole.at, poisson);
            6.0 * round_a_hole(moments, poisson) / (part.thickness * part.thickness)
        })
        .fold(0.0, libm::fmax)
    }

    fn stress_of(&self, face: Face, poisson: f64) -> f64 {
        let own = self.parts.iter().enumerate();
        own.filter(|(_, part)| part.face == face)
            .map(|(slab, part)| self.stress(slab, part, poisson))
            .fold(0.0, libm::fmax)
    }

    fn tell(&self, shares: &mut Shares, poisson: f64, set: impl Fn(&mut WallShare, [f64; 2])) {
        for (slab, part) in self.parts.iter().enumerate() {
            if part.load.is_none() {
                continue;
            }
            let stress = [
                self.stress(slab, part, poisson),
                self.at_holes(slab, part, poisson),
            ];
            let wide_hole = self.holes.iter().any(|hole| hole.slab == slab && hole.wide);
            match shares.walls.iter_mut().find(|wall| wall.face == part.face) {
                Some(share) => {
                    set(share, stress);
                    share.wide_hole |= wide_hole;
                }
                None => {
                    let mut share = WallShare {
                        face: part.face,
                        stress: 0.0,
                        even: 0.0,
                        hole: 0.0,
                        even_hole: 0.0,
                        wide_hole,
                        mended: None,
                    };
                    set(&mut share, stress);
                    // As many as there are faces.
                    let _ = shares.walls.push(share);
                }
            }
        }
    }

    fn seams(&self, shares: &mut Shares) {
        for ends in self.net.pairs() {
            let [one, other] = ends;
            let faces = ends.map(|end| self.parts.get(end.slab).map(|part| part.face));
            let [Some(a), Some(b)] = faces else { continue };
            if a == b {
                continue;
            }
            let moment = libm::fmax(
                self.net.edge_moment(one.slab, one.edge),
                self.net.edge_moment(other.slab, other.edge),
            );
            let same = |seam: &&mut SeamShare| seam.faces == [a, b] || seam.faces == [b, a];
            match shares.seams.iter_mut().find(same) {
                Some(seam) => seam.moment = libm::fmax(seam.moment, moment),
                None => {
                    // As many as there are joints.
                    let _ = shares.seams.push(SeamShare {
                        faces: [a, b],
                        moment,
                    });
                }
            }
        }
    }
}

/// Adds the edges of a plate, each with the side of its rectangle that faces the way it does; of two such the longer one has
/// it. Whether there was room.
fn edges(rims: &mut Vec<Rim, EDGES>, slab: usize, part: &Part, plate: &WallPlate) -> bool {
    let shape = &part.shape;
    let lift = |[u, v]: [f64; 2]| part.frame.u * u + part.frame.v * v;
    let centre = part.frame.origin + lift(shape.centre);
    let (across, along) = (lift(shape.across), lift(shape.along));
    let normal = part.frame.u.cross(part.frame.v);
    let first = rims.len();
    let count = plate.corners.len();
    for place in 0..count {
        let (Some(a), Some(b)) = (
            plate.corners.get(place).copied(),
            plate.corners.get((place + 1) % count).copied(),
        ) else {
            continue;
        };
        let run = b - a;
        let length = run.length();
        // Corners run round counter-clockwise as seen from the side that the normal points to.
        let out = run.cross(normal);
        let facing = |way: Vector| out.dot(way) / length;
        let side = [
            (PlateEdge::LongLow, -across, along),
            (PlateEdge::LongHigh, across, along),
            (PlateEdge::ShortLow, -along, across),
            (PlateEdge::ShortHigh, along, across),
        ]
        .into_iter()
        .find(|(_, way, _)| facing(*way) > FACING)
        .map(|(edge, _, told)| (edge, told));
        let mut rim = Rim {
            slab,
            face: part.face,
            ends: [a, b],
            centre,
            side,
            used: false,
        };
        for old in rims.iter_mut().skip(first) {
            if let (Some((one, _)), Some((other, _))) = (old.side, rim.side)
                && one == other
            {
                let [from, to] = old.ends;
                if (to - from).length() < length {
                    old.side = None;
                } else {
                    rim.side = None;
                }
            }
        }
        if rims.push(rim).is_err() {
            return false;
        }
    }
    true
}

/// Joins all edges that meet; whether there was room.
fn joined(tank: &mut Walls, rims: &mut Vec<Rim, EDGES>, near: f64) -> bool {
    let mut fits = true;
    for at in 0..rims.len() {
        let Some(first) = rims.get(at).copied() else {
            continue;
        };
        if first.used {
            continue;
        }
        let mut walls: Vec<Rim, 4> = Vec::new();
        let mut baffle = None;
        for rim in rims.iter_mut().skip(at) {
            if !first.meets(rim, near) {
                continue;
            }
            rim.used = true;
            if matches!(rim.face, Face::Baffle(_)) {
                baffle = Some(*rim);
            } else {
                fits &= walls.push(*rim).is_ok();
            }
        }
        fits &= match walls.as_slice() {
            [one, other] => {
                if one.side.is_none() || other.side.is_none() {
                    fits &= tank.lost.push([one.slab, other.slab]).is_ok();
                }
                both(&mut tank.net, one, other, baffle.as_ref())
            }
            others => others.iter().all(|rim| held(&mut tank.net, rim)),
        };
    }
    fits
}

/// Joins two walls, and the baffle that stands between them.
fn both(net: &mut Net, one: &Rim, other: &Rim, baffle: Option<&Rim>) -> bool {
    let (Some(a), Some(b)) = (one.place(one), other.place(one)) else {
        return held(net, one) && held(net, other);
    };
    let mut fits = net
        .join(Joint {
            ends: [Some(a), Some(b)],
        })
        .is_ok();
    if let Some(baffle) = baffle {
        // Its deflection is told along its axis: towards the wall that lies on that side.
        let [from, _] = baffle.ends;
        let ahead = baffle.normal();
        let lower = if ahead.dot(one.centre - from) < ahead.dot(other.centre - from) {
            one
        } else {
            other
        };
        if let (Some(a), Some(c)) = (lower.place(one), baffle.place(one)) {
            fits &= net
                .join(Joint {
                    ends: [Some(a), Some(c)],
                })
                .is_ok();
        }
    }
    fits
}

/// Holds an edge from turning.
fn held(net: &mut Net, rim: &Rim) -> bool {
    match rim.place(rim) {
        Some(place) => net
            .join(Joint {
                ends: [Some(place), None],
            })
            .is_ok(),
        None => true,
    }
}

impl Rim {
    /// Its place in the net, told the way that `first` is.
    fn place(&self, first: &Self) -> Option<Place> {
        let (edge, told) = self.side?;
        let (_, ahead) = first.side?;
        Some(Place {
            slab: self.slab,
            edge,
            back: told.dot(ahead) < 0.0,
        })
    }

    /// The way in which its plate's deflection is told.
    fn normal(&self) -> Vector {
        let [from, to] = self.ends;
        (self.centre - from)
            .cross(to - from)
            .unit()
            .map_or(Vector::ZERO, |way| -way)
    }

    /// Whether both its ends lie at those of another.
    fn meets(&self, other: &Self, near: f64) -> bool {
        let ([a, b], [c, d]) = (self.ends, other.ends);
        let close = |p: Vector, q: Vector| (p - q).length() <= near;
        (close(a, c) && close(b, d)) || (close(a, d) && close(b, c))
    }
}
