//! The net of a tank's walls under a load: what each bears, by bending and then by stretching too.

use super::super::elastic::round_a_hole;
use super::super::plate::{EASED_TO, Eased, PlateEdge, Ramp, edges_held, stiffness};
use super::joined::{SeamShare, Shares, WallShare};
use super::parts::{Part, Stretched, Walls};
use crate::input::Face;

/// How much more than the stress of bending a hole may raise that of stretching, as a share of the first: an even pull
/// along one way is trebled at its edge where bending that way grows by 1.8, and at most a quarter of the stress in the
/// middle of an eased plate is pull.
const PULL_AT_A_HOLE: f64 = 0.17;
/// The stress at a hole is not told as more than this share of that by bending alone.
const MOST_AT_A_HOLE: f64 = 1.05;

/// What a plate bears.
#[derive(Clone, Copy)]
pub(super) struct Borne {
    /// The highest stress, in pascals.
    pub(super) stress: f64,
    /// It stands at an edge.
    pub(super) at_edges: bool,
    /// The same at the edges of its holes.
    pub(super) hole: f64,
    /// The bulge, in metres.
    pub(super) bulge: f64,
}

impl Walls {
    /// Lays a load of the list on the walls, and finds the moments.
    pub(super) fn press(&mut self, load: usize) {
        if let Some(load) = self.loads.get(load).copied() {
            self.lay(|part| part.ramp(&load));
        }
    }

    /// Lays the same pressure on all walls, and finds the moments.
    pub(super) fn press_evenly(&mut self, pressure: f64) {
        self.lay(|_| Ramp::even(pressure));
    }

    /// By bending first; then what stretching eases a plate by is taken off the mean of what presses on it, and the moments
    /// are found anew.
    fn lay(&mut self, ramp_of: impl Fn(&Part) -> Ramp) {
        let ramp_of = |part: &Part| part.load.map_or_else(Ramp::default, |_| ramp_of(part));
        for (slab, part) in self.parts.iter().enumerate() {
            self.net.press(slab, ramp_of(part));
        }
        self.net.solve();
        let mut again = false;
        for slab in 0..self.parts.len() {
            let Some(part) = self.parts.get(slab) else {
                continue;
            };
            let ramp = ramp_of(part);
            let stretched = self.stretch(slab, part, ramp);
            again |= stretched.eased != Eased::NONE;
            if let Some(slot) = self.stretched.get_mut(slab) {
                *slot = stretched;
            }
        }
        if again {
            for slab in 0..self.parts.len() {
                if let Some(part) = self.parts.get(slab) {
                    let ramp = ramp_of(part);
                    let mean = ramp.mean * self.eased(slab).edge;
                    self.net.press(slab, Ramp { mean, ..ramp });
                }
            }
            self.net.solve();
        }
    }

    /// How a plate stretches, by how it bends.
    fn stretch(&self, slab: usize, part: &Part, ramp: Ramp) -> Stretched {
        let middle = self.net.middle(slab);
        let bulge = middle / (self.net.stiffness(slab) * part.thickness);
        let sides = part.shape.sides;
        let square = sides.short() * sides.short();
        let eased = if ramp.mean > 0.0 {
            let held = edges_held(sides, middle / (ramp.mean * square * square));
            Eased::of(sides, held, bulge)
        } else {
            Eased::NONE
        };
        Stretched {
            eased,
            bulge: libm::fabs(bulge),
            swept: self.net.swept(slab),
        }
    }

    /// Gives a part another sheet.
    pub(super) fn resheet(&mut self, slab: usize, thickness: f64, modulus: f64, poisson: f64) {
        if let Some(part) = self.parts.get_mut(slab) {
            part.thickness = thickness;
            self.net
                .stiffen(slab, stiffness(modulus, poisson, thickness));
        }
    }

    /// What a plate bears.
    pub(super) fn borne(&self, slab: usize, part: &Part, poisson: f64) -> Borne {
        let eased = self.eased(slab);
        // The moments are those of an eased pressure already.
        let [inside, bulge] = [eased.inside, eased.bulge].map(|share| share / eased.edge);
        let [moment, deflection] = self.net.within(slab, poisson);
        let at_edges = self.at_edges(slab);
        let per_moment = 6.0 / (part.thickness * part.thickness);
        Borne {
            stress: per_moment * libm::fmax(inside * moment, at_edges),
            at_edges: inside * moment < at_edges,
            hole: self.hole(slab, part, poisson),
            bulge: bulge * deflection / self.net.stiffness(slab),
        }
    }

    /// The highest stress at the edges of a plate.
    pub(super) fn edge(&self, slab: usize, part: &Part) -> f64 {
        6.0 * self.at_edges(slab) / (part.thickness * part.thickness)
    }

    /// The highest stress at the edges of a plate's holes.
    pub(super) fn hole(&self, slab: usize, part: &Part, poisson: f64) -> f64 {
        let eased = self.eased(slab);
        let raised = libm::fmin(MOST_AT_A_HOLE, eased.inside + PULL_AT_A_HOLE);
        let share = if eased == Eased::NONE {
            1.0
        } else {
            libm::fmax(eased.inside, raised) / eased.edge
        };
        6.0 * share * self.at_holes(slab, poisson) / (part.thickness * part.thickness)
    }

    fn eased(&self, slab: usize) -> Eased {
        self.stretched
            .get(slab)
            .map_or(Eased::NONE, |one| one.eased)
    }

    /// The highest moment along the edges of a plate, or that its neighbour has where the plate has no edge for it: what
    /// the other hands over there is no more than the most that it has at any edge.
    fn at_edges(&self, slab: usize) -> f64 {
        let own = |slab: usize| {
            let edges = PlateEdge::ALL.into_iter();
            edges
                .map(|edge| self.net.edge_moment(slab, edge))
                .fold(0.0, libm::fmax)
        };
        let lost = self.lost.iter().filter_map(|[one, other]| {
            let there = [(one, other), (other, one)].into_iter();
            there
                .filter(|(here, _)| **here == slab)
                .map(|(_, other)| *other)
                .next()
        });
        lost.map(own).fold(own(slab), libm::fmax)
    }

    /// The highest moment at the edge of a hole in a plate.
    fn at_holes(&self, slab: usize, poisson: f64) -> f64 {
        let own = self.holes.iter().filter(|hole| hole.slab == slab);
        own.map(|hole| round_a_hole(self.net.moments_at(slab, hole.at, poisson), poisson))
            .fold(0.0, libm::fmax)
    }

    /// The highest stress of a wall, in pascals.
    pub(super) fn stress_of(&self, face: Face, poisson: f64) -> f64 {
        let own = self.parts.iter().enumerate();
        own.filter(|(_, part)| part.face == face)
            .map(|(slab, part)| self.borne(slab, part, poisson).stress)
            .fold(0.0, libm::fmax)
    }

    /// A plate's bulge by bending alone, over the largest to which stretching is known to ease.
    pub(super) fn bulge_of(&self, slab: usize) -> f64 {
        self.stretched
            .get(slab)
            .map_or(0.0, |one| one.bulge / EASED_TO)
    }

    /// The volume that all walls sweep, in m³: by stretching and bending, and by bending alone.
    pub(super) fn swept(&self) -> [f64; 2] {
        let mut sum = [0.0; 2];
        for one in &self.stretched {
            let [stretched, bent] = &mut sum;
            *stretched += one.eased.swept * one.swept;
            *bent += one.swept;
        }
        sum
    }

    /// Sets by what is laid on the walls what each has at the most.
    pub(super) fn tell(&self, shares: &mut Shares, poisson: f64) {
        for (slab, part) in self.parts.iter().enumerate() {
            if let Some(share) = part.load.and_then(|_| shares.wall_of(part.face)) {
                let borne = self.borne(slab, part, poisson);
                share.stress = libm::fmax(share.stress, borne.stress);
                share.hole = libm::fmax(share.hole, borne.hole);
                share.bulge = libm::fmax(share.bulge, libm::fabs(borne.bulge));
            }
        }
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

    /// The walls, each once, with nothing told of them.
    pub(super) fn shares(&self) -> Shares {
        let mut shares = Shares::NONE;
        for (slab, part) in self.parts.iter().enumerate() {
            if part.load.is_none() {
                continue;
            }
            let wide_hole = self.holes.iter().any(|hole| hole.slab == slab && hole.wide);
            match shares.wall_of(part.face) {
                Some(share) => share.wide_hole |= wide_hole,
                None => {
                    // As many as there are faces.
                    let _ = shares.walls.push(WallShare {
                        wide_hole,
                        ..WallShare::of(part.face)
                    });
                }
            }
        }
        shares
    }
}
