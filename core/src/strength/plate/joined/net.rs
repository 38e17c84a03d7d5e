//! Plates joined at their edges, and the moments along those.

use heapless::Vec;

use super::super::wave::sines;
use super::super::{Ramp, peak};
use super::slab::{Edge, Slab, TAIL, TERMS, Terms, from_behind, number};

/// Plates at the most: a box in five rooms, with the four baffles between them.
pub(crate) const MOST: usize = 26;
/// Joints at the most: of such a box.
const JOINTS: usize = 60;
/// Rounds of the solution at the most.
const ROUNDS: u8 = 60;
/// A round that changes no moment by more than this share of the largest is the last.
const SETTLED: f64 = 1e-4;
/// What a round goes past where it alone would stop.
const PAST: f64 = 1.15;

/// There is no room for one more plate or joint.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct NetFull;

/// One side of a joint.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Place {
    /// The plate, by the order in which they were added.
    pub(crate) slab: usize,
    pub(crate) edge: Edge,
    /// It runs against the joint.
    pub(crate) back: bool,
}

impl Place {
    fn sign(&self, place: usize) -> f64 {
        if self.back { from_behind(place) } else { 1.0 }
    }
}

/// Two edges that turn by as much as each other. Where three plates meet, two joints have one of them in common.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Joint {
    /// The second is none where the first is held from turning.
    pub(crate) ends: [Option<Place>; 2],
}

impl Joint {
    fn ends(&self) -> impl Iterator<Item = &Place> {
        self.ends.iter().flatten()
    }
}

/// The plates and the joints between them.
#[derive(Clone, Debug)]
pub(crate) struct Net {
    slabs: Vec<Slab, MOST>,
    joints: Vec<Joint, JOINTS>,
}

impl Net {
    pub(crate) const fn new() -> Self {
        Self {
            slabs: Vec::new(),
            joints: Vec::new(),
        }
    }

    /// Adds a plate; its place.
    pub(crate) fn add(&mut self, slab: Slab) -> Result<usize, NetFull> {
        let place = self.slabs.len();
        self.slabs.push(slab).map_err(|_| NetFull)?;
        Ok(place)
    }

    pub(crate) fn join(&mut self, joint: Joint) -> Result<(), NetFull> {
        self.joints.push(joint).map_err(|_| NetFull)
    }

    pub(super) fn slab(&self, place: usize) -> Option<&Slab> {
        self.slabs.get(place)
    }

    /// Lays a pressure on a plate; the moments stay as they are until they are found anew.
    pub(crate) fn press(&mut self, slab: usize, ramp: Ramp) {
        if let Some(slab) = self.slabs.get_mut(slab) {
            slab.ramp = ramp;
        }
    }

    /// Makes all moments so many times as large, from where the next search for them starts.
    pub(crate) fn scale(&mut self, times: f64) {
        for slab in &mut self.slabs {
            for moments in &mut slab.moments {
                for moment in moments {
                    *moment *= times;
                }
            }
        }
    }

    /// The stiffness of a plate.
    pub(crate) fn stiffness(&self, slab: usize) -> f64 {
        self.slab(slab).map_or(0.0, |slab| slab.stiffness)
    }

    /// Gives a plate another stiffness.
    pub(crate) fn stiffen(&mut self, slab: usize, stiffness: f64) {
        if let Some(slab) = self.slabs.get_mut(slab) {
            slab.stiffness = stiffness;
        }
    }

    /// The two edges of every joint that has two.
    pub(crate) fn pairs(&self) -> impl Iterator<Item = [Place; 2]> + '_ {
        self.joints.iter().filter_map(|joint| match joint.ends {
            [Some(one), Some(other)] => Some([one, other]),
            _ => None,
        })
    }

    fn slope(&self, joint: &Joint, place: usize) -> [f64; 2] {
        let mut both = [0.0; 2];
        for end in joint.ends() {
            if let Some(slab) = self.slabs.get(end.slab) {
                let [slope, gives] = &mut both;
                *slope += end.sign(place) * slab.slope(end.edge, place);
                *gives += slab.gives(end.edge, place);
            }
        }
        both
    }

    /// Finds the moments at which every joint's two slopes cancel.
    ///
    /// They are where a quadratic energy is lowest, so that going from joint to joint comes nearer to them with every
    /// round.
    pub(crate) fn solve(&mut self) {
        let mut loads: Vec<Terms, JOINTS> = Vec::new();
        for joint in &self.joints {
            let mut terms = [0.0; TERMS];
            for (place, term) in terms.iter_mut().enumerate() {
                for end in joint.ends() {
                    if let Some(slab) = self.slabs.get(end.slab) {
                        *term += end.sign(place) * slab.load_slope(end.edge, number(place));
                    }
                }
            }
            // As many as there are joints.
            let _ = loads.push(terms);
        }
        for _ in 0..ROUNDS {
            let (mut largest, mut change) = (0.0, 0.0);
            for at in 0..self.joints.len() {
                let (Some(joint), Some(load)) = (self.joints.get(at).copied(), loads.get(at))
                else {
                    continue;
                };
                for (place, load) in load.iter().enumerate() {
                    let [slope, gives] = self.slope(&joint, place);
                    let step = -PAST * (load + slope) / gives;
                    change = libm::fmax(change, libm::fabs(step));
                    for end in joint.ends() {
                        if let Some(slab) = self.slabs.get_mut(end.slab) {
                            slab.add(end.edge, place, end.sign(place) * step);
                            let moment = slab.of(end.edge).get(place).copied();
                            largest = libm::fmax(largest, libm::fabs(moment.unwrap_or(0.0)));
                        }
                    }
                }
            }
            if change < SETTLED * largest {
                break;
            }
        }
    }

    /// The highest moment along an edge of a plate, its sign left off, in N·m/m.
    pub(crate) fn edge_moment(&self, slab: usize, edge: Edge) -> f64 {
        let mut terms = [0.0; TAIL];
        if let Some(slab) = self.slabs.get(slab) {
            for (term, moment) in terms.iter_mut().zip(slab.of(edge)) {
                *term = *moment;
            }
        }
        let here = |joint: &&Joint| joint.ends().any(|end| end.slab == slab && end.edge == edge);
        for joint in self.joints.iter().filter(here) {
            let along = joint
                .ends()
                .find(|end| end.slab == slab && end.edge == edge);
            for (place, term) in terms.iter_mut().enumerate().skip(TERMS) {
                let (mut slope, mut gives) = (0.0, 0.0);
                for end in joint.ends() {
                    if let Some(slab) = self.slabs.get(end.slab) {
                        let [by_rest, own] = slab.tail(end.edge, place);
                        slope += end.sign(place) * by_rest;
                        gives += own;
                    }
                }
                *term -= along.map_or(1.0, |end| end.sign(place)) * slope / gives;
            }
        }
        let mut value = |share: f64| sines(&terms, share);
        peak::along(&mut value, 0.0, 1.0)
    }
}
