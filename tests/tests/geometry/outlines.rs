//! Outlines and blanks against the `geo` crate, another implementation of plane geometry.

use std::f64::consts::PI;

use geo::{Area, BooleanOps, Contains, LineString, MultiPolygon, Polygon};
use proptest::prelude::*;
use seamwright_core::blank::unfold::{FoldLink, PartSide, UnfoldError, Unfolded, unfold};
use seamwright_core::geom::outline::{Node, Outline, Placing, Point};
use seamwright_core::units::Angle;

/// Pieces in which `geo`, which knows no arcs, is given one.
const PIECES: u32 = 400;

/// The same shape for `geo`, arcs in pieces.
fn theirs(nodes: &[Node]) -> Polygon<f64> {
    let mut points = Vec::new();
    for (n, from) in nodes.iter().enumerate() {
        let to = nodes[(n + 1) % nodes.len()];
        let pieces = if from.bulge == 0.0 { 1 } else { PIECES };
        // Points at equal steps of the arc: turned about its centre, which the bulge places.
        let (dx, dy, b) = (to.x - from.x, to.y - from.y, from.bulge);
        for piece in 0..pieces {
            if piece == 0 {
                points.push((from.x, from.y));
                continue;
            }
            let away = (1.0 - b * b) / (4.0 * b);
            let centre = (from.x + 0.5 * dx - away * dy, from.y + 0.5 * dy + away * dx);
            let angle = 4.0 * b.atan() * f64::from(piece) / f64::from(pieces);
            let (x, y) = (from.x - centre.0, from.y - centre.1);
            points.push((
                centre.0 + x * angle.cos() - y * angle.sin(),
                centre.1 + x * angle.sin() + y * angle.cos(),
            ));
        }
    }
    Polygon::new(LineString::from(points), Vec::new())
}

/// A part of 3 to 9 corners around the origin, from 0.2 to 1 m away, with dents; sides straight or bowed.
fn nodes(most_bulge: f64) -> impl Strategy<Value = Vec<Node>> {
    let corner = (0.2..1.0_f64, -0.3..0.3_f64, -1.0..1.0_f64, any::<bool>());
    proptest::collection::vec(corner, 3..10).prop_map(move |corners| {
        let count = corners.len() as f64;
        (0_u32..)
            .zip(corners)
            .map(|(n, (r, turn, bulge, round))| {
                let angle = 2.0 * PI * (f64::from(n) + turn) / count;
                let bulge = if round { most_bulge * bulge } else { 0.0 };
                Node::new(r * angle.cos(), r * angle.sin(), bulge)
            })
            .collect()
    })
}

fn placing() -> impl Strategy<Value = Placing> {
    (0.0..2.0 * PI, -2.0..2.0_f64, -2.0..2.0_f64).prop_map(|(turn, x, y)| Placing {
        cos: turn.cos(),
        sin: turn.sin(),
        x,
        y,
    })
}

proptest! {
    #[test]
    fn areas_and_insides_agree(
        nodes in nodes(0.4),
        points in proptest::collection::vec((-1.2..1.2_f64, -1.2..1.2_f64), 40),
    ) {
        let Ok(outline) = Outline::new(&nodes) else {
            return Ok(());
        };
        let other = theirs(&nodes);
        // A circle in n pieces a turn has lost (2 π/n)²/6 of its area; an arc here at most a quarter turn.
        prop_assert!((outline.area() - other.unsigned_area()).abs() < 1e-5);
        for (x, y) in points {
            let near = outline.ring().sides().any(|side| side.distance(Point::new(x, y)) < 1e-5);
            if !near {
                let inside = other.contains(&geo::Point::new(x, y));
                prop_assert_eq!(outline.contains(Point::new(x, y)), inside, "{} {}", x, y);
            }
        }
    }

    #[test]
    fn overlaps_agree(a in nodes(0.4), b in nodes(0.4), placing in placing()) {
        let b: Vec<Node> = b.into_iter().map(|node| placing.node(node)).collect();
        let (Ok(one), Ok(other)) = (Outline::new(&a), Outline::new(&b)) else {
            return Ok(());
        };
        let common = theirs(&a).intersection(&theirs(&b)).unsigned_area();
        prop_assert_eq!(one.overlaps(&other), other.overlaps(&one));
        // Between nothing and this, arcs in pieces and rounded coordinates may say either.
        if common > 1e-5 {
            prop_assert!(one.overlaps(&other), "{}", common);
        } else if common == 0.0 {
            let gap = one.ring().sides().flat_map(|side| [side.from, side.to]);
            let touching = gap.into_iter().any(|p| other.ring().sides().any(|s| s.distance(p) < 1e-4));
            prop_assert!(touching || !one.overlaps(&other));
        }
    }

    #[test]
    fn a_blank_is_the_union_of_its_parts_and_strips(
        parts in proptest::collection::vec(nodes(0.0), 2..7),
        choice in proptest::collection::vec((any::<u8>(), any::<u8>(), any::<u8>(), -0.1..0.1_f64, 0.001..0.05_f64), 7),
    ) {
        let mut used = Vec::new();
        let mut folds = Vec::new();
        for (n, (part, own, joined, along, width)) in (1..parts.len()).zip(&choice) {
            let part = usize::from(*part) % n;
            let side = |part: usize, side: u8| PartSide {
                part: part as u8,
                side: side % parts[part].len() as u8,
            };
            let (parent, child) = (side(part, *own), side(n, *joined));
            if used.contains(&parent) {
                return Ok(());
            }
            used.extend([parent, child]);
            let turn = Angle::from_radians(1.0);
            folds.push(FoldLink { parent, child, along: *along, width: *width, turn });
        }
        let slices: Vec<&[Node]> = parts.iter().map(Vec::as_slice).collect();
        let mut flat = Unfolded::new();
        let result = unfold(&slices, &folds, &mut flat);
        let laid = |n: usize, placing: &Placing| -> Vec<Node> {
            parts[n].iter().map(|node| placing.node(*node)).collect()
        };
        match result {
            Ok(()) => {
                let mut union = MultiPolygon::new(Vec::new());
                for (n, placing) in flat.placings().iter().enumerate() {
                    union = union.union(&theirs(&laid(n, placing)));
                }
                for (line, fold) in flat.bends().iter().zip(&folds) {
                    let [a, b] = line.ends;
                    let run = a.to(b);
                    // Out by a hair at both ends, so that the pieces join and leave no crack.
                    let half = 0.5 * fold.width + 1e-7;
                    let out = Point::new(run.y / run.length(), -run.x / run.length());
                    let strip = [(a, -half), (a, half), (b, half), (b, -half)].map(|(end, by)| {
                        let corner = end.moved(out, by);
                        Node::corner(corner.x, corner.y)
                    });
                    union = union.union(&theirs(&strip));
                }
                let outline = theirs(flat.outline().nodes());
                let differing = union.xor(&MultiPolygon::new(vec![outline])).unsigned_area();
                prop_assert!(differing < 1e-5, "{}", differing);
            }
            Err(UnfoldError::Overlap { .. } | UnfoldError::Part { .. } | UnfoldError::Apart { .. }) => {}
            Err(error) => prop_assert!(false, "{}", error),
        }
    }
}
