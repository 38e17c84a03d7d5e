//! A tank in small cubes, flooded from a place: another implementation of what drains and what does not, which shares
//! nothing with the crate's own. The level down to which each cube drains is found by priority flooding (Barnes, Lehman
//! and Mulla, "Priority-flood", Computers & Geosciences 62 (2014) 117): the cube reached lowest is opened next.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// A height as whole nanometres, so that heights can be ordered.
fn nano(height: f64) -> i64 {
    (height * 1e9).round() as i64
}

/// Cubes of one size that fill a box.
pub(super) struct Voxels {
    step: f64,
    counts: [usize; 3],
    open: Vec<bool>,
}

impl Voxels {
    /// The cubes of a box from the origin whose middles `is_open` says are liquid's or air's.
    pub(super) fn of(size: [f64; 3], step: f64, is_open: impl Fn([f64; 3]) -> bool) -> Self {
        let counts = size.map(|side| (side / step).ceil() as usize);
        let mut all = Self {
            step,
            counts,
            open: Vec::new(),
        };
        let count = counts.iter().product();
        all.open = (0..count).map(|n| is_open(all.middle(n))).collect();
        all
    }

    fn place(&self, n: usize) -> [usize; 3] {
        let [x, y, _] = self.counts;
        [n % x, n / x % y, n / x / y]
    }

    fn middle(&self, n: usize) -> [f64; 3] {
        self.place(n).map(|at| (at as f64 + 0.5) * self.step)
    }

    fn volume_of(&self, count: usize) -> f64 {
        count as f64 * self.step.powi(3)
    }

    /// All of it, in m³.
    pub(super) fn volume(&self) -> f64 {
        self.volume_of(self.open.iter().filter(|open| **open).count())
    }

    /// The open cube nearest to a point.
    fn nearest(&self, point: [f64; 3]) -> usize {
        let off = |n: &usize| -> f64 {
            let middle = self.middle(*n);
            middle.iter().zip(point).map(|(a, b)| (a - b).powi(2)).sum()
        };
        let open = (0..self.open.len()).filter(|n| self.open[*n]);
        open.min_by(|a, b| off(a).total_cmp(&off(b))).unwrap()
    }

    /// For each cube the height, along a unit `up`, over which its liquid must rise at most on its best way to `point`.
    fn flooded(&self, up: [f64; 3], point: [f64; 3], height: f64) -> Vec<Option<i64>> {
        let along = |n: usize| -> f64 {
            let middle = self.middle(n);
            middle.iter().zip(up).map(|(a, b)| a * b).sum()
        };
        let mut reached = vec![None; self.open.len()];
        let mut ahead = BinaryHeap::new();
        let start = self.nearest(point);
        ahead.push(Reverse((nano(height), start)));
        while let Some(Reverse((over, n))) = ahead.pop() {
            if reached[n].is_some() {
                continue;
            }
            reached[n] = Some(over);
            let at = self.place(n);
            for axis in 0..3 {
                for next in [at[axis].checked_sub(1), at[axis].checked_add(1)] {
                    let Some(next) = next.filter(|next| *next < self.counts[axis]) else {
                        continue;
                    };
                    let mut other = at;
                    other[axis] = next;
                    let [x, y, _] = self.counts;
                    let other = other[0] + x * (other[1] + y * other[2]);
                    if self.open[other] && reached[other].is_none() {
                        ahead.push(Reverse((over.max(nano(along(other))), other)));
                    }
                }
            }
        }
        reached
    }

    /// Whether every open cube is reached from a point.
    pub(super) fn is_one_space(&self, point: [f64; 3]) -> bool {
        let reached = self.flooded([0.0, 0.0, 1.0], point, 0.0);
        (0..self.open.len()).all(|n| !self.open[n] || reached[n].is_some())
    }

    /// What stays, in m³, when all is drawn that runs to `point`, drawn at `height` along `up`.
    pub(super) fn kept(&self, up: [f64; 3], point: [f64; 3], height: f64) -> f64 {
        let reached = self.flooded(up, point, height);
        let kept = (0..self.open.len()).filter(|n| {
            let middle = self.middle(*n);
            let own: f64 = middle.iter().zip(up).map(|(a, b)| a * b).sum();
            self.open[*n] && reached[*n].is_none_or(|over| over > nano(own))
        });
        self.volume_of(kept.count())
    }
}
