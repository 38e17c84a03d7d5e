//! Outlines: figures of plain geometry, worked out by hand beside each check.

extern crate std;

use core::f64::consts::PI;
use std::vec::Vec;

use super::*;

fn is_near(a: f64, b: f64) -> bool {
    libm::fabs(a - b) <= 1e-12 * libm::fmax(1.0, libm::fabs(b))
}

pub(crate) fn polygon(points: &[(f64, f64)]) -> Vec<Node> {
    points.iter().map(|&(x, y)| Node::corner(x, y)).collect()
}

pub(crate) fn rectangle(x: f64, y: f64, width: f64, height: f64) -> Vec<Node> {
    polygon(&[
        (x, y),
        (x + width, y),
        (x + width, y + height),
        (x, y + height),
    ])
}

fn outline(nodes: &[Node]) -> Outline {
    Outline::new(nodes).unwrap()
}

/// A strip 2 wide and 1 high between two semicircles.
fn obround() -> Outline {
    outline(&[
        Node::corner(0.0, 0.0),
        Node::new(2.0, 0.0, 1.0),
        Node::corner(2.0, 1.0),
        Node::new(0.0, 1.0, 1.0),
    ])
}

#[test]
fn an_obround_measures_as_a_rectangle_and_a_circle() {
    let obround = obround();
    assert!(is_near(obround.area(), 2.0 + 0.25 * PI));
    assert!(is_near(obround.perimeter(), 4.0 + PI));
    let extents = obround.extents().unwrap();
    assert!(is_near(extents.least.x, -0.5) && is_near(extents.most.x, 2.5));
    assert!(is_near(extents.least.y, 0.0) && is_near(extents.most.y, 1.0));
    assert!(is_near(extents.width(), 3.0) && is_near(extents.height(), 1.0));
}

#[test]
fn two_nodes_make_a_circle() {
    let circle = outline(&[Node::new(1.0, 0.0, 1.0), Node::new(-1.0, 0.0, 1.0)]);
    assert!(is_near(circle.area(), PI));
    assert!(is_near(circle.perimeter(), 2.0 * PI));
    let extents = circle.extents().unwrap();
    assert!(is_near(extents.width(), 2.0) && is_near(extents.height(), 2.0));
    for turn in 0..360 {
        let angle = f64::from(turn) * PI / 180.0;
        let at = |r: f64| Point::new(r * libm::cos(angle), r * libm::sin(angle));
        assert!(circle.contains(at(0.999_999)), "{turn}");
        assert!(!circle.contains(at(1.000_001)), "{turn}");
    }
    assert!(circle.contains(Point::default()));
}

#[test]
fn an_arc_cut_finer_keeps_its_measures() {
    // Three quarters of a circle of radius 2, as one arc, three, and many; then the chord back.
    let arc = |pieces: u32| {
        let bulge = libm::tan(1.5 * PI / f64::from(pieces) / 4.0);
        let mut nodes: Vec<Node> = (0..=pieces)
            .map(|n| {
                let angle = 1.5 * PI * f64::from(n) / f64::from(pieces);
                Node::new(2.0 * libm::cos(angle), 2.0 * libm::sin(angle), bulge)
            })
            .collect();
        nodes.last_mut().unwrap().bulge = 0.0;
        outline(&nodes)
    };
    for pieces in [1, 2, 3, 7, 40, 90] {
        let shape = arc(pieces);
        // Sector of 270° and the right triangle that closes it: 2·1.5π + 2.
        assert!(is_near(shape.area(), 3.0 * PI + 2.0), "{pieces}");
        assert!(
            is_near(shape.perimeter(), 3.0 * PI + 2.0 * libm::sqrt(2.0)),
            "{pieces}"
        );
        let extents = shape.extents().unwrap();
        assert!(is_near(extents.width(), 4.0), "{pieces}");
        assert!(shape.contains(Point::new(0.9, -0.9)));
        assert!(!shape.contains(Point::new(1.1, -1.1)));
        assert!(shape.crossing().is_none());
    }
}

#[test]
fn the_series_for_flat_arcs_meets_the_closed_form() {
    let area = |bulge| {
        Side {
            from: Point::new(0.0, 0.0),
            to: Point::new(1.0, 0.0),
            bulge,
        }
        .segment_area()
    };
    let (below, above) = (area(0.019_999_999), area(0.020_000_001));
    let slope = (above - below) / 2e-9;
    // d/db of b/3 + b³/15 at 0.02.
    assert!(
        libm::fabs(slope - (1.0 / 3.0 + 0.000_4 / 5.0)) < 1e-4,
        "{slope}"
    );
}

#[test]
fn an_arc_that_bows_inward_takes_away() {
    let bitten = outline(&[
        Node::corner(0.0, 0.0),
        Node::new(2.0, 0.0, -1.0),
        Node::corner(2.0, 2.0),
        Node::corner(0.0, 2.0),
    ]);
    assert!(is_near(bitten.area(), 4.0 - 0.5 * PI));
    assert!(!bitten.contains(Point::new(1.1, 1.0)));
    assert!(bitten.contains(Point::new(0.9, 1.0)));
    assert!(is_near(bitten.extents().unwrap().width(), 2.0));
}

#[test]
fn what_is_no_outline_is_refused() {
    use OutlineError as E;
    let refused = |points: &[(f64, f64)]| Outline::new(&polygon(points)).unwrap_err();
    assert_eq!(refused(&[]), E::TooFewNodes { found: 0 });
    assert_eq!(refused(&[(0.0, 0.0)]), E::TooFewNodes { found: 1 });
    assert_eq!(refused(&[(0.0, 0.0), (1.0, 0.0)]), E::NotCounterClockwise);
    assert_eq!(
        refused(&[(0.0, 0.0), (0.0, 1.0), (1.0, 1.0)]),
        E::NotCounterClockwise
    );
    assert_eq!(
        refused(&[(0.0, 0.0), (1.0, f64::NAN), (1.0, 1.0)]),
        E::NotFinite { node: 1 }
    );
    assert_eq!(
        refused(&[(0.0, 0.0), (1.0, 0.0), (1.0, 0.0), (1.0, 1.0)]),
        E::NoSide { node: 1 }
    );
    // A bow tie with a larger left wing.
    assert_eq!(
        refused(&[(0.0, 0.0), (3.0, 2.0), (3.0, 1.0), (0.0, 3.0)]),
        E::Crossing { sides: [0, 2] }
    );
    let many: Vec<Node> = (0..97)
        .map(|n| {
            let angle = f64::from(n) * 2.0 * PI / 97.0;
            Node::corner(libm::cos(angle), libm::sin(angle))
        })
        .collect();
    assert_eq!(
        Outline::new(&many),
        Err(E::TooManyNodes {
            found: 97,
            most: 96
        })
    );
    assert!(Outline::new(&many[..96]).is_ok());
}

#[test]
fn a_corner_driven_through_a_side_crosses_it_and_a_touching_one_does_not() {
    let shape = |tip: f64| {
        Outline::new(&polygon(&[
            (0.0, 0.0),
            (4.0, 0.0),
            (4.0, 3.0),
            (2.0, tip),
            (0.0, 3.0),
        ]))
    };
    assert!(shape(0.1).is_ok());
    assert!(shape(0.0).is_ok(), "it touches");
    assert!(shape(-0.1).is_err());
    // The corner lies on the side, and the way goes on through.
    let through = polygon(&[
        (0.0, 0.0),
        (4.0, 0.0),
        (4.0, 3.0),
        (2.0, 0.0),
        (1.0, -2.0),
        (0.0, -2.0),
        (-1.0, 3.0),
    ]);
    assert!(Ring::of(&through).crossing().is_some());
    let spike = polygon(&[(0.0, 0.0), (4.0, 0.0), (2.0, 0.0), (2.0, 2.0)]);
    assert_eq!(Ring::of(&spike).crossing(), None, "it touches");
    assert_eq!(
        Outline::new(&spike).unwrap_err(),
        OutlineError::Spike { node: 1 }
    );
}

#[test]
fn arcs_cross_too() {
    // A semicircular bite that reaches the far side, touches it, or goes through it.
    let bite = |depth: f64| {
        Outline::new(&[
            Node::corner(0.0, 0.0),
            Node::corner(4.0, 0.0),
            Node::corner(4.0, depth),
            Node::new(3.0, depth, 1.0),
            Node::corner(1.0, depth),
            Node::corner(0.0, depth),
        ])
    };
    // The arc from (3, d) to (1, d) turning left bows up, away from the far side.
    assert!(bite(0.5).is_ok());
    let down = |depth: f64| {
        Outline::new(&[
            Node::corner(0.0, 0.0),
            Node::corner(4.0, 0.0),
            Node::corner(4.0, depth),
            Node::new(3.0, depth, -1.0),
            Node::corner(1.0, depth),
            Node::corner(0.0, depth),
        ])
    };
    assert!(down(1.2).is_ok());
    assert!(down(1.0).is_ok(), "it touches");
    assert_eq!(
        down(0.8).unwrap_err(),
        OutlineError::Crossing { sides: [0, 3] }
    );
}

#[test]
fn meeting_along_an_edge_is_no_overlap() {
    let base = outline(&rectangle(0.0, 0.0, 2.0, 1.0));
    let at = |x, y| outline(&rectangle(x, y, 2.0, 1.0));
    assert!(!base.overlaps(&at(2.0, 0.0)), "edge to edge");
    assert!(!base.overlaps(&at(2.0, 0.5)), "half an edge");
    assert!(!base.overlaps(&at(2.0, 1.0)), "corner to corner");
    assert!(!base.overlaps(&at(5.0, 0.0)));
    assert!(base.overlaps(&at(1.999, 0.0)), "along three edges");
    assert!(base.overlaps(&at(1.0, 0.5)));
    assert!(base.overlaps(&at(0.0, 0.0)), "the same");
    assert!(
        base.overlaps(&outline(&rectangle(0.5, 0.25, 1.0, 0.5))),
        "inside"
    );
    assert!(outline(&rectangle(0.5, 0.25, 1.0, 0.5)).overlaps(&base));
    assert!(
        base.overlaps(&outline(&rectangle(0.5, -1.0, 1.0, 3.0))),
        "a cross: no corner of one in the other"
    );
    // A half of it, whose long side runs through two corners.
    assert!(base.overlaps(&outline(&polygon(&[(0.0, 0.0), (2.0, 0.0), (2.0, 1.0)]))));
    assert!(
        base.overlaps(&outline(&polygon(&[(-1.0, -0.5), (3.0, 1.5), (-1.0, 1.5)]))),
        "a side through two corners from outside"
    );
}

#[test]
fn round_parts_overlap_only_where_they_do() {
    let disc = |x: f64, r: f64| outline(&[Node::new(x + r, 0.0, 1.0), Node::new(x - r, 0.0, 1.0)]);
    assert!(!disc(0.0, 1.0).overlaps(&disc(2.0, 1.0)), "they touch");
    assert!(disc(0.0, 1.0).overlaps(&disc(1.99, 1.0)));
    assert!(disc(0.0, 1.0).overlaps(&disc(0.0, 1.0)));
    assert!(disc(0.0, 1.0).overlaps(&disc(0.0, 0.5)));
    assert!(!obround().overlaps(&outline(&rectangle(2.5, 0.0, 1.0, 1.0))));
    assert!(obround().overlaps(&outline(&rectangle(2.49, 0.0, 1.0, 1.0))));
    // Into the corner beside the round end, clear of it.
    assert!(!obround().overlaps(&outline(&rectangle(2.4, 0.9, 1.0, 1.0))));
}

#[test]
fn a_move_keeps_every_measure() {
    let placing = Placing::aligning(
        Point::new(2.0, 1.0),
        Point::new(0.0, 5.0),
        Point::new(-7.0, 3.0),
        Point::new(3.0, 4.0),
    )
    .unwrap();
    let moved_to = placing.point(Point::new(2.0, 1.0));
    assert!(is_near(moved_to.x, -7.0) && is_near(moved_to.y, 3.0));
    let up = placing.point(Point::new(2.0, 6.0));
    assert!(is_near(up.x, -4.0) && is_near(up.y, 7.0));
    let mut moved = obround();
    moved.place(placing);
    assert!(is_near(moved.area(), obround().area()));
    assert!(is_near(moved.perimeter(), obround().perimeter()));
    assert!(moved.contains(placing.point(Point::new(-0.4, 0.5))));
    assert!(!moved.contains(placing.point(Point::new(-0.4, 0.05))));
    assert!(
        Placing::aligning(
            Point::default(),
            Point::default(),
            Point::default(),
            Point::new(1.0, 0.0)
        )
        .is_none()
    );
}
