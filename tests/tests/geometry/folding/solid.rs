//! Convex solids: whether two overlap, and what a plane cuts of one.

use seamwright_core::geom::Vector;

#[derive(Clone, Debug)]
pub(super) struct Convex {
    pub points: Vec<Vector>,
    /// Pairs of points that an edge joins.
    pub edges: Vec<[usize; 2]>,
    normals: Vec<Vector>,
    ways: Vec<Vector>,
    pub low: Vector,
    pub high: Vector,
}

impl Convex {
    /// A triangle of the outer face, as thick as the sheet.
    pub(super) fn prism(face: [Vector; 3], out: Vector, thickness: f64) -> Self {
        Self::carried(&face, -out * thickness)
    }

    /// A section of four corners carried along.
    pub(super) fn bar(section: [Vector; 4], along: Vector) -> Self {
        Self::carried(&section, along)
    }

    fn carried(section: &[Vector], along: Vector) -> Self {
        let count = section.len();
        let points: Vec<Vector> = section
            .iter()
            .copied()
            .chain(section.iter().map(|p| *p + along))
            .collect();
        let mut edges = Vec::new();
        for n in 0..count {
            let next = (n + 1) % count;
            edges.extend([[n, next], [n + count, next + count], [n, n + count]]);
        }
        let mut ways: Vec<Vector> = (0..count)
            .filter_map(|n| (section[(n + 1) % count] - section[n]).unit())
            .collect();
        let mut normals: Vec<Vector> = ways
            .iter()
            .filter_map(|way| way.cross(along).unit())
            .collect();
        normals.extend(along.unit());
        ways.extend(along.unit());
        let each = |pick: fn(f64, f64) -> f64| {
            points.iter().fold(points[0], |a, b| {
                Vector::new(pick(a.x, b.x), pick(a.y, b.y), pick(a.z, b.z))
            })
        };
        Self {
            low: each(f64::min),
            high: each(f64::max),
            points,
            edges,
            normals,
            ways,
        }
    }

    /// The same, elsewhere.
    pub(super) fn moved(&self, by: Vector) -> Self {
        let mut moved = self.clone();
        for point in &mut moved.points {
            *point = *point + by;
        }
        moved.low = moved.low + by;
        moved.high = moved.high + by;
        moved
    }

    fn span(&self, way: Vector) -> [f64; 2] {
        self.points
            .iter()
            .fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], p| {
                let at = way.dot(*p);
                [low.min(at), high.max(at)]
            })
    }

    /// How deep two solids lie in each other: the least by which one must be moved to be clear (the
    /// separating axis theorem, Gottschalk 1996, from memory); zero or less where they are clear.
    pub(super) fn depth(&self, other: &Self, enough: f64) -> f64 {
        let boxes = [
            (self.high.x - other.low.x).min(other.high.x - self.low.x),
            (self.high.y - other.low.y).min(other.high.y - self.low.y),
            (self.high.z - other.low.z).min(other.high.z - self.low.z),
        ];
        let mut least = boxes.into_iter().fold(f64::INFINITY, f64::min);
        if least <= enough {
            return least;
        }
        let crossed = self.ways.iter().flat_map(|a| {
            other.ways.iter().filter_map(move |b| {
                let axis = a.cross(*b);
                (axis.length() > 1e-6).then(|| axis.unit()).flatten()
            })
        });
        for axis in self
            .normals
            .iter()
            .chain(&other.normals)
            .copied()
            .chain(crossed)
        {
            let ([a, b], [c, d]) = (self.span(axis), other.span(axis));
            least = least.min((b - c).min(d - a));
            if least <= enough {
                return least;
            }
        }
        least
    }

    /// The convex polygon that a plane cuts, in two axes of the plane.
    pub(super) fn section(&self, at: Vector, normal: Vector, axes: [Vector; 2]) -> Vec<[f64; 2]> {
        let mut cut = Vec::new();
        for [a, b] in &self.edges {
            let (p, q) = (self.points[*a], self.points[*b]);
            let (hp, hq) = (normal.dot(p - at), normal.dot(q - at));
            if (hp <= 0.0) != (hq <= 0.0) {
                let on = p + (q - p) * (hp / (hp - hq));
                cut.push(axes.map(|axis| axis.dot(on - at)));
            }
        }
        hull(cut)
    }
}

/// The corners of the convex hull of points (Andrew's monotone chain, from memory).
fn hull(mut points: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
    points.sort_by(|a, b| a[0].total_cmp(&b[0]).then(a[1].total_cmp(&b[1])));
    let half = |points: &mut dyn Iterator<Item = [f64; 2]>| {
        let mut kept: Vec<[f64; 2]> = Vec::new();
        for p in points {
            while let [.., a, b] = kept[..] {
                if (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 0.0 {
                    break;
                }
                kept.pop();
            }
            kept.push(p);
        }
        kept.pop();
        kept
    };
    let mut all = half(&mut points.iter().copied());
    all.extend(half(&mut points.iter().rev().copied()));
    all
}

/// The least distance between two convex polygons that do not overlap.
pub(super) fn apart(a: &[[f64; 2]], b: &[[f64; 2]]) -> f64 {
    let to = |p: [f64; 2], ring: &[[f64; 2]]| {
        ring.iter()
            .zip(ring.iter().cycle().skip(1))
            .fold(f64::INFINITY, |least, (s, e)| {
                let d = [e[0] - s[0], e[1] - s[1]];
                let long = d[0] * d[0] + d[1] * d[1];
                let share = if long > 0.0 {
                    (((p[0] - s[0]) * d[0] + (p[1] - s[1]) * d[1]) / long).clamp(0.0, 1.0)
                } else {
                    0.0
                };
                least.min((p[0] - s[0] - share * d[0]).hypot(p[1] - s[1] - share * d[1]))
            })
    };
    let one = a.iter().map(|p| to(*p, b)).fold(f64::INFINITY, f64::min);
    let two = b.iter().map(|p| to(*p, a)).fold(f64::INFINITY, f64::min);
    one.min(two)
}
