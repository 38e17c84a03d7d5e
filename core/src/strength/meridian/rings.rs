//! The balance of all rings between the frusta, and the stress that comes of it.

use heapless::Vec;

use super::super::elastic::{ElasticPeak, ElasticPlace};
use super::frustum::{Block, Frustum, Metal, Ring};
use super::line::{Meridian, POINTS};
use crate::units::Pressure;

/// A row of the balance, eliminated: what the ring's displacements are of the next ring's.
#[derive(Clone, Copy)]
struct Row {
    by_next: Block,
    own: Ring,
}

const NOTHING: Block = [[0.0; 3]; 3];

/// Solves `a · x = b` for several right sides by elimination with pivots.
fn solved<const N: usize>(mut a: Block, mut b: [[f64; N]; 3]) -> [[f64; N]; 3] {
    for at in 0..3 {
        let size = |row: usize| libm::fabs(cell(&a, row, at));
        let mut pivot = at;
        for row in at + 1..3 {
            if size(row) > size(pivot) {
                pivot = row;
            }
        }
        a.swap(at, pivot);
        b.swap(at, pivot);
        let (lead, rhs) = (line(&a, at), line(&b, at));
        let over = cell(&a, at, at);
        for row in 0..3 {
            if row == at {
                continue;
            }
            let times = cell(&a, row, at) / over;
            if let (Some(left), Some(right)) = (a.get_mut(row), b.get_mut(row)) {
                for (entry, by) in left.iter_mut().zip(lead) {
                    *entry -= times * by;
                }
                for (entry, by) in right.iter_mut().zip(rhs) {
                    *entry -= times * by;
                }
            }
        }
    }
    for (at, right) in b.iter_mut().enumerate() {
        let over = cell(&a, at, at);
        for entry in right {
            *entry /= over;
        }
    }
    b
}

fn cell(a: &Block, row: usize, column: usize) -> f64 {
    a.get(row)
        .and_then(|line| line.get(column))
        .copied()
        .unwrap_or(0.0)
}

fn line<const N: usize>(of: &[[f64; N]; 3], row: usize) -> [f64; N] {
    of.get(row).copied().unwrap_or([0.0; N])
}

fn add(to: &mut Block, from: &Block) {
    for (line, from) in to.iter_mut().zip(from) {
        for (entry, from) in line.iter_mut().zip(from) {
            *entry += from;
        }
    }
}

fn times(block: &Block, ring: &Ring) -> Ring {
    block.map(|line| line.iter().zip(ring).map(|(a, b)| a * b).sum())
}

/// Holds one displacement of a ring.
fn hold(own: &mut Block, to: &mut Block, push: &mut Ring, which: usize) {
    for block in [&mut *own, to] {
        if let Some(line) = block.get_mut(which) {
            *line = [0.0; 3];
        }
    }
    if let Some(entry) = own.get_mut(which).and_then(|line| line.get_mut(which)) {
        *entry = 1.0;
    }
    if let Some(entry) = push.get_mut(which) {
        *entry = 0.0;
    }
}

impl Meridian {
    fn frusta(&self) -> impl Iterator<Item = Frustum> + '_ {
        let [end, shell] = self.sheets;
        let pairs = self.points.iter().zip(self.points.iter().skip(1));
        pairs.enumerate().map(move |(place, (from, to))| {
            let sheet = if place < self.rim { end } else { shell };
            Frustum::new(*from, *to, sheet)
        })
    }

    /// The displacements of every ring under a pressure; the middle of the shell stays where it is along the axis, and does
    /// not turn.
    fn displaced(&self, metal: Metal, pressure: f64) -> Vec<Ring, POINTS> {
        let mut rows: Vec<Row, POINTS> = Vec::new();
        let last = self.points.len().saturating_sub(1);
        let (mut own, mut push) = (NOTHING, [0.0; 3]);
        // What the ring before calls for: its row, and what binds it to this one.
        let mut before: Option<(Row, Block)> = None;
        let mut frusta = self.frusta();
        for place in 0..=last {
            let next = frusta.next();
            let (mut to, mut back) = (NOTHING, NOTHING);
            let mut carried = (NOTHING, [0.0; 3]);
            if let Some(frustum) = next {
                let [[here, ahead], [behind, there]] = frustum.stiffness(metal);
                let [near, far] = frustum.pushed(pressure);
                add(&mut own, &here);
                for (entry, more) in push.iter_mut().zip(near) {
                    *entry += more;
                }
                (to, back, carried) = (ahead, behind, (there, far));
            }
            if let Some((row, bound)) = before {
                // The ring before is row.own − row.by_next · this one.
                let less = bound.map(|line| {
                    let mut sum = [0.0; 3];
                    for (entry, of) in line.iter().zip(&row.by_next) {
                        for (sum, of) in sum.iter_mut().zip(of) {
                            *sum -= entry * of;
                        }
                    }
                    sum
                });
                add(&mut own, &less);
                let gone = times(&bound, &row.own);
                for (entry, gone) in push.iter_mut().zip(gone) {
                    *entry -= gone;
                }
            }
            if place == 0 {
                hold(&mut own, &mut to, &mut push, 0);
                hold(&mut own, &mut to, &mut push, 2);
            }
            if place == last {
                hold(&mut own, &mut to, &mut push, 1);
                hold(&mut own, &mut to, &mut push, 2);
            }
            let [[t0, t1, t2], [t3, t4, t5], [t6, t7, t8]] = to;
            let [p0, p1, p2] = push;
            let right = [[t0, t1, t2, p0], [t3, t4, t5, p1], [t6, t7, t8, p2]];
            let both = solved(own, right);
            let row = Row {
                by_next: both.map(|[a, b, c, _]| [a, b, c]),
                own: both.map(|[.., d]| d),
            };
            // As many as there are points.
            let _ = rows.push(row);
            before = Some((row, back));
            (own, push) = carried;
        }
        let mut rings: Vec<Ring, POINTS> = Vec::new();
        let mut after = [0.0; 3];
        for row in rows.iter().rev() {
            let of_next = times(&row.by_next, &after);
            let mut here = row.own;
            for (entry, less) in here.iter_mut().zip(of_next) {
                *entry -= less;
            }
            let _ = rings.push(here);
            after = here;
        }
        rings.reverse();
        rings
    }

    /// The highest stress in the end and in the shell under a pressure, for Young's modulus and Poisson's ratio.
    pub(crate) fn peaks(&self, modulus: f64, poisson: f64, pressure: f64) -> [ElasticPeak; 2] {
        let metal = Metal { modulus, poisson };
        let rings = self.displaced(metal, pressure);
        let mut peaks = [(0.0, false); 2];
        let both = rings.iter().zip(rings.iter().skip(1));
        for ((place, frustum), (from, to)) in self.frusta().enumerate().zip(both) {
            let [end, shell] = &mut peaks;
            let peak = if place < self.rim { end } else { shell };
            let at_rim = place + 1 == self.rim || place == self.rim;
            // The middle of the end has no ring of its own.
            let shares: &[f64] = if place == 0 { &[1.0] } else { &[0.0, 1.0] };
            for share in shares {
                let stress = frustum.stress([*from, *to], *share, metal);
                if stress > peak.0 {
                    *peak = (stress, at_rim);
                }
            }
        }
        peaks.map(|(stress, at_rim)| ElasticPeak {
            stress: Pressure::from_pascals(stress),
            place: if at_rim {
                ElasticPlace::Rim
            } else {
                ElasticPlace::Wall
            },
        })
    }
}
