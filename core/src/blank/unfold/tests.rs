//! Parts laid out flat: closed forms, errors, and what must hold of random trees of folds.

extern crate std;

use core::f64::consts::PI;
use std::string::ToString;
use std::vec;
use std::vec::Vec;

use super::*;
use crate::geom::outline::tests::{polygon, rectangle};
use crate::geom::outline::{MOST_NODES, OutlineError};
use crate::units::AngleUnit;

fn is_near(a: f64, b: f64) -> bool {
    libm::fabs(a - b) <= 1e-10 * libm::fmax(1.0, libm::fabs(b))
}

fn side(part: u8, side: u8) -> PartSide {
    PartSide { part, side }
}

fn fold(parent: PartSide, child: PartSide, along: f64, width: f64) -> FoldLink {
    FoldLink {
        parent,
        child,
        along,
        width,
        turn: Angle::new(90.0, AngleUnit::Degree),
    }
}

fn lay(parts: &[Vec<Node>], folds: &[FoldLink]) -> Result<Unfolded, UnfoldError> {
    let parts: Vec<&[Node]> = parts.iter().map(Vec::as_slice).collect();
    let mut flat = Unfolded::new();
    unfold(&parts, folds, &mut flat).map(|()| flat)
}

/// A tray: a bottom `a` by `b` and four walls `h` high on strips `w` wide, all measured between tangents.
fn tray(a: f64, b: f64, h: f64, w: f64) -> (Vec<Vec<Node>>, Vec<FoldLink>) {
    let parts = vec![
        rectangle(0.0, 0.0, a, b),
        rectangle(0.0, 0.0, a, h),
        rectangle(0.0, 0.0, b, h),
        rectangle(0.0, 0.0, a, h),
        rectangle(0.0, 0.0, b, h),
    ];
    let folds = (0..4)
        .map(|n| fold(side(0, n), side(n + 1, 0), 0.0, w))
        .collect();
    (parts, folds)
}

#[test]
fn a_tray_has_the_blank_of_its_closed_form() {
    let (a, b, h, w) = (0.4, 0.3, 0.12, 0.006);
    let (parts, folds) = tray(a, b, h, w);
    let flat = lay(&parts, &folds).unwrap();
    // A cross: the whole less its four corners.
    let reach = h + w;
    let extents = flat.outline().extents().unwrap();
    assert!(is_near(extents.width(), a + 2.0 * reach));
    assert!(is_near(extents.height(), b + 2.0 * reach));
    let whole = (a + 2.0 * reach) * (b + 2.0 * reach);
    assert!(is_near(flat.outline().area(), whole - 4.0 * reach * reach));
    assert!(is_near(
        flat.outline().perimeter(),
        2.0 * (a + b) + 8.0 * reach
    ));
    assert_eq!(flat.outline().nodes().len(), 12);
    assert_eq!(flat.placings()[0], Placing::STAY);

    // The first fold runs along the bottom side, half a strip below it.
    let line = flat.bends()[0];
    assert!(is_near(line.ends[0].x, 0.0) && is_near(line.ends[1].x, a));
    assert!(is_near(line.ends[0].y, -0.5 * w) && is_near(line.ends[1].y, -0.5 * w));
    assert_eq!((line.fold, flat.bends().len()), (0, 4));
}

#[test]
fn a_shorter_wall_leaves_a_step() {
    // A bottom 4 by 3; along its right side, which runs up, a wall 1.5 long that ends 0.5 below its top.
    let parts = [rectangle(0.0, 0.0, 4.0, 3.0), rectangle(0.0, 0.0, 1.5, 2.0)];
    let folds = [fold(side(0, 1), side(1, 0), 0.5, 0.1)];
    let flat = lay(&parts, &folds).unwrap();
    let expected = [
        (0.0, 0.0),
        (4.0, 0.0),
        (4.0, 1.0),
        (6.1, 1.0),
        (6.1, 2.5),
        (4.0, 2.5),
        (4.0, 3.0),
        (0.0, 3.0),
    ];
    let nodes = flat.outline().nodes();
    assert_eq!(nodes.len(), expected.len());
    for (node, (x, y)) in nodes.iter().zip(expected) {
        assert!(is_near(node.x, x) && is_near(node.y, y), "{node:?}");
    }
    let [first, last] = flat.bends()[0].ends;
    assert!(is_near(first.x, 4.05) && is_near(first.y, 1.0) && is_near(last.y, 2.5));
}

#[test]
fn a_longer_wall_stands_out_past_the_strip() {
    let parts = [rectangle(0.0, 0.0, 4.0, 3.0), rectangle(0.0, 0.0, 5.0, 2.0)];
    let folds = [fold(side(0, 1), side(1, 0), -1.0, 0.1)];
    let flat = lay(&parts, &folds).unwrap();
    assert!(is_near(flat.outline().area(), 12.0 + 10.0 + 0.3));
    let extents = flat.outline().extents().unwrap();
    assert!(is_near(extents.least.y, -1.0) && is_near(extents.most.y, 4.0));
    assert_eq!(flat.outline().nodes().len(), 8);
}

#[test]
fn two_flaps_share_a_side_in_either_order() {
    let parts = [
        rectangle(0.0, 0.0, 4.0, 3.0),
        rectangle(0.0, 0.0, 1.0, 1.0),
        rectangle(0.0, 0.0, 1.0, 2.0),
    ];
    let one = fold(side(0, 0), side(1, 0), 0.5, 0.1);
    let two = fold(side(0, 0), side(2, 0), 2.0, 0.2);
    for folds in [[one, two], [two, one]] {
        let flat = lay(&parts, &folds).unwrap();
        assert!(is_near(flat.outline().area(), 12.0 + 1.1 + 2.2));
        assert_eq!(flat.outline().nodes().len(), 12);
    }
    let clash = fold(side(0, 0), side(2, 0), 1.4, 0.2);
    let error = lay(&parts, &[one, clash]).unwrap_err();
    assert!(matches!(error, UnfoldError::Overlap { parts: [1, 2], .. }));
}

#[test]
fn arcs_go_round_with_their_part() {
    let lid = vec![
        Node::corner(0.0, 0.0),
        Node::corner(2.0, 0.0),
        Node::new(2.0, 1.0, 1.0),
        Node::corner(0.0, 1.0),
    ];
    let flat = lay(
        &[rectangle(0.0, 0.0, 2.0, 3.0), lid],
        &[fold(side(0, 0), side(1, 0), 0.0, 0.1)],
    )
    .unwrap();
    assert!(is_near(flat.outline().area(), 6.0 + 0.2 + 2.0 + 0.5 * PI));
    assert!(is_near(flat.outline().extents().unwrap().least.y, -2.1));
}

/// Parts in a row, each folded to the next so that the row keeps turning left and comes round on itself.
fn spiral(count: u8) -> (Vec<Vec<Node>>, Vec<FoldLink>) {
    let parts = (0..count).map(|_| rectangle(0.0, 0.0, 1.0, 1.0)).collect();
    let folds = (1..count)
        .map(|n| fold(side(n - 1, 1), side(n, 0), 0.0, 0.0))
        .collect();
    (parts, folds)
}

#[test]
fn a_spiral_of_folds_comes_to_lie_on_itself() {
    // Entering by side 0 and leaving by side 1 turns a quarter each time: the fifth is back on the first.
    let (parts, folds) = spiral(4);
    let flat = lay(&parts, &folds).unwrap();
    assert!(
        is_near(flat.outline().area(), 4.0),
        "four touch and do not overlap"
    );
    let (parts, folds) = spiral(5);
    let error = lay(&parts, &folds).unwrap_err();
    let UnfoldError::Overlap { parts, folds } = &error else {
        panic!("{error}");
    };
    assert_eq!(*parts, [0, 4]);
    assert_eq!(folds.as_slice(), [0, 1, 2, 3]);
    assert_eq!(
        error.to_string(),
        "parts 0 and 4 would lie on top of each other; weld instead of folding one of: 0 1 2 3"
    );
}

#[test]
fn only_the_folds_between_the_two_are_named() {
    // A stem of three, and two arms on its end whose walls run into each other.
    let parts = vec![
        rectangle(0.0, 0.0, 1.0, 1.0),
        rectangle(0.0, 0.0, 1.0, 1.0),
        rectangle(0.0, 0.0, 1.0, 3.0),
        rectangle(0.0, 0.0, 1.0, 1.0),
        rectangle(0.0, 0.0, 1.0, 3.0),
    ];
    let folds = [
        fold(side(0, 2), side(1, 0), 0.0, 0.1),
        fold(side(1, 1), side(3, 0), 0.0, 0.1),
        fold(side(3, 3), side(4, 0), 0.0, 0.1),
        fold(side(1, 2), side(2, 3), 0.0, 0.1),
    ];
    let error = lay(&parts, &folds).unwrap_err();
    let UnfoldError::Overlap { parts, folds } = error else {
        panic!("{error}");
    };
    assert_eq!(parts, [2, 4]);
    assert_eq!(folds.as_slice(), [1, 2, 3]);
}

#[test]
fn what_makes_no_tree_is_refused() {
    let square = || rectangle(0.0, 0.0, 1.0, 1.0);
    let parts = vec![square(), square(), square()];
    let refused = |folds: &[FoldLink]| lay(&parts, folds).unwrap_err();
    let link = |a, sa, b, sb| fold(side(a, sa), side(b, sb), 0.0, 0.0);
    let tree = |part| UnfoldError::NotATree { part };
    assert_eq!(refused(&[link(0, 0, 1, 0)]), tree(2));
    assert_eq!(refused(&[link(0, 0, 1, 0), link(2, 0, 1, 1)]), tree(1));
    assert_eq!(refused(&[link(1, 0, 2, 0), link(2, 1, 1, 1)]), tree(1));
    assert_eq!(
        refused(&[link(0, 0, 1, 0), link(1, 1, 2, 0), link(2, 1, 0, 1)]),
        tree(0)
    );
    assert_eq!(refused(&[link(0, 0, 1, 0), link(2, 0, 2, 1)]), tree(2));
    assert_eq!(lay(&[], &[]).unwrap_err(), UnfoldError::NoPart);
    let many: Vec<_> = (0..17).map(|_| square()).collect();
    let error = UnfoldError::TooManyParts {
        found: 17,
        most: 16,
    };
    assert_eq!(lay(&many, &[]).unwrap_err(), error);
    assert!(is_near(lay(&many[..1], &[]).unwrap().outline().area(), 1.0));
}

#[test]
fn a_fold_that_cannot_be_is_refused() {
    let parts = vec![
        rectangle(0.0, 0.0, 1.0, 1.0),
        vec![
            Node::corner(0.0, 0.0),
            Node::new(1.0, 0.0, 0.2),
            Node::corner(1.0, 1.0),
        ],
        rectangle(0.0, 0.0, 1.0, 1.0),
    ];
    let good = fold(side(0, 0), side(1, 0), 0.0, 0.1);
    let other = fold(side(0, 1), side(2, 0), 0.0, 0.1);
    assert!(lay(&parts, &[good, other]).is_ok());
    let refused = |fold| lay(&parts, &[fold, other]).unwrap_err();
    let numbers = |edit: fn(&mut FoldLink)| {
        let mut bad = good;
        edit(&mut bad);
        match refused(bad) {
            UnfoldError::Link { fold: 0, field, .. } => field,
            error => panic!("{error}"),
        }
    };
    assert_eq!(numbers(|fold| fold.width = -0.1), LinkField::Width);
    assert_eq!(numbers(|fold| fold.width = f64::NAN), LinkField::Width);
    assert_eq!(numbers(|fold| fold.along = 1.1), LinkField::Along);
    assert_eq!(numbers(|fold| fold.along = -1.1), LinkField::Along);
    assert_eq!(numbers(|fold| fold.along = f64::NAN), LinkField::Along);
    assert_eq!(
        numbers(|fold| fold.turn = Angle::new(180.0, AngleUnit::Degree)),
        LinkField::Turn
    );
    assert_eq!(
        numbers(|fold| fold.turn = Angle::from_radians(f64::NAN)),
        LinkField::Turn
    );
    let with = |edit: fn(&mut FoldLink)| {
        let mut bad = good;
        edit(&mut bad);
        refused(bad)
    };
    assert_eq!(
        with(|fold| fold.along = 1.0),
        UnfoldError::Apart { fold: 0 }
    );
    assert_eq!(
        with(|fold| fold.child.side = 1),
        UnfoldError::NotStraight {
            fold: 0,
            side: side(1, 1)
        }
    );
    assert_eq!(
        with(|fold| fold.child.side = 3),
        UnfoldError::NoSuchSide {
            fold: 0,
            side: side(1, 3)
        }
    );
    assert_eq!(
        with(|fold| fold.parent.part = 200),
        UnfoldError::NoSuchSide {
            fold: 0,
            side: side(200, 0)
        }
    );
    assert_eq!(
        with(|fold| fold.parent = side(2, 0)),
        UnfoldError::SideTaken {
            fold: 0,
            side: side(2, 0)
        }
    );
    let clockwise = polygon(&[(0.0, 0.0), (0.0, 1.0), (1.0, 0.0)]);
    assert_eq!(
        lay(&[clockwise], &[]).unwrap_err(),
        UnfoldError::Part {
            part: 0,
            error: OutlineError::NotCounterClockwise
        }
    );
}

#[test]
fn a_blank_with_too_many_corners_is_refused_and_leaves_nothing() {
    let round = |n: u32| -> Vec<Node> {
        (0..n)
            .map(|k| {
                let angle = f64::from(k) * 2.0 * PI / f64::from(n);
                Node::corner(libm::cos(angle), libm::sin(angle))
            })
            .collect()
    };
    let parts = [round(60), round(60)];
    let folds = [fold(side(0, 0), side(1, 0), 0.0, 0.01)];
    let parts: Vec<&[Node]> = parts.iter().map(Vec::as_slice).collect();
    let mut flat = Unfolded::new();
    unfold(&parts[..1], &[], &mut flat).unwrap();
    let error = unfold(&parts, &folds, &mut flat).unwrap_err();
    assert_eq!(
        error,
        UnfoldError::TooManyNodes {
            most: MOST_NODES as u32
        }
    );
    assert_eq!(flat, Unfolded::new());
}

/// Numbers that look random and are the same in every run: a linear congruential generator with Knuth's
/// constants for MMIX.
struct Dice(u64);

impl Dice {
    /// From 0 up to 1.
    fn share(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        f64::from((self.0 >> 32) as u32) / f64::from(u32::MAX)
    }

    fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.share()
    }

    /// Below `count`.
    fn below(&mut self, count: u8) -> u8 {
        ((self.share() * f64::from(count)) as u8).min(count - 1)
    }
}

/// A convex part of three to six corners on an ellipse.
fn convex(dice: &mut Dice) -> Vec<Node> {
    let count = 3 + dice.below(4);
    let (a, b) = (dice.between(0.1, 0.5), dice.between(0.1, 0.5));
    let offset = dice.between(0.0, 2.0 * PI);
    (0..count)
        .map(|n| {
            let angle =
                offset + 2.0 * PI * (f64::from(n) + dice.between(-0.3, 0.3)) / f64::from(count);
            Node::corner(a * libm::cos(angle) + 3.0, b * libm::sin(angle) - 1.0)
        })
        .collect()
}

/// A tree of two to eight parts; no side is used twice.
fn tree(dice: &mut Dice) -> (Vec<Vec<Node>>, Vec<FoldLink>) {
    let count = 2 + dice.below(7);
    let parts: Vec<Vec<Node>> = (0..count).map(|_| convex(dice)).collect();
    let mut used: Vec<PartSide> = Vec::new();
    let mut folds = Vec::new();
    for n in 1..count {
        let (parent, child) = loop {
            let part = dice.below(n);
            let own = side(part, dice.below(parts[usize::from(part)].len() as u8));
            let joined = side(n, dice.below(parts[usize::from(n)].len() as u8));
            if !used.contains(&own) {
                break (own, joined);
            }
            // All sides of a small part may be taken: another throw finds another part.
        };
        used.extend([parent, child]);
        let along = dice.between(-0.05, 0.05);
        folds.push(fold(parent, child, along, dice.between(0.0, 0.02)));
    }
    (parts, folds)
}

fn length(part: &[Node], at: u8) -> f64 {
    crate::geom::outline::Ring::of(part)
        .side(usize::from(at))
        .unwrap()
        .length()
}

#[test]
fn any_tree_of_folds_keeps_its_sheet() {
    let mut dice = Dice(20_261_125);
    let (mut laid, mut overlapping) = (0, 0);
    for round in 0..3_000 {
        let (parts, folds) = tree(&mut dice);
        let flat = match lay(&parts, &folds) {
            Ok(flat) => flat,
            Err(UnfoldError::Overlap { .. }) => {
                overlapping += 1;
                continue;
            }
            Err(UnfoldError::Apart { .. }) => continue,
            Err(error) => panic!("{round}: {error}"),
        };
        laid += 1;

        // The area of the blank is that of the parts and of the strips, each as long as its bend line.
        let own: f64 = parts
            .iter()
            .map(|part| crate::geom::outline::Ring::of(part).area())
            .sum();
        let strips: f64 = flat
            .bends()
            .iter()
            .zip(&folds)
            .map(|(line, fold)| line.ends[0].to(line.ends[1]).length() * fold.width)
            .sum();
        assert!(is_near(flat.outline().area(), own + strips), "{round}");

        // So is its border: each strip hides its length on both sides and shows its two ends.
        let own: f64 = parts
            .iter()
            .map(|part| crate::geom::outline::Ring::of(part).perimeter())
            .sum();
        let strips: f64 = flat
            .bends()
            .iter()
            .zip(&folds)
            .map(|(line, fold)| 2.0 * (fold.width - line.ends[0].to(line.ends[1]).length()))
            .sum();
        assert!(is_near(flat.outline().perimeter(), own + strips), "{round}");

        // Folded back, each child meets its parent: across the strip the two sides run parallel, a strip
        // apart, and as far along each other as the fold says.
        for fold in &folds {
            let place = |at: PartSide, node: usize| {
                let part = &parts[usize::from(at.part)];
                let node = part[(usize::from(at.side) + node) % part.len()];
                flat.placings()[usize::from(at.part)].point(node.point())
            };
            let (end, start) = (place(fold.parent, 1), place(fold.child, 0));
            let along = place(fold.parent, 0).to(end);
            let run = along.length();
            assert!(is_near(
                run,
                length(&parts[usize::from(fold.parent.part)], fold.parent.side)
            ));
            assert!(is_near(along.cross(end.to(start)) / run, -fold.width));
            assert!(is_near(along.dot(end.to(start)) / run, -fold.along));
            let back = start.to(place(fold.child, 1));
            assert!(is_near(
                back.length(),
                length(&parts[usize::from(fold.child.part)], fold.child.side)
            ));
            assert!(is_near(along.cross(back), 0.0) && along.dot(back) < 0.0);
        }
        // The middle of each part is in the blank.
        for (part, placing) in parts.iter().zip(flat.placings()) {
            let share = 1.0 / part.len() as f64;
            let middle = part
                .iter()
                .fold(Point::default(), |sum, node| sum.moved(node.point(), share));
            assert!(flat.outline().contains(placing.point(middle)), "{round}");
        }
    }
    assert!(
        laid > 500 && overlapping > 100,
        "{laid} laid, {overlapping} overlapping"
    );
}
