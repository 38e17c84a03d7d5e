//! Stresses and deflections of each sheet.

use std::collections::HashMap;

use seamwright_core::input::Face;

use super::mesh::{Part, apart};
use super::{BEND, Movement, PlateShell, STRETCH, bending, bowed, frame, membrane, seen};

/// How far sheets deflect.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Deflections {
    /// So little that bowing does not stretch them.
    Small,
    /// By several thicknesses, with moderate turns.
    Large,
}

/// What a sheet bears at one place, in its own axes.
#[derive(Clone, Copy, Debug)]
pub struct Within {
    /// Stress of bending along its two axes and shear, in Pa, at the outer surface.
    pub bending: [f64; 3],
    /// The same in the middle of its thickness.
    pub membrane: [f64; 3],
    /// Von Mises stress at the worse surface, in Pa.
    pub stress: f64,
}

impl Within {
    /// Von Mises stress in the middle of its thickness, in Pa.
    #[must_use]
    pub fn stretched(&self) -> f64 {
        let [x, y, xy] = self.membrane;
        (x * x - x * y + y * y + 3.0 * xy * xy).sqrt()
    }
}

/// What is found along one edge of a sheet.
#[derive(Clone, Debug)]
pub struct Along {
    /// What the sheet meets there.
    pub beside: Face,
    /// Highest von Mises stress at either surface, in Pa.
    pub stress: f64,
    /// The moment across the edge of the largest size, in N m for each metre of it; above zero where the sheet's inner
    /// surface (of a baffle: its low side) is in tension.
    pub moment: f64,
    /// That moment at each node in a row, both ends with them.
    pub moments: Vec<f64>,
}

/// What is found in one sheet.
#[derive(Clone, Debug)]
pub struct Found {
    /// Highest von Mises stress at either surface anywhere, in Pa.
    pub stress: f64,
    /// As `stress`, of what is at least half as far from every edge as its middle is.
    pub inside: f64,
    /// Largest bending moment there, in N m/m; above zero where the outer surface is in tension.
    pub moment: f64,
    /// Largest deflection along the normal from the plane that its edges follow best, in m; above zero outward.
    pub deflection: f64,
    /// Each edge.
    pub edges: Vec<Along>,
}

/// What a sheet bears at one node.
#[derive(Clone, Copy, Default)]
struct Borne {
    /// Mx, My, Mxy.
    moment: [f64; 3],
    /// Nx, Ny, Nxy.
    force: [f64; 3],
    /// Of how many triangles.
    triangles: f64,
}

impl Borne {
    /// What is borne on the way to another place.
    fn between(&self, other: &Self, share: f64) -> Self {
        let mean =
            |a: [f64; 3], b: [f64; 3]| core::array::from_fn(|k| a[k] + share * (b[k] - a[k]));
        Self {
            moment: mean(self.moment, other.moment),
            force: mean(self.force, other.force),
            triangles: 1.0,
        }
    }

    /// Von Mises stress at the worse surface.
    fn stress(&self, thickness: f64) -> f64 {
        let at = |side: f64| {
            let [x, y, xy] = core::array::from_fn(|k| {
                self.force[k] / thickness + side * 6.0 * self.moment[k] / (thickness * thickness)
            });
            (x * x - x * y + y * y + 3.0 * xy * xy).sqrt()
        };
        at(1.0).max(at(-1.0))
    }
}

impl PlateShell {
    /// What every sheet bears when its nodes have moved. Moments and forces at a node are the mean of the sheet's own
    /// triangles there, levelled along edges. Within `clear` metres of an inside corner of any outline, where the stress
    /// has no end, nothing is looked at.
    ///
    /// # Panics
    /// Where a sheet has no triangles.
    #[must_use]
    pub fn found(&self, moved: &[Movement], clear: f64) -> Vec<Found> {
        self.found_after(moved, clear, Deflections::Small)
    }

    /// As `found`, after movements of either kind.
    ///
    /// # Panics
    /// Where a sheet has no triangles.
    #[must_use]
    pub fn found_after(&self, moved: &[Movement], clear: f64, kind: Deflections) -> Vec<Found> {
        let corners: Vec<[f64; 3]> = self.parts.iter().flat_map(|p| self.inside(p)).collect();
        (0..self.sheets.len())
            .map(|place| {
                self.sheet_found(
                    place,
                    self.borne(place, moved, kind),
                    moved,
                    &corners,
                    clear,
                )
            })
            .collect()
    }

    /// What a sheet bears at its node nearest to a place in its plane, from its first corner along its two axes.
    ///
    /// # Panics
    /// Where the sheet has no triangles.
    #[must_use]
    pub fn within(
        &self,
        place: usize,
        at: [f64; 2],
        moved: &[Movement],
        kind: Deflections,
    ) -> Within {
        let part = &self.parts[place];
        let far = |[x, y]: [f64; 2]| (x - at[0]).hypot(y - at[1]);
        let (node, _) = part
            .flat
            .iter()
            .min_by(|a, b| far(*a.1).total_cmp(&far(*b.1)))
            .expect("a node");
        let thickness = self.sheets[place].thickness;
        let borne = self.borne(place, moved, kind)[node];
        Within {
            bending: borne
                .moment
                .map(|part| 6.0 * part / (thickness * thickness)),
            membrane: borne.force.map(|part| part / thickness),
            stress: borne.stress(thickness),
        }
    }

    /// Where a sheet's outline turns inward.
    fn inside(&self, part: &Part) -> Vec<[f64; 3]> {
        let count = part.rims.len();
        let at = |n: usize| part.flat[&part.rims[n % count][0]];
        let turns = |n: &usize| {
            let (a, b, c) = (at(n + count - 1), at(*n), at(n + 1));
            (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) < -1e-12
        };
        let corners = (0..count).filter(turns);
        corners.map(|n| self.places[part.rims[n][0]]).collect()
    }

    fn sheet_found(
        &self,
        place: usize,
        borne: HashMap<usize, Borne>,
        moved: &[Movement],
        corners: &[[f64; 3]],
        clear: f64,
    ) -> Found {
        let (sheet, part) = (&self.sheets[place], &self.parts[place]);
        let outline: Vec<[f64; 2]> = part.rims.iter().map(|rim| part.flat[&rim[0]]).collect();
        let count = outline.len();
        let sides: Vec<[[f64; 2]; 2]> = (0..count)
            .map(|n| [outline[n], outline[(n + 1) % count]])
            .collect();
        let counts = |node: &usize| {
            let at = self.places[*node];
            let far = |c: &[f64; 3]| (0..3).map(|k| (c[k] - at[k]).powi(2)).sum::<f64>();
            corners.iter().all(|corner| far(corner) > clear * clear)
        };
        let from_edges = |node: &usize| {
            let at = part.flat[node];
            sides
                .iter()
                .map(|side| apart(*side, at))
                .fold(f64::MAX, f64::min)
        };
        let deepest = borne.keys().map(from_edges).fold(0.0, f64::max);
        let mut found = Found {
            stress: 0.0,
            inside: 0.0,
            moment: 0.0,
            deflection: self.deflection(place, moved),
            edges: Vec::new(),
        };
        for (_, borne) in borne.iter().filter(|(node, _)| counts(node)) {
            found.stress = found.stress.max(borne.stress(sheet.thickness));
        }
        // Between nodes on either side of the limit it is looked at on the limit itself, so that it does not matter
        // where a mesh has its nodes.
        let limit = 0.5 * deepest;
        for [a, b] in part
            .triangles
            .iter()
            .flat_map(|[a, b, c]| [[a, b], [b, c], [c, a]])
        {
            let (near, far) = (from_edges(a), from_edges(b));
            if near.max(far) < limit || !counts(a) || !counts(b) {
                continue;
            }
            let to = |end: f64, other: f64| ((limit - end) / (other - end)).max(0.0);
            let shares = if near < limit {
                [to(near, far), 1.0]
            } else if far < limit {
                [0.0, 1.0 - to(far, near)]
            } else {
                [0.0, 1.0]
            };
            for share in shares {
                let at = borne[a].between(&borne[b], share);
                found.inside = found.inside.max(at.stress(sheet.thickness));
                let [x, y, xy] = at.moment;
                let (mean, radius) = (0.5 * (x + y), (0.5 * (x - y)).hypot(xy));
                for principal in [mean + radius, mean - radius] {
                    if principal.abs() > found.moment.abs() {
                        found.moment = principal;
                    }
                }
            }
        }
        for ((rim, beside), [a, b]) in part.rims.iter().zip(&sheet.beside).zip(&sides) {
            let mut along = Along {
                beside: *beside,
                stress: 0.0,
                moment: 0.0,
                moments: Vec::new(),
            };
            let run = [b[0] - a[0], b[1] - a[1]];
            let length = run[0].hypot(run[1]);
            let [nx, ny] = [run[1] / length, -run[0] / length];
            for node in rim {
                let borne = &borne[node];
                let [x, y, xy] = borne.moment;
                let across = -(nx * nx * x + ny * ny * y + 2.0 * nx * ny * xy);
                along.moments.push(across);
                if !counts(node) {
                    continue;
                }
                along.stress = along.stress.max(borne.stress(sheet.thickness));
                if across.abs() > along.moment.abs() {
                    along.moment = across;
                }
            }
            found.edges.push(along);
        }
        found
    }

    /// What a sheet bears at each of its nodes.
    fn borne(&self, place: usize, moved: &[Movement], kind: Deflections) -> HashMap<usize, Borne> {
        let (sheet, part) = (&self.sheets[place], &self.parts[place]);
        let frame = frame(sheet);
        let (modulus, poisson) = (self.metal.modulus, self.metal.poisson);
        let rigidity = bending::rigidity(modulus, poisson, sheet.thickness);
        let elastic = bending::plane_stress(modulus, poisson);
        let mut all: HashMap<usize, Borne> = HashMap::new();
        for corners in &part.triangles {
            let flat = corners.map(|node| part.flat[&node]);
            let (mut bends, mut stretches) = ([0.0; 9], [0.0; 9]);
            for (n, node) in corners.iter().enumerate() {
                let own = seen(&moved[*node], &frame);
                for k in 0..3 {
                    bends[3 * n + k] = own[BEND[k]];
                    stretches[3 * n + k] = own[STRETCH[k]];
                }
            }
            let mut force = product(elastic, &membrane::strain(flat), &stretches);
            if kind == Deflections::Large {
                let added = bowed::Lengths::new(flat).added(&bends);
                for (to, row) in force.iter_mut().zip(elastic) {
                    *to += row.iter().zip(added).map(|(a, b)| a * b).sum::<f64>();
                }
            }
            for (n, node) in corners.iter().enumerate() {
                let mut at = [0.0; 3];
                at[n] = 1.0;
                let moment = product(rigidity, &bending::curvature(flat, at), &bends);
                let borne = all.entry(*node).or_default();
                for k in 0..3 {
                    borne.moment[k] += moment[k];
                    borne.force[k] += force[k] * sheet.thickness;
                }
                borne.triangles += 1.0;
            }
        }
        for borne in all.values_mut() {
            borne.moment = borne.moment.map(|sum| sum / borne.triangles);
            borne.force = borne.force.map(|sum| sum / borne.triangles);
        }
        // Along an edge nodes differ by turns, as more or fewer triangles of the sheets there meet in them. Weights that
        // keep cubics level that out; beside the ends, where there is no room for them, those that keep straight lines.
        for rim in &part.rims {
            let along: Vec<Borne> = rim.iter().map(|node| all[node]).collect();
            for n in 1..along.len() - 1 {
                let beside = along[n - 1].between(&along[n + 1], 0.5);
                let level = if n > 1 && n + 2 < along.len() {
                    let beyond = along[n - 2].between(&along[n + 2], 0.5);
                    let near = along[n].between(&beside, 4.0 / 9.0);
                    near.between(&beyond, -0.125)
                } else {
                    along[n].between(&beside, 0.5)
                };
                all.insert(rim[n], level);
            }
        }
        all
    }

    /// The largest deflection from the plane that fits the edges best.
    fn deflection(&self, place: usize, moved: &[Movement]) -> f64 {
        let (sheet, part) = (&self.sheets[place], &self.parts[place]);
        let frame = frame(sheet);
        let away = |node: &usize| seen(&moved[*node], &frame)[2];
        let rim: Vec<usize> = part
            .rims
            .iter()
            .flat_map(|rim| rim.iter().skip(1))
            .copied()
            .collect();
        // Least squares of 1, x, y.
        let mut sums = [[0.0; 4]; 3];
        for node in &rim {
            let [x, y] = part.flat[node];
            let terms = [1.0, x, y];
            for i in 0..3 {
                for j in 0..3 {
                    sums[i][j] += terms[i] * terms[j];
                }
                sums[i][3] += terms[i] * away(node);
            }
        }
        for k in 0..3 {
            let lead = sums[k];
            for row in (0..3).filter(|row| *row != k) {
                let factor = sums[row][k] / lead[k];
                for (to, part) in sums[row].iter_mut().zip(lead) {
                    *to -= factor * part;
                }
            }
        }
        let plane = [0, 1, 2].map(|k: usize| sums[k][3] / sums[k][k]);
        part.flat
            .iter()
            .map(|(node, [x, y])| away(node) - plane[0] - plane[1] * x - plane[2] * y)
            .fold(
                0.0,
                |most: f64, off| if off.abs() > most.abs() { off } else { most },
            )
    }
}

/// `by` times `of` times `freedoms`.
fn product(by: [[f64; 3]; 3], of: &[[f64; 9]; 3], freedoms: &[f64; 9]) -> [f64; 3] {
    let strains = of.map(|row| row.iter().zip(freedoms).map(|(a, b)| a * b).sum::<f64>());
    by.map(|row| row.iter().zip(strains).map(|(a, b)| a * b).sum())
}
