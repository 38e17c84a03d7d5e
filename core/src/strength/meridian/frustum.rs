//! One frustum of a cone as a piece of a thin shell of revolution.
//!
//! Along it u goes in a straight line and w as a cubic. Strains: `u′` along and `(u cos + w sin)/r` round; turns `−w″` and
//! `−(cos/r) w′`.

/// Three displacements of a ring: outward, along the axis, and the turn of the meridian.
pub(super) type Ring = [f64; 3];
/// What forces on a ring's three displacements another ring's three call for.
pub(super) type Block = [[f64; 3]; 3];

/// Where strains are summed, over the length from −1 to 1 (Gauss and Legendre), each with half the weight.
const SUMMED: [f64; 2] = [-0.577_350_269_189_625_8, 0.577_350_269_189_625_8];

/// A piece of the shell.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frustum {
    /// Radii at its two rims.
    radii: [f64; 2],
    length: f64,
    /// How the radius and the height change along it.
    run: [f64; 2],
    thickness: f64,
}

/// What the metal is.
#[derive(Clone, Copy, Debug)]
pub(super) struct Metal {
    pub(super) modulus: f64,
    pub(super) poisson: f64,
}

/// Strains along and round, turns along and round: each as what the six displacements of its rims make of it.
type Strains = [[f64; 6]; 4];

impl Frustum {
    pub(super) fn new(from: [f64; 2], to: [f64; 2], thickness: f64) -> Self {
        let [r, z] = [to[0] - from[0], to[1] - from[1]];
        let length = libm::hypot(r, z);
        Self {
            radii: [from[0], to[0]],
            length,
            run: [r / length, z / length],
            thickness,
        }
    }

    fn radius(&self, share: f64) -> f64 {
        let [from, to] = self.radii;
        from + (to - from) * share
    }

    /// At a share of its length.
    fn strains(&self, share: f64) -> Strains {
        let (l, r) = (self.length, self.radius(share));
        let [cos, sin] = self.run;
        let s = share;
        // Of w and its turn at the two rims, and of their first and second slopes along it.
        let w = [
            1.0 - s * s * (3.0 - 2.0 * s),
            l * s * (1.0 - s * (2.0 - s)),
            s * s * (3.0 - 2.0 * s),
            l * s * s * (s - 1.0),
        ];
        let first = [
            6.0 * s * (s - 1.0) / l,
            1.0 - s * (4.0 - 3.0 * s),
            6.0 * s * (1.0 - s) / l,
            s * (3.0 * s - 2.0),
        ];
        let second = [
            (12.0 * s - 6.0) / (l * l),
            (6.0 * s - 4.0) / l,
            (6.0 - 12.0 * s) / (l * l),
            (6.0 * s - 2.0) / l,
        ];
        let u = [1.0 - s, s];
        let slope = [-1.0 / l, 1.0 / l];
        let local = |u: [f64; 2], w: [f64; 4]| {
            // u = out·cos + up·sin, w = out·sin − up·cos.
            let [u0, u1] = u;
            let [w0, turn0, w1, turn1] = w;
            [
                u0 * cos + w0 * sin,
                u0 * sin - w0 * cos,
                turn0,
                u1 * cos + w1 * sin,
                u1 * sin - w1 * cos,
                turn1,
            ]
        };
        let none = [0.0; 2];
        let scaled = |of: [f64; 4], by: f64| of.map(|one| one * by);
        [
            local(slope, [0.0; 4]),
            local(u.map(|one| one * cos / r), scaled(w, sin / r)),
            local(none, scaled(second, -1.0)),
            local(none, scaled(first, -cos / r)),
        ]
    }

    /// Pull and moment for each metre, along and round, of strains and turns.
    fn forces(&self, [along, round, bent, bent_round]: [f64; 4], metal: Metal) -> [f64; 4] {
        let Metal { modulus, poisson } = metal;
        let t = self.thickness;
        let pull = modulus * t / (1.0 - poisson * poisson);
        let bend = pull * t * t / 12.0;
        [
            pull * (along + poisson * round),
            pull * (round + poisson * along),
            bend * (bent + poisson * bent_round),
            bend * (bent_round + poisson * bent),
        ]
    }

    /// Its stiffness for each radian: from rim to rim.
    pub(super) fn stiffness(&self, metal: Metal) -> [[Block; 2]; 2] {
        let mut all = [[0.0; 6]; 6];
        for place in SUMMED {
            let share = 0.5 * (1.0 + place);
            let strains = self.strains(share);
            let weight = 0.5 * self.length * self.radius(share);
            for (column, line) in all.iter_mut().enumerate() {
                let one = strains.map(|strain| strain.get(column).copied().unwrap_or(0.0));
                let forces = self.forces(one, metal);
                for (row, entry) in line.iter_mut().enumerate() {
                    let with = strains.map(|strain| strain.get(row).copied().unwrap_or(0.0));
                    let work: f64 = with.iter().zip(forces).map(|(a, b)| a * b).sum();
                    *entry += weight * work;
                }
            }
        }
        let block = |rows: usize, columns: usize| {
            let mut block = [[0.0; 3]; 3];
            for (line, from) in block.iter_mut().zip(all.iter().skip(rows)) {
                for (entry, from) in line.iter_mut().zip(from.iter().skip(columns)) {
                    *entry = *from;
                }
            }
            block
        };
        [[block(0, 0), block(0, 3)], [block(3, 0), block(3, 3)]]
    }

    /// What a pressure from within pushes its two rims by, for each radian: outward and along the axis.
    pub(super) fn pushed(&self, pressure: f64) -> [Ring; 2] {
        let [cos, sin] = self.run;
        let [from, to] = self.radii;
        let share = pressure * self.length / 6.0;
        [2.0 * from + to, from + 2.0 * to].map(|weight| {
            let push = share * weight;
            // The inside lies to the right of a meridian that runs down from the end's middle.
            [-sin * push, cos * push, 0.0]
        })
    }

    /// Von Mises' stress at the worse surface, by the displacements of its rims: at one of them, or between.
    pub(super) fn stress(&self, rims: [Ring; 2], share: f64, metal: Metal) -> f64 {
        let [[a, b, c], [d, e, f]] = rims;
        let moved = [a, b, c, d, e, f];
        let strains = self.strains(share).map(|strain| {
            let all = strain.iter().zip(moved);
            all.map(|(by, moved)| by * moved).sum::<f64>()
        });
        let [pull, pull_round, moment, moment_round] = self.forces(strains, metal);
        let t = self.thickness;
        let mut worst = 0.0;
        for side in [-6.0, 6.0] {
            let along = pull / t + side * moment / (t * t);
            let round = pull_round / t + side * moment_round / (t * t);
            let square = along * along - along * round + round * round;
            worst = libm::fmax(worst, square);
        }
        libm::sqrt(worst)
    }
}
