//! One sheet cut into triangles.

use spade::{ConstrainedDelaunayTriangulation, Point2, RefinementParameters, Triangulation};

use super::chart::{Chart, Run};

/// Triangles of a sheet.
pub(super) struct Triangles {
    /// Nodes on the sheet laid flat, in m.
    pub(super) points: Vec<[f64; 2]>,
    /// The same where lengths along the sheet are true.
    pub(super) places: Vec<[f64; 3]>,
    pub(super) triangles: Vec<[usize; 3]>,
    /// The nodes of each run.
    pub(super) runs: Vec<Vec<usize>>,
}

impl Triangles {
    pub(super) fn of(chart: &Chart, runs: &[Run], width: f64) -> Self {
        let mut mesh = ConstrainedDelaunayTriangulation::<Point2<f64>>::new();
        let mut handles = Vec::new();
        for run in runs {
            let own: Vec<_> = run
                .points
                .iter()
                .map(|[x, y]| {
                    let at = Point2::new(*x, *y);
                    // Where lines meet they have one node, whatever rounding made of their ends.
                    let near = mesh.vertices().find(|near| {
                        let there = near.position();
                        (there.x - x).hypot(there.y - y) < 2e-6
                    });
                    match near.map(|near| near.fix()) {
                        Some(known) => known,
                        None => mesh.insert(at).expect("a place"),
                    }
                })
                .collect();
            handles.push(own);
        }
        for own in &handles {
            for pair in own.windows(2) {
                if pair[0] != pair[1] && mesh.can_add_constraint(pair[0], pair[1]) {
                    mesh.add_constraint(pair[0], pair[1]);
                }
            }
        }
        let most = 0.5 * width * width;
        let _ = mesh.refine(
            RefinementParameters::<f64>::new()
                .keep_constraint_edges()
                .with_max_allowed_area(most)
                .with_min_required_area(0.02 * most)
                .with_max_additional_vertices(2_000_000),
        );
        let points: Vec<[f64; 2]> = mesh
            .vertices()
            .map(|vertex| [vertex.position().x, vertex.position().y])
            .collect();
        let triangles = mesh
            .inner_faces()
            .map(|face| face.vertices().map(|vertex| vertex.index()))
            .filter(|corners| {
                let [a, b, c] = corners.map(|n| points[n]);
                let side = |p: [f64; 2], q: [f64; 2]| (p[0] - q[0]).hypot(p[1] - q[1]);
                let longest = side(a, b).max(side(b, c)).max(side(c, a));
                let twice = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
                // What rounding leaves between points on one straight line is no metal.
                twice.abs() > 1e-6 * longest
                    && chart.has([(a[0] + b[0] + c[0]) / 3.0, (a[1] + b[1] + c[1]) / 3.0])
            })
            .collect();
        let runs = handles
            .into_iter()
            .map(|own| own.into_iter().map(|handle| handle.index()).collect())
            .collect();
        Self {
            places: points.iter().map(|point| chart.lift(*point)).collect(),
            points,
            triangles,
            runs,
        }
    }
}
