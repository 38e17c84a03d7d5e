//! A whole tank by finite elements: how its walls bend and stretch together under pressure, for comparison.
//!
//! Written apart from `core`'s strength, with another method throughout. Linear: small deflections; [`large`] has those
//! of several thicknesses. Every wall and
//! every baffle is a flat sheet at the middle of its thickness; sheets share their nodes along the seams, so that an
//! edge moves and turns as all sheets that meet there let it. Triangles of flat shell: discrete Kirchhoff bending
//! (Batoz, Bathe, Ho 1980) and the optimal membrane with drilling freedoms (Felippa 2003), whose own
//! stiffness about the normal needs no spring. Six freedoms a node, solved directly by a multifrontal Cholesky method.
//! Of `core` it takes the geometry of the job alone.

// A reference that cannot go on stops its test at once.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod bending;
mod bowed;
mod dissect;
mod found;
pub mod large;
pub mod large_table;
mod membrane;
mod mesh;
mod sheet;
pub mod single;
mod sparse;
pub mod table;
pub mod tank;

pub use found::{Along, Deflections, Found, Within};
pub use sheet::{Named, Sheet, sheets};

use seamwright_core::geom::Vector;

use self::mesh::{Nodes, Part};
use self::sparse::{Block, Factor, Matrix, SIX};

/// Shifts along x, y, z in m and turns about them in rad.
pub type Movement = [f64; 6];

/// What bends: modulus of elasticity in Pa, and Poisson's ratio.
#[derive(Clone, Copy, Debug)]
pub struct Elastic {
    /// Modulus of elasticity, in Pa.
    pub modulus: f64,
    /// Poisson's ratio.
    pub poisson: f64,
}

/// Sheets in triangles.
#[derive(Debug)]
pub struct PlateShell {
    sheets: Vec<Sheet>,
    metal: Elastic,
    width: f64,
    places: Vec<[f64; 3]>,
    parts: Vec<Part>,
}

impl PlateShell {
    /// Cuts sheets into triangles of about `width` metres.
    ///
    /// # Panics
    /// Where a sheet has no plain outline.
    #[must_use]
    pub fn new(sheets: Vec<Sheet>, metal: Elastic, width: f64) -> Self {
        Self::drawn(sheets, metal, width, 0.0)
    }

    /// As `new`, but triangles are narrower by the share `drawn` where edges end, and as much wider half way along them,
    /// so that those of rectangles are drawn to their edges.
    ///
    /// # Panics
    /// Where a sheet has no plain outline.
    #[must_use]
    pub fn drawn(sheets: Vec<Sheet>, metal: Elastic, width: f64, drawn: f64) -> Self {
        let mut nodes = Nodes::default();
        let by = mesh::Width { mean: width, drawn };
        let parts = sheets
            .iter()
            .map(|sheet| mesh::cut(sheet, by, &mut nodes))
            .collect();
        Self {
            sheets,
            metal,
            width,
            places: nodes.places,
            parts,
        }
    }

    /// Its sheets.
    #[must_use]
    pub fn sheets(&self) -> &[Sheet] {
        &self.sheets
    }

    /// About how wide its triangles are, in m.
    #[must_use]
    pub const fn width(&self) -> f64 {
        self.width
    }

    /// How many nodes it has.
    #[must_use]
    pub fn nodes(&self) -> usize {
        self.places.len()
    }

    /// Where each node is.
    #[must_use]
    pub fn places(&self) -> &[[f64; 3]] {
        &self.places
    }

    /// Nodes along the edges of the sheets that `of` picks.
    #[must_use]
    pub fn rims(&self, of: impl Fn(&Sheet) -> bool) -> Vec<usize> {
        let picked = self.sheets.iter().zip(&self.parts).filter(|(s, _)| of(s));
        let mut all: Vec<usize> = picked.flat_map(|(_, p)| p.rims.concat()).collect();
        all.sort_unstable();
        all.dedup();
        all
    }

    /// Forces of a pressure, in Pa by place, on every pressed sheet along its normal.
    #[must_use]
    pub fn pressed(&self, pressure: impl Fn(Vector) -> f64) -> Vec<Movement> {
        let mut forces = vec![[0.0; SIX]; self.places.len()];
        let at = self
            .places
            .iter()
            .map(|[x, y, z]| pressure(Vector::new(*x, *y, *z)));
        let at: Vec<f64> = at.collect();
        for (sheet, part) in self
            .sheets
            .iter()
            .zip(&self.parts)
            .filter(|(s, _)| s.pressed)
        {
            let normal = [sheet.normal.x, sheet.normal.y, sheet.normal.z];
            for corners in &part.triangles {
                let (_, area) = bending::gradients(corners.map(|node| part.flat[&node]));
                let sum: f64 = corners.iter().map(|node| at[*node]).sum();
                for node in corners {
                    let force = area / 12.0 * (sum + at[*node]);
                    for (to, along) in forces[*node].iter_mut().zip(normal) {
                        *to += force * along;
                    }
                }
            }
        }
        forces
    }

    /// What every node moves by under forces; `held` names the freedoms that do not move.
    ///
    /// # Panics
    /// Where something is not held.
    #[must_use]
    pub fn moved(&self, forces: &[Movement], held: &[[bool; 6]]) -> Vec<Movement> {
        let mut matrix = self.matrix();
        matrix.hold(held);
        let mut forces = forces.to_vec();
        for (force, held) in forces.iter_mut().zip(held) {
            for (force, held) in force.iter_mut().zip(held) {
                if *held {
                    *force = 0.0;
                }
            }
        }
        let factor = Factor::of(&matrix, &self.places);
        let mut moved = factor.solve(&forces);
        // Once more for what rounding has left.
        let back = matrix.times(&moved);
        let rest: Vec<Movement> = forces
            .iter()
            .zip(&back)
            .map(|(a, b)| core::array::from_fn(|i| a[i] - b[i]))
            .collect();
        for (to, more) in moved.iter_mut().zip(factor.solve(&rest)) {
            for (to, more) in to.iter_mut().zip(more) {
                *to += more;
            }
        }
        moved
    }

    /// Forces that movements ask for, nothing held.
    #[must_use]
    pub fn forces(&self, moved: &[Movement]) -> Vec<Movement> {
        self.matrix().times(moved)
    }

    fn matrix(&self) -> Matrix {
        let mut matrix = Matrix::new(self.places.len());
        for (sheet, part) in self.sheets.iter().zip(&self.parts) {
            let frame = frame(sheet);
            let rigidity =
                bending::rigidity(self.metal.modulus, self.metal.poisson, sheet.thickness);
            for corners in &part.triangles {
                let flat = corners.map(|node| part.flat[&node]);
                let bends = bending::stiffness(flat, rigidity);
                let Elastic { modulus, poisson } = self.metal;
                let stretches = membrane::stiffness(flat, modulus, poisson, sheet.thickness);
                for (i, one) in corners.iter().enumerate() {
                    for (j, other) in corners.iter().enumerate() {
                        let mut local = [[0.0; SIX]; SIX];
                        for a in 0..3 {
                            for b in 0..3 {
                                local[STRETCH[a]][STRETCH[b]] = stretches[3 * i + a][3 * j + b];
                                local[BEND[a]][BEND[b]] = bends[3 * i + a][3 * j + b];
                            }
                        }
                        matrix.add(*one, *other, &turned(&local, &frame));
                    }
                }
            }
        }
        matrix
    }
}

/// Which freedoms stretch a sheet (u, v, turn about the normal) and which bend it (w, turns about its two axes).
const STRETCH: [usize; 3] = [0, 1, 5];
const BEND: [usize; 3] = [2, 3, 4];

/// Right, up and normal of a sheet.
fn frame(sheet: &Sheet) -> [[f64; 3]; 3] {
    let [right, up] = sheet.axes();
    [right, up, sheet.normal].map(|way| [way.x, way.y, way.z])
}

/// A block in the tank's axes, from that in a sheet's.
fn turned(local: &Block, frame: &[[f64; 3]; 3]) -> Block {
    let mut half = [[0.0; SIX]; SIX];
    let mut all = [[0.0; SIX]; SIX];
    for i in 0..SIX {
        for j in 0..SIX {
            half[i][j] = (0..3)
                .map(|k| local[i][3 * (j / 3) + k] * frame[k][j % 3])
                .sum();
        }
    }
    for i in 0..SIX {
        for j in 0..SIX {
            all[i][j] = (0..3)
                .map(|k| frame[k][i % 3] * half[3 * (i / 3) + k][j])
                .sum();
        }
    }
    all
}

/// A node's movement in a sheet's axes.
fn seen(movement: &Movement, frame: &[[f64; 3]; 3]) -> Movement {
    core::array::from_fn(|i| {
        (0..3)
            .map(|k| frame[i % 3][k] * movement[3 * (i / 3) + k])
            .sum()
    })
}
