//! Stretching of a triangle in its own plane, with a turn of each corner about its normal: the optimal membrane triangle
//! of C. Felippa, "A study of optimal membrane triangles with drilling freedoms", Comput. Methods Appl. Mech. Eng. 192
//! (2003), pp. 2125–2168 (from memory; the tests show the patch of even stress and in-plane bending exact).
//!
//! Freedoms of each corner: u, v and the turn about z.

use super::bending::{FREEDOMS, add_product, plane_stress};

type Row = [f64; FREEDOMS];

/// What of the turns is in the part that carries even stress.
const BASIC: f64 = 1.5;
/// β1 to β9, which make bending in the plane exact on rectangles of any shape.
const OPTIMAL: [f64; 9] = [1.0, 2.0, 1.0, 0.0, 1.0, -1.0, -1.0, -1.0, -2.0];

/// Even strain εx, εy, γ for each freedom.
#[must_use]
pub(super) fn strain(corners: [[f64; 2]; 3]) -> [Row; 3] {
    let x = |i: usize, j: usize| corners[i][0] - corners[j][0];
    let y = |i: usize, j: usize| corners[i][1] - corners[j][1];
    let twice = x(1, 0) * y(2, 0) - x(2, 0) * y(1, 0);
    let mut all = [[0.0; FREEDOMS]; 3];
    for i in 0..3 {
        let (j, k) = ((i + 1) % 3, (i + 2) % 3);
        // Side j–k lies across from corner i.
        all[0][3 * i] = y(j, k);
        all[2][3 * i] = x(k, j);
        all[1][3 * i + 1] = x(k, j);
        all[2][3 * i + 1] = y(j, k);
        all[0][3 * i + 2] = BASIC / 6.0 * y(j, k) * (y(i, k) - y(j, i));
        all[1][3 * i + 2] = BASIC / 6.0 * x(k, j) * (x(k, i) - x(i, j));
        all[2][3 * i + 2] = BASIC / 3.0 * (x(k, i) * y(i, k) - x(i, j) * y(j, i));
    }
    all.map(|row| row.map(|part| part / twice))
}

/// The stiffness of a triangle.
#[must_use]
pub(super) fn stiffness(
    corners: [[f64; 2]; 3],
    modulus: f64,
    poisson: f64,
    thickness: f64,
) -> [Row; FREEDOMS] {
    let x = |i: usize, j: usize| corners[i][0] - corners[j][0];
    let y = |i: usize, j: usize| corners[i][1] - corners[j][1];
    let elastic = plane_stress(modulus, poisson);
    let area = 0.5 * (x(1, 0) * y(2, 0) - x(2, 0) * y(1, 0));
    let mut all = [[0.0; FREEDOMS]; FREEDOMS];
    add_product(&mut all, &strain(corners), elastic, area * thickness);

    // What the corners turn by beyond the triangle's own turn.
    let mut beyond = [[0.0; FREEDOMS]; 3];
    for (n, row) in beyond.iter_mut().enumerate() {
        for i in 0..3 {
            let (j, k) = ((i + 1) % 3, (i + 2) % 3);
            row[3 * i] = x(k, j) / (4.0 * area);
            row[3 * i + 1] = y(k, j) / (4.0 * area);
        }
        row[3 * n + 2] = 1.0;
    }
    // Squares of the sides 2–1, 3–2, 1–3.
    let square = |i: usize, j: usize| x(i, j).powi(2) + y(i, j).powi(2);
    let sides = [square(1, 0), square(2, 1), square(0, 2)];
    // Strains along the sides for the corners' turns.
    let b = OPTIMAL;
    let ways = [
        [[b[0], b[1], b[2]], [b[3], b[4], b[5]], [b[6], b[7], b[8]]],
        [[b[8], b[6], b[7]], [b[2], b[0], b[1]], [b[5], b[3], b[4]]],
        [[b[4], b[5], b[3]], [b[7], b[8], b[6]], [b[1], b[2], b[0]]],
    ]
    .map(|way| {
        let mut way = way;
        for (row, side) in way.iter_mut().zip(sides) {
            *row = row.map(|part| part * 2.0 * area / (3.0 * side));
        }
        way
    });
    // From strains along the sides to those along x and y.
    let part = 1.0 / (4.0 * area * area);
    let turn = [
        [
            y(1, 2) * y(0, 2) * sides[0],
            y(2, 0) * y(1, 0) * sides[1],
            y(0, 1) * y(2, 1) * sides[2],
        ],
        [
            x(1, 2) * x(0, 2) * sides[0],
            x(2, 0) * x(1, 0) * sides[1],
            x(0, 1) * x(2, 1) * sides[2],
        ],
        [
            (y(1, 2) * x(2, 0) + x(2, 1) * y(0, 2)) * sides[0],
            (y(2, 0) * x(0, 1) + x(0, 2) * y(1, 0)) * sides[1],
            (y(0, 1) * x(1, 2) + x(1, 0) * y(2, 1)) * sides[2],
        ],
    ]
    .map(|row| row.map(|entry| entry * part));
    let weight = 0.75 * (0.5 * (1.0 - 4.0 * poisson * poisson)).max(0.01) * area * thickness;
    for (one, other) in [(0, 1), (1, 2), (2, 0)] {
        let mut strain = [[0.0; FREEDOMS]; 3];
        for (row, from) in strain.iter_mut().zip(turn) {
            for (k, slot) in row.iter_mut().enumerate() {
                for (n, from) in from.iter().enumerate() {
                    for (m, beyond) in beyond.iter().enumerate() {
                        let mean = 0.5 * (ways[one][n][m] + ways[other][n][m]);
                        *slot += from * mean * beyond[k];
                    }
                }
            }
        }
        add_product(&mut all, &strain, elastic, weight);
    }
    all
}
