//! Sheets in triangles whose nodes are shared where sheets meet.

use std::collections::HashMap;

use core::f64::consts::TAU;
use seamwright_core::geom::Vector;
use spade::{ConstrainedDelaunayTriangulation, Point2, Triangulation};

use super::sheet::Sheet;

/// A sheet's own triangles.
#[derive(Debug)]
pub(super) struct Part {
    /// Corners of each, counter-clockwise.
    pub(super) triangles: Vec<[usize; 3]>,
    /// Nodes along each edge, both ends with them.
    pub(super) rims: Vec<Vec<usize>>,
    /// Where each node lies in the sheet's plane, from its first corner.
    pub(super) flat: HashMap<usize, [f64; 2]>,
}

/// Nodes by their places: one for all that lie within a ten-thousandth of a millimetre.
#[derive(Debug, Default)]
pub(super) struct Nodes {
    pub(super) places: Vec<[f64; 3]>,
    known: HashMap<[i64; 3], usize>,
}

impl Nodes {
    fn new_at(&mut self, at: Vector) -> usize {
        self.places.push([at.x, at.y, at.z]);
        self.places.len() - 1
    }

    fn at(&mut self, at: Vector) -> usize {
        let key = [at.x, at.y, at.z].map(|part| (part * 1e6).round() as i64);
        for n in 0..27 {
            let beside = [
                key[0] + n % 3 - 1,
                key[1] + n / 3 % 3 - 1,
                key[2] + n / 9 - 1,
            ];
            if let Some(node) = self.known.get(&beside) {
                let [x, y, z] = self.places[*node];
                if (Vector::new(x, y, z) - at).length() < 1e-7 {
                    return *node;
                }
            }
        }
        let node = self.new_at(at);
        self.known.insert(key, node);
        node
    }
}

/// How wide triangles are.
#[derive(Clone, Copy, Debug)]
pub(super) struct Width {
    /// In the mean, in m.
    pub(super) mean: f64,
    /// By what share of that they are narrower at the ends of an edge, and wider half way along it.
    pub(super) drawn: f64,
}

/// Points along a straight edge, the same whichever way it runs; an even number of pieces.
fn along(a: Vector, b: Vector, Width { mean: width, drawn }: Width) -> Vec<Vector> {
    let count = 2 * ((b - a).length() / (2.0 * width) - 1e-6).ceil().max(1.0) as usize;
    let turned = [a.x - b.x, a.y - b.y, a.z - b.z]
        .into_iter()
        .find(|part| part.abs() > 1e-7)
        .is_some_and(|part| part > 0.0);
    let (from, to) = if turned { (b, a) } else { (a, b) };
    let mut all: Vec<Vector> = (0..=count)
        .map(|n| {
            let share = n as f64 / count as f64;
            from + (to - from) * (share - drawn / TAU * (TAU * share).sin())
        })
        .collect();
    if turned {
        all.reverse();
    }
    all
}

/// Cuts a sheet into triangles.
pub(super) fn cut(sheet: &Sheet, width: Width, nodes: &mut Nodes) -> Part {
    let origin = sheet.outline[0];
    let [right, up] = sheet.axes();
    let flat = |at: Vector| [(at - origin).dot(right), (at - origin).dot(up)];
    let lift = |[x, y]: [f64; 2]| origin + right * x + up * y;
    let count = sheet.outline.len();
    let runs: Vec<Vec<Vector>> = (0..count)
        .map(|n| along(sheet.outline[n], sheet.outline[(n + 1) % count], width))
        .collect();
    let rims: Vec<Vec<usize>> = runs
        .iter()
        .map(|run| run.iter().map(|at| nodes.at(*at)).collect())
        .collect();
    let mut points: Vec<[f64; 2]> = Vec::new();
    let mut of: Vec<usize> = Vec::new();
    for (run, rim) in runs.iter().zip(&rims) {
        for (at, node) in run.iter().zip(rim).take(rim.len() - 1) {
            points.push(flat(*at));
            of.push(*node);
        }
    }
    let triangles = match grid(&runs, &flat) {
        Some((inner, triangles)) if sheet.holes.is_empty() => {
            points.extend(inner);
            triangles
        }
        _ => {
            let loops: Vec<Vec<[f64; 2]>> = std::iter::once(points.clone())
                .chain(sheet.holes.iter().map(|(at, radius)| {
                    let [x, y] = flat(*at);
                    let count = (TAU * radius / width.mean).ceil().max(16.0);
                    (0..count as usize)
                        .map(|n| {
                            let turn = TAU * n as f64 / count;
                            [x + radius * turn.cos(), y + radius * turn.sin()]
                        })
                        .collect()
                }))
                .collect();
            let (all, triangles) = lattice(&loops, width.mean);
            points = all;
            triangles
        }
    };
    for point in &points[of.len()..] {
        of.push(nodes.new_at(lift(*point)));
    }
    Part {
        triangles: triangles
            .into_iter()
            .map(|corners| corners.map(|n| of[n]))
            .collect(),
        rims,
        flat: of.iter().copied().zip(points).collect(),
    }
}

/// Nodes within and triangles of a rectangle whose edges are parted alike; numbers go round the rim, then row by row.
type Inner = (Vec<[f64; 2]>, Vec<[usize; 3]>);
fn grid(runs: &[Vec<Vector>], flat: &dyn Fn(Vector) -> [f64; 2]) -> Option<Inner> {
    let [south, east, north, west] = runs else {
        return None;
    };
    let (wide, high) = (south.len() - 1, east.len() - 1);
    let corners = [south, east, north, west].map(|run| flat(run[0]));
    let span = |n: usize, axis: usize| corners[(n + 1) % 4][axis] - corners[n % 4][axis];
    // Points of sides that face each other lie across from each other: all are parted alike.
    let square = span(0, 1).abs() < 1e-9
        && span(1, 0).abs() < 1e-9
        && span(2, 1).abs() < 1e-9
        && span(3, 0).abs() < 1e-9;
    if !square || north.len() - 1 != wide || west.len() - 1 != high {
        return None;
    }
    let round = 2 * (wide + high);
    let number = |i: usize, j: usize| {
        if j == 0 {
            i
        } else if i == wide {
            wide + j
        } else if j == high {
            2 * wide + high - i
        } else if i == 0 {
            round - j
        } else {
            round + (j - 1) * (wide - 1) + i - 1
        }
    };
    let mut inner = Vec::new();
    for up in &east[1..high] {
        for right in &south[1..wide] {
            inner.push([flat(*right)[0], flat(*up)[1]]);
        }
    }
    let mut triangles = Vec::new();
    for j in 0..high {
        for i in 0..wide {
            let [a, b, c, d] = [
                number(i, j),
                number(i + 1, j),
                number(i + 1, j + 1),
                number(i, j + 1),
            ];
            // Diagonals run into the corners of the sheet.
            if (i + j) % 2 == 0 {
                triangles.extend([[a, b, c], [a, c, d]]);
            } else {
                triangles.extend([[a, b, d], [b, c, d]]);
            }
        }
    }
    Some((inner, triangles))
}

/// Nodes and triangles within closed loops, the first of which is the rim: equilateral but along the loops.
fn lattice(loops: &[Vec<[f64; 2]>], width: f64) -> Inner {
    let sides = |round: &[[f64; 2]]| -> Vec<[[f64; 2]; 2]> {
        let next = round.iter().cycle().skip(1);
        round.iter().zip(next).map(|(a, b)| [*a, *b]).collect()
    };
    let rims: Vec<[[f64; 2]; 2]> = loops.iter().flat_map(|round| sides(round)).collect();
    let mut mesh = ConstrainedDelaunayTriangulation::<Point2<f64>>::new();
    for round in loops {
        let handles: Vec<_> = round
            .iter()
            .map(|[x, y]| mesh.insert(Point2::new(*x, *y)).expect("a place"))
            .collect();
        for n in 0..handles.len() {
            mesh.add_constraint(handles[n], handles[(n + 1) % handles.len()]);
        }
    }
    let round = mesh.num_vertices();
    // One equilateral triangle on each piece of the loops, so that what lies along an edge is alike all along it.
    let mut inner: Vec<[f64; 2]> = Vec::new();
    for [a, b] in &rims {
        let run = [b[0] - a[0], b[1] - a[1]];
        for side in [0.866, -0.866] {
            let point = [
                0.5 * (a[0] + b[0]) - side * run[1],
                0.5 * (a[1] + b[1]) + side * run[0],
            ];
            let away = 0.7 * run[0].hypot(run[1]).min(width);
            if within(&rims, point)
                && rims.iter().all(|side| apart(*side, point) > away)
                && inner.iter().all(|other| apart([*other; 2], point) > away)
            {
                inner.push(point);
            }
        }
    }
    let layer = inner.len();
    let reach = |axis: usize| {
        let along = loops[0].iter().map(|point| point[axis]);
        let low = along.clone().fold(f64::MAX, f64::min);
        [low, along.fold(f64::MIN, f64::max)]
    };
    let ([left, right], [low, high]) = (reach(0), reach(1));
    let rows = ((high - low) / (0.866 * width)).round().max(1.0) as usize;
    let columns = ((right - left) / width).round().max(1.0) as usize;
    for j in 0..=rows {
        for i in 0..=columns {
            let shift = if j % 2 == 0 { 0.0 } else { 0.5 };
            let point = [
                left + (right - left) * (i as f64 + shift) / columns as f64,
                low + (high - low) * j as f64 / rows as f64,
            ];
            if within(&rims, point)
                && rims.iter().all(|side| apart(*side, point) > 1.25 * width)
                && inner[..layer]
                    .iter()
                    .all(|other| apart([*other; 2], point) > 0.7 * width)
            {
                inner.push(point);
            }
        }
    }
    for point in &inner {
        let _ = mesh.insert(Point2::new(point[0], point[1]));
    }
    let mut points: Vec<[f64; 2]> = mesh
        .vertices()
        .map(|vertex| [vertex.position().x, vertex.position().y])
        .collect();
    let triangles: Vec<[usize; 3]> = mesh
        .inner_faces()
        .map(|face| face.vertices().map(|vertex| vertex.index()))
        .filter(|corners| {
            let [a, b, c] = corners.map(|n| points[n]);
            let middle = [(a[0] + b[0] + c[0]) / 3.0, (a[1] + b[1] + c[1]) / 3.0];
            // What rounding leaves between points on one straight line is no metal.
            twice([a, b, c]) > 1e-4 * width * width && within(&rims, middle)
        })
        .collect();
    smooth(&mut points, &triangles, round + layer);
    (points, triangles)
}

/// Twice the area of a triangle.
fn twice([a, b, c]: [[f64; 2]; 3]) -> f64 {
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
}

/// Moves the points from `first` on to the middle of those about them, a few times.
fn smooth(points: &mut [[f64; 2]], triangles: &[[usize; 3]], first: usize) {
    for _ in 0..10 {
        let mut sums = vec![[0.0; 3]; points.len()];
        for corners in triangles {
            for n in 0..3 {
                for other in [corners[(n + 1) % 3], corners[(n + 2) % 3]] {
                    let sum = &mut sums[corners[n]];
                    *sum = [
                        sum[0] + points[other][0],
                        sum[1] + points[other][1],
                        sum[2] + 1.0,
                    ];
                }
            }
        }
        for (point, [x, y, count]) in points.iter_mut().zip(sums).skip(first) {
            if count > 0.0 {
                *point = [x / count, y / count];
            }
        }
    }
}

/// Whether a point lies within closed loops.
fn within(sides: &[[[f64; 2]; 2]], [x, y]: [f64; 2]) -> bool {
    let crossed = sides.iter().filter(|[a, b]| {
        (a[1] > y) != (b[1] > y) && x < a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0])
    });
    crossed.count() % 2 == 1
}

/// How far a point is from a straight line between two.
pub(super) fn apart([a, b]: [[f64; 2]; 2], point: [f64; 2]) -> f64 {
    let (run, from) = (
        [b[0] - a[0], b[1] - a[1]],
        [point[0] - a[0], point[1] - a[1]],
    );
    let square = (run[0] * run[0] + run[1] * run[1]).max(f64::MIN_POSITIVE);
    let share = ((run[0] * from[0] + run[1] * from[1]) / square).clamp(0.0, 1.0);
    (from[0] - share * run[0]).hypot(from[1] - share * run[1])
}
