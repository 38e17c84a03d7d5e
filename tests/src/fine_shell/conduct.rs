//! Conduction between nodes: an implicit step of second order.

/// Coefficient of the method.
const GAMMA: f64 = 1.0 - core::f64::consts::FRAC_1_SQRT_2;

/// The nodes as they stand at a stage of building: some are one.
pub(super) struct Conduction {
    /// Which node stands for each.
    pub(super) of: Vec<usize>,
    /// Heat capacity of those that stand for others, in J/K.
    pub(super) capacity: Vec<f64>,
    /// The matrix of conductances by rows: where each begins, and columns with values. The diagonal apart.
    rows: Vec<usize>,
    entries: Vec<(u32, f64)>,
    diagonal: Vec<f64>,
}

impl Conduction {
    /// Makes nodes one and shares their heat out.
    pub(super) fn new(
        of: &[usize],
        capacity: &[f64],
        links: &[(usize, usize, f64)],
        heat: &mut [f64],
    ) -> Self {
        let count = of.len();
        let mut own = vec![0.0; count];
        let mut energy = vec![0.0; count];
        for node in 0..count {
            own[of[node]] += capacity[node];
            energy[of[node]] += capacity[node] * heat[node];
        }
        for node in 0..count {
            let whole = own[of[node]];
            heat[node] = if whole > 0.0 {
                energy[of[node]] / whole
            } else {
                0.0
            };
        }
        let mut all: Vec<(usize, usize, f64)> = Vec::new();
        for (a, b, value) in links {
            let (a, b) = (of[*a], of[*b]);
            if a != b {
                all.push((a, b, *value));
                all.push((b, a, *value));
            }
        }
        all.sort_unstable_by_key(|(a, b, _)| (*a, *b));
        let (mut rows, mut entries) = (vec![0; count + 1], Vec::<(u32, f64)>::new());
        let mut diagonal = vec![0.0; count];
        let mut last = None;
        for (a, b, value) in all {
            diagonal[a] += value;
            if last == Some((a, b)) {
                entries.last_mut().expect("an entry").1 += value;
            } else {
                entries.push((b as u32, value));
                last = Some((a, b));
            }
            rows[a + 1] = entries.len();
        }
        for row in 0..count {
            rows[row + 1] = rows[row + 1].max(rows[row]);
        }
        Self {
            of: of.to_vec(),
            capacity: own,
            rows,
            entries,
            diagonal,
        }
    }

    /// `K x`: what flows out of each node.
    fn flow(&self, x: &[f64], out: &mut [f64]) {
        for (row, slot) in out.iter_mut().enumerate() {
            let mut sum = self.diagonal[row] * x[row];
            for (column, value) in &self.entries[self.rows[row]..self.rows[row + 1]] {
                sum -= value * x[*column as usize];
            }
            *slot = sum;
        }
    }

    /// Solves `(C + w K) x = b` by conjugate gradients from where `x` is.
    fn solve(&self, w: f64, b: &[f64], x: &mut [f64]) {
        let count = b.len();
        let mut kx = vec![0.0; count];
        self.flow(x, &mut kx);
        let scale: Vec<f64> = (0..count)
            .map(|n| {
                let d = self.capacity[n] + w * self.diagonal[n];
                if d > 0.0 { 1.0 / d } else { 0.0 }
            })
            .collect();
        let mut r: Vec<f64> = (0..count)
            .map(|n| {
                if scale[n] > 0.0 {
                    b[n] - self.capacity[n] * x[n] - w * kx[n]
                } else {
                    0.0
                }
            })
            .collect();
        let mut p: Vec<f64> = r.iter().zip(&scale).map(|(r, s)| r * s).collect();
        let mut rz: f64 = r.iter().zip(&p).map(|(r, z)| r * z).sum();
        let target = 1e-15 * b.iter().zip(&scale).map(|(b, s)| b * b * s).sum::<f64>();
        for _ in 0..2_000 {
            if rz <= target {
                return;
            }
            self.flow(&p, &mut kx);
            let mut pap = 0.0;
            for n in 0..count {
                kx[n] = self.capacity[n] * p[n] + w * kx[n];
                pap += p[n] * kx[n];
            }
            let alpha = rz / pap;
            let mut next = 0.0;
            for n in 0..count {
                x[n] += alpha * p[n];
                r[n] -= alpha * kx[n];
                next += r[n] * r[n] * scale[n];
            }
            let beta = next / rz;
            rz = next;
            for n in 0..count {
                p[n] = r[n] * scale[n] + beta * p[n];
            }
        }
        panic!("no solution: {rz} of {target}");
    }

    /// One step; only the nodes that stand for others are right after it until [`Conduction::tell`].
    pub(super) fn step(&mut self, heat: &mut [f64], step: f64, arc: Option<(&[f64], f64)>) {
        let count = heat.len();
        let w = GAMMA * step;
        let mut source = vec![0.0; count];
        if let Some((shares, power)) = arc {
            for (node, share) in shares.iter().enumerate() {
                source[self.of[node]] += power * share;
            }
        }
        let b: Vec<f64> = (0..count)
            .map(|n| self.capacity[n] * heat[n] + w * source[n])
            .collect();
        let mut stage = heat.to_vec();
        self.solve(w, &b, &mut stage);
        // The first stage's slope times the rest of the step.
        let b: Vec<f64> = (0..count)
            .map(|n| {
                let slope = (stage[n] - heat[n]) / w;
                self.capacity[n] * (heat[n] + (1.0 - GAMMA) * step * slope) + w * source[n]
            })
            .collect();
        let mut last = stage;
        self.solve(w, &b, &mut last);
        heat.copy_from_slice(&last);
    }

    /// Tells every node the heat of that which stands for it.
    pub(super) fn tell(&self, heat: &mut [f64]) {
        for node in 0..heat.len() {
            heat[node] = heat[self.of[node]];
        }
    }
}
