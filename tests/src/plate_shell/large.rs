//! Sheets that bow by several times their thickness: Newton's method with the exact stiffness, kept on its way by the
//! energy.
//!
//! Pressure stays as it is on the shape that is not yet bent, and turns are moderate: their squares count, higher powers
//! do not (some 1 % at 8°).

use super::bowed::Bowed;
use super::sparse::{Factor, Matrix, SIX};
use super::{BEND, Movement, PlateShell, STRETCH, bending::Row, frame, seen, turned};

/// So much of the forces may be left over.
pub const LEFT: f64 = 1e-6;
/// So many times the stiffness is made anew before it is given up.
const TURNS: usize = 80;

/// Where sheets come to rest.
#[derive(Clone, Debug)]
pub struct Rest {
    /// What every node has moved by.
    pub moved: Vec<Movement>,
    /// How often the stiffness was made anew.
    pub turns: usize,
    /// Whether it is stiff against every small movement; where not, sheets that are pushed in their plane would buckle
    /// from here, and it is the rest only of what keeps the symmetry of the load and the mesh.
    pub steady: bool,
}

/// Sheets in triangles that bow.
pub struct Large<'a> {
    shell: &'a PlateShell,
    /// Nodes and sheet of each triangle.
    triangles: Vec<([usize; 3], usize, Bowed)>,
    frames: Vec<[[f64; 3]; 3]>,
    held: Vec<[bool; SIX]>,
}

impl std::fmt::Debug for Large<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Large").finish_non_exhaustive()
    }
}

impl<'a> Large<'a> {
    /// Of a shell of which some freedoms are held.
    #[must_use]
    pub fn new(shell: &'a PlateShell, held: Vec<[bool; SIX]>) -> Self {
        let mut triangles = Vec::new();
        for (place, (sheet, part)) in shell.sheets.iter().zip(&shell.parts).enumerate() {
            for corners in &part.triangles {
                let flat = corners.map(|node| part.flat[&node]);
                let bowed = Bowed::new(
                    flat,
                    shell.metal.modulus,
                    shell.metal.poisson,
                    sheet.thickness,
                );
                triangles.push((*corners, place, bowed));
            }
        }
        Self {
            shell,
            triangles,
            frames: shell.sheets.iter().map(frame).collect(),
            held,
        }
    }

    /// Where the sheets come to rest under forces, from where they are.
    ///
    /// # Panics
    /// Where they come to no rest.
    #[must_use]
    pub fn rest(&self, from: &[Movement], forces: &[Movement]) -> Rest {
        let size = norm(&self.free(forces));
        let mut moved = from.to_vec();
        let mut turns = 0;
        loop {
            let asked = self.forces(&moved);
            let left = self.free(&less(forces, &asked));
            let done = norm(&left) <= LEFT * size;
            let exact = Factor::of_positive(&self.stiffness(&moved, false), &self.shell.places);
            let steady = exact.is_some();
            if done {
                return Rest {
                    moved,
                    turns,
                    steady,
                };
            }
            turns += 1;
            assert!(turns <= TURNS, "no rest: {} left", norm(&left) / size);
            let factor = exact
                .unwrap_or_else(|| Factor::of(&self.stiffness(&moved, true), &self.shell.places));
            let step = factor.solve(&left);
            // As far along as the energy falls as it should.
            let gain = work(&left, &step);
            let (here, mut share) = (self.energy(&moved) - work(forces, &moved), 1.0);
            moved = loop {
                let there = further(&moved, &step, share);
                let energy = self.energy(&there) - work(forces, &there);
                if energy <= here - 1e-4 * share * gain + 1e-11 * here.abs() {
                    break there;
                }
                share *= 0.5;
                assert!(share > 1e-9, "no way down: {} left", norm(&left) / size);
            };
        }
    }

    /// Forces that movements ask for, with those that hold what is held.
    #[must_use]
    pub fn forces(&self, moved: &[Movement]) -> Vec<Movement> {
        let mut all = vec![[0.0; SIX]; moved.len()];
        for (corners, place, bowed) in &self.triangles {
            let frame = &self.frames[*place];
            let [stretched, bent] = own(corners, frame, moved);
            let [stretches, bends] = bowed.forces(&stretched, &bent);
            for (n, node) in corners.iter().enumerate() {
                for a in 0..3 {
                    for (freedom, force) in [
                        (STRETCH[a], stretches[3 * n + a]),
                        (BEND[a], bends[3 * n + a]),
                    ] {
                        let half = 3 * (freedom / 3);
                        for k in 0..3 {
                            all[*node][half + k] += force * frame[freedom % 3][k];
                        }
                    }
                }
            }
        }
        all
    }

    /// What the sheets hold, in J.
    #[must_use]
    pub fn energy(&self, moved: &[Movement]) -> f64 {
        let all = self.triangles.iter().map(|(corners, place, bowed)| {
            let [stretched, bent] = own(corners, &self.frames[*place], moved);
            bowed.energy(&stretched, &bent)
        });
        all.sum()
    }

    fn stiffness(&self, moved: &[Movement], taut: bool) -> Matrix {
        let mut matrix = Matrix::new(moved.len());
        for (corners, place, bowed) in &self.triangles {
            let frame = &self.frames[*place];
            let [stretched, bent] = own(corners, frame, moved);
            let tangent = bowed.tangent(&stretched, &bent, taut);
            for (i, one) in corners.iter().enumerate() {
                for (j, other) in corners.iter().enumerate().filter(|(_, o)| *o >= one) {
                    let mut local = [[0.0; SIX]; SIX];
                    for a in 0..3 {
                        for b in 0..3 {
                            let (row, column) = (3 * i + a, 3 * j + b);
                            local[STRETCH[a]][STRETCH[b]] = tangent.stretches[row][column];
                            local[STRETCH[a]][BEND[b]] = tangent.both[row][column];
                            local[BEND[a]][STRETCH[b]] = tangent.both[column][row];
                            local[BEND[a]][BEND[b]] = tangent.bends[row][column];
                        }
                    }
                    matrix.add(*one, *other, &turned(&local, frame));
                }
            }
        }
        matrix.hold(&self.held);
        matrix
    }

    /// Nothing where held.
    fn free(&self, forces: &[Movement]) -> Vec<Movement> {
        let both = forces.iter().zip(&self.held);
        both.map(|(force, held)| core::array::from_fn(|k| if held[k] { 0.0 } else { force[k] }))
            .collect()
    }
}

/// Freedoms of a triangle in its sheet's axes: of stretching and of bending.
fn own(corners: &[usize; 3], frame: &[[f64; 3]; 3], moved: &[Movement]) -> [Row; 2] {
    let (mut stretched, mut bent) = ([0.0; 9], [0.0; 9]);
    for (n, node) in corners.iter().enumerate() {
        let own = seen(&moved[*node], frame);
        for k in 0..3 {
            stretched[3 * n + k] = own[STRETCH[k]];
            bent[3 * n + k] = own[BEND[k]];
        }
    }
    [stretched, bent]
}

fn less(from: &[Movement], part: &[Movement]) -> Vec<Movement> {
    further(from, part, -1.0)
}

fn further(from: &[Movement], by: &[Movement], share: f64) -> Vec<Movement> {
    let both = from.iter().zip(by);
    both.map(|(a, b)| core::array::from_fn(|k| a[k] + share * b[k]))
        .collect()
}

/// Of the forces, not the moments, whose unit is another.
fn norm(forces: &[Movement]) -> f64 {
    let parts = forces.iter().flat_map(|force| &force[..3]);
    parts.map(|part| part * part).sum::<f64>().sqrt()
}

/// What forces do along movements, in J.
#[must_use]
pub fn work(forces: &[Movement], moved: &[Movement]) -> f64 {
    let both = forces.iter().flatten().zip(moved.iter().flatten());
    both.map(|(force, by)| force * by).sum()
}
