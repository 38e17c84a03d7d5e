//! Large deflection: sheets stretch as they bulge.
//!
//! Von Kármán's strains, each in a sheet's own axes: to the even membrane strain of a triangle is added ½ w,x², ½ w,y² and
//! w,x w,y, w being straight between its corners; bending and load stay those of small deflections. Solved by Newton's
//! method with the exact tangent, load by load.

use super::sparse::{Factor, Matrix, SIX};
use super::{Movement, PlateShell, STRETCH, bending, frame, membrane, seen, turned};

/// Newton's steps for one load at the most.
const STEPS: usize = 30;
/// The first load is taken by this part, and from there each is no more than [`NEXT`] times the one before.
const FIRST: f64 = 30.0;
const NEXT: f64 = 1.3;
/// What is left of the forces, as a share of them.
const LEFT: f64 = 1e-7;

/// What a triangle's corners give to its even strain, and what that is.
pub(super) struct Stretched {
    /// Strains εx, εy, γ for u, v, turn and (last) w of each corner.
    by: [[f64; 12]; 3],
    /// εx, εy, γ.
    pub(super) strain: [f64; 3],
    /// w,x and w,y for w of each corner.
    slopes: [[f64; 3]; 2],
    area: f64,
}

/// Of a triangle whose corners have moved, in the sheet's axes.
pub(super) fn stretched(flat: [[f64; 2]; 3], own: [Movement; 3]) -> Stretched {
    let even = membrane::strain(flat);
    let (gradients, area) = bending::gradients(flat);
    let slopes = [0, 1].map(|axis: usize| gradients.map(|corner| corner[axis]));
    let slope = slopes.map(|row| (0..3).map(|n| row[n] * own[n][2]).sum::<f64>());
    let [gx, gy] = slope;
    let mut by = [[0.0; 12]; 3];
    let mut strain = [0.5 * gx * gx, 0.5 * gy * gy, gx * gy];
    for (row, (to, strain)) in by.iter_mut().zip(&mut strain).enumerate() {
        for n in 0..3 {
            for k in 0..3 {
                to[4 * n + k] = even[row][3 * n + k];
                *strain += even[row][3 * n + k] * own[n][STRETCH[k]];
            }
            let [x, y] = slopes.map(|slopes| slopes[n]);
            to[4 * n + 3] = [gx * x, gy * y, gx * y + gy * x][row];
        }
    }
    Stretched {
        by,
        strain,
        slopes,
        area,
    }
}

/// Freedoms of a corner in a sheet's axes, in the order of [`Stretched::by`].
const FREE: [usize; 4] = [STRETCH[0], STRETCH[1], STRETCH[2], 2];

impl PlateShell {
    /// What every node has moved by under so many times the forces, one after another, until `each` returns
    /// false.
    ///
    /// # Panics
    /// Where something is not held, or Newton's method does not come to rest.
    pub fn moved_far(
        &self,
        forces: &[Movement],
        held: &[[bool; 6]],
        loads: &[f64],
        mut each: impl FnMut(&[Movement]) -> bool,
    ) {
        let mut moved = vec![[0.0; SIX]; self.places.len()];
        let mut before = loads[0] / FIRST;
        self.rest(&mut moved, forces, held, before);
        for load in loads {
            let steps = ((load / before).ln() / NEXT.ln()).ceil().max(1.0);
            let times = (load / before).powf(1.0 / steps);
            for _ in 0..steps as usize {
                before *= times;
                self.rest(&mut moved, forces, held, before);
            }
            if !each(&moved) {
                return;
            }
        }
    }

    /// Lets the nodes come to rest under so many times the forces, by Newton's method from where they are.
    fn rest(&self, moved: &mut [Movement], forces: &[Movement], held: &[[bool; 6]], load: f64) {
        let wanted: Vec<Movement> = forces
            .iter()
            .zip(held)
            .map(|(force, held)| {
                core::array::from_fn(|k| if held[k] { 0.0 } else { load * force[k] })
            })
            .collect();
        let whole = size(&wanted);
        for _ in 0..STEPS {
            let (mut matrix, borne) = self.tangent(moved);
            let left: Vec<Movement> = (0..moved.len())
                .map(|n| {
                    core::array::from_fn(|k| {
                        if held[n][k] {
                            0.0
                        } else {
                            wanted[n][k] - borne[n][k]
                        }
                    })
                })
                .collect();
            if size(&left) < LEFT * whole {
                return;
            }
            matrix.hold(held);
            let step = Factor::of(&matrix, &self.places).solve(&left);
            for (to, more) in moved.iter_mut().zip(step) {
                for (to, more) in to.iter_mut().zip(more) {
                    *to += more;
                }
            }
        }
        panic!("{load} times the forces does not come to rest");
    }

    /// The stiffness as the nodes have moved, and the forces that they bear.
    fn tangent(&self, moved: &[Movement]) -> (Matrix, Vec<Movement>) {
        let mut matrix = self.matrix();
        // What is linear of the forces; the rest is added.
        let mut borne = matrix.times(moved);
        for (sheet, part) in self.sheets.iter().zip(&self.parts) {
            let frame = frame(sheet);
            let elastic = bending::plane_stress(self.metal.modulus, self.metal.poisson);
            for corners in &part.triangles {
                let flat = corners.map(|node| part.flat[&node]);
                let own = corners.map(|node| seen(&moved[node], &frame));
                let now = stretched(flat, own);
                let weight = now.area * sheet.thickness;
                let pull = elastic.map(|row| (0..3).map(|k| row[k] * now.strain[k]).sum::<f64>());
                let even = membrane::strain(flat);
                let flat_strain: [f64; 3] = core::array::from_fn(|row| {
                    (0..9)
                        .map(|k| even[row][k] * own[k / 3][STRETCH[k % 3]])
                        .sum()
                });
                let flat_pull =
                    elastic.map(|row| (0..3).map(|k| row[k] * flat_strain[k]).sum::<f64>());
                let linear = |row: usize, n: usize, k: usize| {
                    if k < 3 { even[row][3 * n + k] } else { 0.0 }
                };
                for (i, one) in corners.iter().enumerate() {
                    let mut force = [0.0; SIX];
                    for (a, free) in FREE.iter().enumerate() {
                        force[*free] = weight
                            * (0..3)
                                .map(|r| {
                                    now.by[r][4 * i + a] * pull[r] - linear(r, i, a) * flat_pull[r]
                                })
                                .sum::<f64>();
                    }
                    let force = lifted(&force, &frame);
                    for (to, more) in borne[*one].iter_mut().zip(force) {
                        *to += more;
                    }
                    for (j, other) in corners.iter().enumerate() {
                        let mut local = [[0.0; SIX]; SIX];
                        for (a, row) in FREE.iter().enumerate() {
                            for (b, column) in FREE.iter().enumerate() {
                                let mut sum = 0.0;
                                for r in 0..3 {
                                    for q in 0..3 {
                                        sum += elastic[r][q]
                                            * (now.by[r][4 * i + a] * now.by[q][4 * j + b]
                                                - linear(r, i, a) * linear(q, j, b));
                                    }
                                }
                                local[*row][*column] = weight * sum;
                            }
                        }
                        let [x, y] = now.slopes;
                        local[2][2] += weight
                            * (pull[0] * x[i] * x[j]
                                + pull[1] * y[i] * y[j]
                                + pull[2] * (x[i] * y[j] + y[i] * x[j]));
                        matrix.add(*one, *other, &turned(&local, &frame));
                    }
                }
            }
        }
        (matrix, borne)
    }

    /// The volume that the pressed sheets sweep, in m³.
    #[must_use]
    pub fn swept(&self, moved: &[Movement]) -> f64 {
        let pushed = self.pressed(|_| 1.0);
        let both = pushed.iter().zip(moved);
        both.map(|(a, b)| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>())
            .sum()
    }
}

/// A force in the tank's axes, from that in a sheet's.
fn lifted(force: &Movement, frame: &[[f64; 3]; 3]) -> Movement {
    core::array::from_fn(|j| {
        (0..3)
            .map(|k| frame[k][j % 3] * force[3 * (j / 3) + k])
            .sum()
    })
}

fn size(forces: &[Movement]) -> f64 {
    let squares = forces.iter().flatten().map(|part| part * part);
    squares.sum::<f64>().sqrt()
}
