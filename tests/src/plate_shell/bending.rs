//! Bending of a triangle: the discrete Kirchhoff triangle of J.-L. Batoz, K.-J. Bathe and L.-W. Ho, "A study of
//! three-node triangular plate bending elements", Int. J. Numer. Methods Eng. 15 (1980), pp. 1771–1812 (from memory).
//!
//! Freedoms of each corner: deflection w along z, turn about x (w,y) and turn about y (−w,x). The slopes of the normal
//! βx = −w,x and βy = −w,y are quadratic over the triangle; half way along each side the slope along it is that of the
//! cubic between the side's ends, and the slope across it is the mean of the ends'.

/// Freedoms of one triangle.
pub(super) const FREEDOMS: usize = 9;
/// What each freedom gives to something.
pub(super) type Row = [f64; FREEDOMS];

/// Where on a triangle the stiffness is summed: half way along its sides, exact for quadratics.
const SUMMED_AT: [[f64; 3]; 3] = [[0.5, 0.5, 0.0], [0.0, 0.5, 0.5], [0.5, 0.0, 0.5]];

/// Moment for each curvature of a plate, in N m.
#[must_use]
pub(super) fn rigidity(modulus: f64, poisson: f64, thickness: f64) -> [[f64; 3]; 3] {
    plane_stress(modulus, poisson).map(|row| row.map(|c| c * thickness.powi(3) / 12.0))
}

/// Stress for each strain in a thin sheet, in Pa.
#[must_use]
pub(super) fn plane_stress(modulus: f64, poisson: f64) -> [[f64; 3]; 3] {
    let whole = modulus / (1.0 - poisson * poisson);
    [
        [whole, poisson * whole, 0.0],
        [poisson * whole, whole, 0.0],
        [0.0, 0.0, 0.5 * (1.0 - poisson) * whole],
    ]
}

/// The gradients of a triangle's area coordinates, and its area; corners counter-clockwise.
#[must_use]
pub(super) fn gradients(corners: [[f64; 2]; 3]) -> ([[f64; 2]; 3], f64) {
    let [a, b, c] = corners;
    let twice = (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
    let across = |p: [f64; 2], q: [f64; 2]| [(p[1] - q[1]) / twice, (q[0] - p[0]) / twice];
    ([across(b, c), across(c, a), across(a, b)], 0.5 * twice)
}

/// βx and βy for each freedom, at the corners and half way along the sides 0–1, 1–2, 2–0.
pub(super) fn slopes(corners: [[f64; 2]; 3]) -> [[Row; 2]; 6] {
    let mut all = [[[0.0; FREEDOMS]; 2]; 6];
    for (n, at) in all.iter_mut().take(3).enumerate() {
        at[0][3 * n + 2] = 1.0;
        at[1][3 * n + 1] = -1.0;
    }
    for side in 0..3 {
        let (i, j) = (side, (side + 1) % 3);
        let run = [corners[j][0] - corners[i][0], corners[j][1] - corners[i][1]];
        let length = run[0].hypot(run[1]);
        let [c, s] = run.map(|part| part / length);
        let (mut along, mut across) = ([0.0; FREEDOMS], [0.0; FREEDOMS]);
        along[3 * i] = 1.5 / length;
        along[3 * j] = -1.5 / length;
        for node in [i, j] {
            for k in 0..FREEDOMS {
                let [bx, by] = [all[node][0][k], all[node][1][k]];
                along[k] -= 0.25 * (c * bx + s * by);
                across[k] += 0.5 * (c * by - s * bx);
            }
        }
        for k in 0..FREEDOMS {
            all[3 + side][0][k] = c * along[k] - s * across[k];
            all[3 + side][1][k] = s * along[k] + c * across[k];
        }
    }
    all
}

/// Curvatures βx,x, βy,y and βx,y + βy,x for each freedom, at area coordinates of a triangle.
#[must_use]
pub(super) fn curvature(corners: [[f64; 2]; 3], at: [f64; 3]) -> [Row; 3] {
    let (grad, _) = gradients(corners);
    let slopes = slopes(corners);
    let mut all = [[0.0; FREEDOMS]; 3];
    for (n, slope) in slopes.iter().enumerate() {
        let [dx, dy] = [0, 1].map(|axis: usize| {
            if n < 3 {
                (4.0 * at[n] - 1.0) * grad[n][axis]
            } else {
                let (i, j) = (n - 3, (n - 2) % 3);
                4.0 * (at[i] * grad[j][axis] + at[j] * grad[i][axis])
            }
        });
        for k in 0..FREEDOMS {
            all[0][k] += dx * slope[0][k];
            all[1][k] += dy * slope[1][k];
            all[2][k] += dy * slope[0][k] + dx * slope[1][k];
        }
    }
    all
}

/// The stiffness of a triangle.
#[must_use]
pub(super) fn stiffness(corners: [[f64; 2]; 3], rigidity: [[f64; 3]; 3]) -> [Row; FREEDOMS] {
    let (_, area) = gradients(corners);
    let mut all = [[0.0; FREEDOMS]; FREEDOMS];
    for at in SUMMED_AT {
        let curved = curvature(corners, at);
        add_product(&mut all, &curved, rigidity, area / 3.0);
    }
    all
}

/// Adds `weight` Bᵀ D B.
pub(super) fn add_product(to: &mut [Row; FREEDOMS], of: &[Row; 3], by: [[f64; 3]; 3], weight: f64) {
    for i in 0..FREEDOMS {
        let mut left = [0.0; 3];
        for (k, slot) in left.iter_mut().enumerate() {
            *slot = weight * (0..3).map(|n| of[n][i] * by[n][k]).sum::<f64>();
        }
        for (j, slot) in to[i].iter_mut().enumerate() {
            *slot += (0..3).map(|k| left[k] * of[k][j]).sum::<f64>();
        }
    }
}
