//! Panels of other outlines against a numerical solution of the plate's equation, and the rectangle that
//! stands for them: `D ∇⁴w = p` on a grid, thirteen-point stencil, D = 1, edges along the grid's lines or
//! its diagonals, so that the mirror image of a grid point is a grid point.

#![expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "small grid numbers"
)]

use std::collections::HashMap;

use seamwright_core::strength::plate::{clamped, enclosing, supported};
use seamwright_core::strength::weld::EDGE_SHARE;
use seamwright_tests::Outcome;
use seamwright_tests::near::{Tolerance, near};

/// A side of the outline on the grid: `n · p ≤ c` within, where the corner is convex.
#[derive(Clone, Copy)]
struct Side {
    n: [i64; 2],
    c: i64,
}

/// An outline on the grid, its corners whole numbers.
struct Grid {
    corners: Vec<[i64; 2]>,
    sides: Vec<Side>,
    /// For an L: the corner of the square that is missing, to the right of and above this point.
    notch: Option<[i64; 2]>,
    /// Corners wider than a right angle, and how far about them moments are left out: with edges free to
    /// turn the twist there has no end.
    wide: Vec<[i64; 2]>,
    clear: f64,
}

struct Solved {
    w: f64,
    /// Largest principal moment within.
    within: f64,
    /// Largest moment at an edge, and the largest force across an edge, away from corners.
    edge: f64,
    force: f64,
    sum: f64,
}

impl Grid {
    fn new(corners: &[[i64; 2]], notch: Option<[i64; 2]>) -> Self {
        let corners: Vec<[i64; 2]> = corners.to_vec();
        let count = corners.len();
        let run = |at: usize| {
            let (a, b) = (corners[at % count], corners[(at + 1) % count]);
            [b[0] - a[0], b[1] - a[1]]
        };
        let wide = (0..count)
            .filter(|&at| {
                let (from, to) = (run(at + count - 1), run(at));
                from[0] * to[0] + from[1] * to[1] > 0
            })
            .map(|at| corners[at])
            .collect();
        let sides = (0..count)
            .map(|at| {
                let (a, b) = (corners[at], corners[(at + 1) % count]);
                let n = [(b[1] - a[1]).signum(), -(b[0] - a[0]).signum()];
                Side {
                    n,
                    c: n[0] * a[0] + n[1] * a[1],
                }
            })
            .collect();
        Self {
            corners,
            sides,
            notch,
            wide,
            clear: 0.0,
        }
    }

    /// Sides that a point lies past; negative where it lies within by as much.
    fn past(&self, p: [i64; 2]) -> Vec<(Side, i64)> {
        let over = |s: &Side| s.n[0] * p[0] + s.n[1] * p[1] - s.c;
        match self.notch {
            // The L's two inside sides bound it only beside the notch.
            Some(q) => {
                let outer: Vec<_> = self
                    .sides
                    .iter()
                    .filter(|s| !(s.n == [1, 0] && s.c == q[0] || s.n == [0, 1] && s.c == q[1]))
                    .map(|s| (*s, over(s)))
                    .filter(|&(_, by)| by >= 0)
                    .collect();
                if !outer.is_empty() {
                    return outer;
                }
                let (dx, dy) = (p[0] - q[0], p[1] - q[1]);
                if dx < 0 || dy < 0 {
                    return Vec::new();
                }
                // Past the nearer of the two.
                let (n, c, by) = if dx <= dy {
                    ([1, 0], q[0], dx)
                } else {
                    ([0, 1], q[1], dy)
                };
                vec![(Side { n, c }, by)]
            }
            None => self
                .sides
                .iter()
                .map(|s| (*s, over(s)))
                .filter(|&(_, by)| by >= 0)
                .collect(),
        }
    }

    /// Solves it for spacing 1 and `pressure` at each point.
    fn solve(&self, fixed: bool, nu: f64, pressure: &dyn Fn([i64; 2]) -> f64) -> Solved {
        let reach = |k: usize| {
            let all = self.corners.iter().map(|p| p[k]);
            (all.clone().min().unwrap(), all.max().unwrap())
        };
        let ((x0, x1), (y0, y1)) = (reach(0), reach(1));
        let mut index = HashMap::new();
        let mut points = Vec::new();
        for y in y0..=y1 {
            for x in x0..=x1 {
                if self.past([x, y]).is_empty() {
                    index.insert([x, y], points.len());
                    points.push([x, y]);
                }
            }
        }
        // The value at any point near: a known one within, zero on an edge, mirrored beyond one.
        let resolve = |p: [i64; 2]| -> Option<(usize, f64)> {
            if let Some(&at) = index.get(&p) {
                return Some((at, 1.0));
            }
            let past = self.past(p);
            if past.iter().any(|&(_, by)| by == 0) || past.len() != 1 {
                return None;
            }
            let (side, by) = past[0];
            let square = side.n[0] * side.n[0] + side.n[1] * side.n[1];
            let back = 2 * by / square;
            let image = [p[0] - back * side.n[0], p[1] - back * side.n[1]];
            index
                .get(&image)
                .map(|&at| (at, if fixed { 1.0 } else { -1.0 }))
        };
        let stencil: [(i64, i64, f64); 13] = [
            (0, 0, 20.0),
            (1, 0, -8.0),
            (-1, 0, -8.0),
            (0, 1, -8.0),
            (0, -1, -8.0),
            (1, 1, 2.0),
            (1, -1, 2.0),
            (-1, 1, 2.0),
            (-1, -1, 2.0),
            (2, 0, 1.0),
            (-2, 0, 1.0),
            (0, 2, 1.0),
            (0, -2, 1.0),
        ];
        let band = 2 * (x1 - x0) as usize + 2;
        let count = points.len();
        let wide = 2 * band + 1;
        let mut rows = vec![0.0; count * wide];
        let mut w: Vec<f64> = points.iter().map(|&p| pressure(p)).collect();
        for (row, p) in points.iter().enumerate() {
            for (dx, dy, weight) in stencil {
                if let Some((at, sign)) = resolve([p[0] + dx, p[1] + dy]) {
                    rows[row * wide + at + band - row] += sign * weight;
                }
            }
        }
        // Gauss in the band; the matrix is that of an energy, so that no pivot vanishes.
        for k in 0..count {
            let pivot = rows[k * wide + band];
            for r in k + 1..(k + band + 1).min(count) {
                let factor = rows[r * wide + k + band - r] / pivot;
                if factor != 0.0 {
                    for c in k..(k + band + 1).min(count) {
                        rows[r * wide + c + band - r] -= factor * rows[k * wide + c + band - k];
                    }
                    w[r] -= factor * w[k];
                }
            }
        }
        for k in (0..count).rev() {
            let mut sum = w[k];
            for c in k + 1..(k + band + 1).min(count) {
                sum -= rows[k * wide + c + band - k] * w[c];
            }
            w[k] = sum / rows[k * wide + band];
        }
        let at = |p: [i64; 2]| resolve(p).map_or(0.0, |(at, sign)| sign * w[at]);
        let mut got = Solved {
            w: 0.0,
            within: 0.0,
            edge: 0.0,
            force: 0.0,
            sum: 0.0,
        };
        for &[x, y] in &points {
            let here = at([x, y]);
            let xx = at([x + 1, y]) - 2.0 * here + at([x - 1, y]);
            let yy = at([x, y + 1]) - 2.0 * here + at([x, y - 1]);
            let xy = 0.25
                * (at([x + 1, y + 1]) - at([x - 1, y + 1]) - at([x + 1, y - 1])
                    + at([x - 1, y - 1]));
            let (mx, my, mxy) = (-(xx + nu * yy), -(yy + nu * xx), -(1.0 - nu) * xy);
            let (half, radius) = (
                0.5 * (mx + my),
                (0.25 * (mx - my).powi(2) + mxy * mxy).sqrt(),
            );
            got.sum = got.sum.max((xx + yy).abs());
            got.w = got.w.max(here.abs());
            let near =
                |c: &[i64; 2]| (((c[0] - x).pow(2) + (c[1] - y).pow(2)) as f64).sqrt() < self.clear;
            if self.wide.iter().any(near) {
                continue;
            }
            got.within = got
                .within
                .max((half + radius).abs().max((half - radius).abs()));
        }
        for y in y0..=y1 {
            for x in x0..=x1 {
                let past = self.past([x, y]);
                let [(side, 0)] = past[..] else { continue };
                let square = (side.n[0] * side.n[0] + side.n[1] * side.n[1]) as f64;
                let inward = |k: i64| at([x - k * side.n[0], y - k * side.n[1]]);
                got.edge = got.edge.max((2.0 * inward(1) / square).abs());
                // The third derivative two and a half and three and a half steps in, and from these at the
                // edge itself, where the mirror spoils it.
                let third =
                    |k: i64| inward(k + 3) - 3.0 * inward(k + 2) + 3.0 * inward(k + 1) - inward(k);
                let beside =
                    |k: i64| at([x - side.n[0] + k * side.n[1], y - side.n[1] + k * side.n[0]]);
                // V = w_nnn + (2 − ν) w_ntt; at a held edge the second is zero, at a free one its mirror
                // makes the first plain.
                let cubic = if fixed {
                    third(1) + 2.5 * (third(1) - third(2))
                } else {
                    inward(2) - 2.0 * inward(1)
                        + (2.0 - nu) * (beside(1) - 2.0 * beside(0) + beside(-1))
                };
                got.force = got.force.max((cubic / square.powf(1.5)).abs());
            }
        }
        got
    }
}

fn scaled(corners: &[[i64; 2]], by: i64) -> Vec<[i64; 2]> {
    corners.iter().map(|[x, y]| [x * by, y * by]).collect()
}

/// The grid's own check: the clamped and the supported square of Timoshenko's tables 35 and 8 (from
/// memory), and the error falling to about a quarter with half the spacing.
#[test]
fn the_grid_solves_a_square() -> Outcome {
    let unit = [[0, 0], [1, 0], [1, 1], [0, 1]];
    let solve = |n: i64, fixed: bool| {
        let got = Grid::new(&scaled(&unit, n), None).solve(fixed, 0.3, &|_| 1.0);
        let n = n as f64;
        (got.w / n.powi(4), got.edge / n.powi(2), got.sum / n.powi(2))
    };
    let (coarse, fine) = (solve(12, true), solve(24, true));
    let (off, less) = (coarse.0 - 0.00126532, fine.0 - 0.00126532);
    assert!((3.0..6.0).contains(&(off / less)), "{off} {less}");
    near("edge", fine.1, 0.0513, Tolerance::relative(0.02))?;
    let free = solve(24, false);
    near("w", free.0, 0.00406, Tolerance::relative(0.005))?;
    near("M", free.2, 2.0 * 0.0479 / 1.3, Tolerance::relative(0.005))?;
    Ok(())
}

/// A right triangle, a trapezium with a slope of 45° and an L, edges free to turn and held: the rectangle
/// bulges more and bears more everywhere but at the L's inside corner, where the stress grows without end
/// as the grid gets finer.
#[test]
fn the_rectangle_stands_for_other_outlines() -> Outcome {
    type Form = (&'static str, &'static [[i64; 2]], Option<[i64; 2]>);
    let forms: [Form; 4] = [
        ("triangle", &[[0, 0], [2, 0], [0, 2]], None),
        ("trapezium", &[[0, 0], [4, 0], [2, 2], [0, 2]], None),
        ("long trapezium", &[[0, 0], [5, 0], [4, 1], [0, 1]], None),
        (
            "L",
            &[[0, 0], [3, 0], [3, 1], [1, 1], [1, 3], [0, 3]],
            Some([1, 1]),
        ),
    ];
    for (name, corners, notch) in forms {
        let outline: Vec<[f64; 2]> = corners
            .iter()
            .map(|[x, y]| [*x as f64, *y as f64])
            .collect();
        let shape = enclosing(&outline)?;
        assert_eq!(shape.inside_corner, notch.is_some(), "{name}");
        for slope in [[0.0, 0.0], [0.2, 0.1], [0.0, -0.4]] {
            let start = if slope[1] < 0.0 { 1.3 } else { 0.1 };
            let ramp = shape.ramp(start, slope);
            for fixed in [false, true] {
                let bound = if fixed {
                    clamped(shape.sides, ramp)
                } else {
                    supported(shape.sides, ramp, 0.3)
                };
                let solve = |fine: i64| {
                    let h = 1.0 / fine as f64;
                    let mut grid = Grid::new(
                        &scaled(corners, fine),
                        notch.map(|[x, y]| [x * fine, y * fine]),
                    );
                    grid.clear = 0.3 * fine as f64;
                    let got = grid.solve(fixed, 0.3, &|p| {
                        start + slope[0] * p[0] as f64 * h + slope[1] * p[1] as f64 * h
                    });
                    (
                        got.w * h.powi(4),
                        got.within * h * h,
                        if fixed { got.edge * h * h } else { 0.0 },
                        got.sum * h * h,
                    )
                };
                let finer = if name.starts_with("long") { 2 } else { 1 };
                let (coarse, fine) = (solve(8 * finer), solve(16 * finer));
                // Errors fall to a quarter from the one to the other.
                let last = |coarse: f64, fine: f64| fine + (fine - coarse) / 3.0;
                let w = last(coarse.0, fine.0);
                let edge = last(coarse.2, fine.2);
                let what =
                    format!("{name} {slope:?} fixed {fixed}: {coarse:?} {fine:?} under {bound:?}");
                near(&what, coarse.0, fine.0, Tolerance::relative(0.1))?;
                near(&what, fine.0, w, Tolerance::relative(0.04))?;
                assert!(w <= 1.006 * bound.deflection, "{what}");
                if notch.is_none() {
                    assert!(fine.1.max(edge) <= 1.006 * bound.moment, "{what}");
                    near(&what, coarse.3, fine.3, Tolerance::relative(0.3))?;
                }
            }
        }
    }
    Ok(())
}

/// What an edge hands on is no more than the share that the welds are judged by. Edges free to turn:
/// Timoshenko and Woinowsky-Krieger, table 8 (from memory), .420, .503 and .505 for 1:1, 2:1 and 3:1.
#[test]
fn edge_forces() -> Outcome {
    for (ratio, want) in [(1, 0.420), (2, 0.503), (3, 0.505)] {
        let force = |fine: i64, fixed: bool| {
            let corners = [[0, 0], [ratio * fine, 0], [ratio * fine, fine], [0, fine]];
            Grid::new(&corners, None).solve(fixed, 0.3, &|_| 1.0).force / fine as f64
        };
        let last = |fixed| {
            let (coarse, fine) = (force(12, fixed), force(24, fixed));
            // The error goes with the spacing at a free edge, with its square at a held one.
            fine + (fine - coarse) / if fixed { 3.0 } else { 1.0 }
        };
        let (free, fixed) = (last(false), last(true));
        near("free", free, want, Tolerance::relative(0.01))?;
        assert!(
            free < EDGE_SHARE && fixed < EDGE_SHARE && fixed > 0.4,
            "{ratio}: {free} {fixed}"
        );
    }
    Ok(())
}
