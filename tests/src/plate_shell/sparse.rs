//! Direct solution of large sparse symmetric systems of six freedoms a node: Cholesky's factors front by front.
//!
//! I. Duff and J. Reid, "The multifrontal solution of indefinite sparse symmetric linear equations", ACM Trans. Math.
//! Softw. 9 (1983), p. 302, for a positive matrix.

use std::collections::BTreeMap;

use super::dissect::groups;

/// Freedoms of a node: shifts along x, y, z and turns about them.
pub(super) const SIX: usize = 6;
/// What ties two nodes.
pub(super) type Block = [[f64; SIX]; SIX];

/// A symmetric matrix in blocks: for each node those with itself and with nodes of larger number.
#[derive(Clone, Debug)]
pub(super) struct Matrix {
    rows: Vec<BTreeMap<usize, Block>>,
}

impl Matrix {
    pub(super) fn new(nodes: usize) -> Self {
        Self {
            rows: vec![BTreeMap::new(); nodes],
        }
    }

    /// Adds what freedoms of `other` do to those of `one`.
    pub(super) fn add(&mut self, one: usize, other: usize, block: &Block) {
        if one > other {
            return;
        }
        let to = self.rows[one].entry(other).or_insert([[0.0; SIX]; SIX]);
        for (to, row) in to.iter_mut().zip(block) {
            for (to, part) in to.iter_mut().zip(row) {
                *to += part;
            }
        }
    }

    /// Holds freedoms at zero.
    pub(super) fn hold(&mut self, held: &[[bool; SIX]]) {
        for (one, row) in self.rows.iter_mut().enumerate() {
            for (other, block) in row {
                for (i, line) in block.iter_mut().enumerate() {
                    for (j, entry) in line.iter_mut().enumerate() {
                        if held[one][i] || held[*other][j] {
                            *entry = if one == *other && i == j { 1.0 } else { 0.0 };
                        }
                    }
                }
            }
        }
    }

    /// Force on every freedom for given movements.
    pub(super) fn times(&self, moved: &[[f64; SIX]]) -> Vec<[f64; SIX]> {
        let mut forces = vec![[0.0; SIX]; moved.len()];
        for (one, row) in self.rows.iter().enumerate() {
            for (other, block) in row {
                for i in 0..SIX {
                    for j in 0..SIX {
                        forces[one][i] += block[i][j] * moved[*other][j];
                        if one != *other {
                            forces[*other][j] += block[i][j] * moved[one][i];
                        }
                    }
                }
            }
        }
        forces
    }
}

/// Columns of the factor that belong to one group of nodes.
struct Front {
    /// The group's own nodes, then those of later groups that they touch.
    nodes: Vec<usize>,
    own: usize,
    /// Rows of the factor, one for each freedom of `nodes`, each as long as the own ones are many.
    rows: Vec<f64>,
}

/// The factors of a matrix.
pub(super) struct Factor {
    fronts: Vec<Front>,
}

impl Factor {
    /// # Panics
    /// Where the matrix is not positive: something is not held.
    pub(super) fn of(matrix: &Matrix, places: &[[f64; 3]]) -> Self {
        Self::of_positive(matrix, places).expect("something is not held")
    }

    /// Nothing where the matrix is not positive.
    pub(super) fn of_positive(matrix: &Matrix, places: &[[f64; 3]]) -> Option<Self> {
        let mut near = vec![Vec::new(); places.len()];
        for (one, row) in matrix.rows.iter().enumerate() {
            for other in row.keys().filter(|other| **other != one) {
                near[one].push(*other);
                near[*other].push(one);
            }
        }
        let groups = groups(places, &near);
        let mut turn = vec![0; places.len()];
        let order = groups.iter().flat_map(|group| &group.nodes);
        for (place, node) in order.enumerate() {
            turn[*node] = place;
        }
        let mut fronts: Vec<Front> = Vec::new();
        // What each group leaves to the nodes that it touches, until the one above has taken it up.
        let mut left: Vec<Vec<f64>> = Vec::new();
        let mut slot = vec![usize::MAX; places.len()];
        for group in &groups {
            let own = group.nodes.len();
            let last = group.nodes.iter().map(|node| turn[*node]).max();
            let mut touched: Vec<usize> = group
                .nodes
                .iter()
                .flat_map(|node| &near[*node])
                .chain(group.below.iter().flat_map(|below| {
                    let front: &Front = &fronts[*below];
                    &front.nodes[front.own..]
                }))
                .copied()
                .filter(|node| !group.nodes.contains(node))
                .filter(|node| last.is_none_or(|last| turn[*node] > last))
                .collect();
            touched.sort_by_key(|node| turn[*node]);
            touched.dedup();
            let mut nodes = group.nodes.clone();
            nodes.extend(touched);
            for (place, node) in nodes.iter().enumerate() {
                slot[*node] = place;
            }
            let wide = SIX * nodes.len();
            let mut full = vec![0.0; wide * wide];
            for node in &group.nodes {
                add_own(matrix, *node, &near[*node], &slot, &mut full, wide);
            }
            for below in &group.below {
                let front = &fronts[*below];
                let from = std::mem::take(&mut left[*below]);
                add_left(&front.nodes[front.own..], &from, &slot, &mut full, wide);
            }
            for node in &nodes {
                slot[*node] = usize::MAX;
            }
            let most = SIX * own;
            if !eliminate(&mut full, wide, most) {
                return None;
            }
            let rows = full.chunks_exact(wide).flat_map(|row| &row[..most]);
            fronts.push(Front {
                nodes,
                own,
                rows: rows.copied().collect(),
            });
            let rest = full.chunks_exact(wide).skip(most);
            left.push(rest.flat_map(|row| &row[most..]).copied().collect());
        }
        Some(Self { fronts })
    }

    /// Movements under forces.
    pub(super) fn solve(&self, forces: &[[f64; SIX]]) -> Vec<[f64; SIX]> {
        let mut all = forces.to_vec();
        let gather = |front: &Front, all: &[[f64; SIX]]| -> Vec<f64> {
            front.nodes.iter().flat_map(|node| all[*node]).collect()
        };
        let scatter = |front: &Front, local: &[f64], all: &mut [[f64; SIX]]| {
            for (node, part) in front.nodes.iter().zip(local.chunks_exact(SIX)) {
                all[*node].copy_from_slice(part);
            }
        };
        for front in self.fronts.iter().filter(|front| front.own > 0) {
            let mut local = gather(front, &all);
            let most = SIX * front.own;
            for (i, row) in front.rows.chunks_exact(most).enumerate() {
                let (done, rest) = local.split_at_mut(i.min(most));
                rest[i - i.min(most)] -= dot(&row[..done.len()], done);
                if i < most {
                    rest[0] /= row[i];
                }
            }
            scatter(front, &local, &mut all);
        }
        for front in self.fronts.iter().rev().filter(|front| front.own > 0) {
            let mut local = gather(front, &all);
            let most = SIX * front.own;
            for (i, row) in front.rows.chunks_exact(most).enumerate().rev() {
                if i < most {
                    local[i] /= row[i];
                }
                let (done, rest) = local.split_at_mut(i.min(most));
                let known = rest[i - i.min(most)];
                for (to, part) in done.iter_mut().zip(row) {
                    *to -= known * part;
                }
            }
            scatter(front, &local, &mut all);
        }
        all
    }
}

/// Adds a node's own entries to its front: with itself and with what is eliminated later.
fn add_own(
    matrix: &Matrix,
    node: usize,
    near: &[usize],
    slot: &[usize],
    full: &mut [f64],
    wide: usize,
) {
    let mut add = |one: usize, other: usize, block: &Block| {
        let (row, column) = (slot[one], slot[other]);
        for (i, line) in block.iter().enumerate() {
            for (j, entry) in line.iter().enumerate() {
                let (r, c) = (SIX * row + i, SIX * column + j);
                if r >= c {
                    full[r * wide + c] += entry;
                } else if one != other {
                    full[c * wide + r] += entry;
                }
            }
        }
    };
    if let Some(block) = matrix.rows[node].get(&node) {
        add(node, node, block);
    }
    for other in near {
        // Known already where the other comes earlier; of two of one group the earlier adds.
        if slot[*other] == usize::MAX || slot[*other] < slot[node] {
            continue;
        }
        let (one, two) = (node.min(*other), node.max(*other));
        if let Some(block) = matrix.rows[one].get(&two) {
            add(one, two, block);
        }
    }
}

/// Adds what a group below has left.
fn add_left(nodes: &[usize], left: &[f64], slot: &[usize], full: &mut [f64], wide: usize) {
    let count = SIX * nodes.len();
    let place = |n: usize| SIX * slot[nodes[n / SIX]] + n % SIX;
    for i in 0..count {
        for j in 0..=i {
            let (a, b) = (place(i), place(j));
            full[a.max(b) * wide + a.min(b)] += left[i * count + j];
        }
    }
}

/// Eliminates the first `most` freedoms of a front; only what lies on and below the diagonal counts. Whether all of them
/// are stiff.
fn eliminate(full: &mut [f64], wide: usize, most: usize) -> bool {
    const BAND: usize = 4;
    let mut from = 0;
    while from < wide {
        let to = (from + BAND).min(wide);
        let (above, rest) = full.split_at_mut(from * wide);
        let band = &mut rest[..(to - from) * wide];
        let whole = from.min(most);
        // Columns against rows that are done.
        for j in 0..from {
            let upto = j.min(most);
            let done = &above[j * wide..j * wide + upto.max(1)];
            if to - from == BAND {
                let sums = dot_four(&done[..upto], band, wide);
                for (i, sum) in sums.into_iter().enumerate() {
                    band[i * wide + j] -= sum;
                }
            } else {
                for i in 0..to - from {
                    let sum = dot(&done[..upto], &band[i * wide..i * wide + upto]);
                    band[i * wide + j] -= sum;
                }
            }
            if j < whole {
                let pivot = above[j * wide + j];
                for i in 0..to - from {
                    band[i * wide + j] /= pivot;
                }
            }
        }
        // Columns of the band itself.
        for i in from..to {
            let (before, here) = band.split_at_mut((i - from) * wide);
            for j in from..=i {
                let upto = j.min(most);
                let sum = if j == i {
                    dot(&here[..upto], &here[..upto])
                } else {
                    let row = &before[(j - from) * wide..(j - from) * wide + wide];
                    dot(&row[..upto], &here[..upto])
                };
                here[j] -= sum;
                if j < most {
                    if j == i {
                        if here[j].is_nan() || here[j] <= 0.0 {
                            return false;
                        }
                        here[j] = here[j].sqrt();
                    } else {
                        here[j] /= before[(j - from) * wide + j];
                    }
                }
            }
        }
        from = to;
    }
    true
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    let mut sums = [0.0; 8];
    let (one, two) = (a.chunks_exact(8), b.chunks_exact(8));
    let rest: f64 = one
        .remainder()
        .iter()
        .zip(two.remainder())
        .map(|(a, b)| a * b)
        .sum();
    for (a, b) in one.zip(two) {
        for ((sum, a), b) in sums.iter_mut().zip(a).zip(b) {
            *sum += a * b;
        }
    }
    sums.iter().sum::<f64>() + rest
}

/// Products of one row with the first of four rows of a band.
fn dot_four(a: &[f64], band: &[f64], wide: usize) -> [f64; 4] {
    let count = a.len();
    let rows: [&[f64]; 4] = [0, 1, 2, 3].map(|i: usize| &band[i * wide..i * wide + count]);
    let mut sums = [[0.0; 4]; 4];
    let whole = count / 4 * 4;
    let mut n = 0;
    while n < whole {
        let a: &[f64] = &a[n..n + 4];
        for (sums, row) in sums.iter_mut().zip(rows) {
            let b = &row[n..n + 4];
            for k in 0..4 {
                sums[k] += a[k] * b[k];
            }
        }
        n += 4;
    }
    let mut all = [0.0; 4];
    for ((all, sums), row) in all.iter_mut().zip(sums).zip(rows) {
        *all = sums.iter().sum::<f64>()
            + a[whole..]
                .iter()
                .zip(&row[whole..])
                .map(|(a, b)| a * b)
                .sum::<f64>();
    }
    all
}
