//! Where each part comes to lie, and whether they lie clear of each other.

use core::f64::consts::PI;

use heapless::Vec;

use super::{BendLine, FoldLink, LinkField, MOST_PARTS, PartSide, UnfoldError, Unfolded};
use crate::geom::outline::{Node, Placing, Point, Ring, Side, TOUCH};
use crate::units::range::{Limit, OutOfRange, Value, within};
use crate::units::{Angle, Length};

/// Widest strip that is taken, in metres.
const MOST_WIDTH: f64 = 10.0;

/// The strip of one fold in the flat. `start` is where the walk around the parent comes to it.
#[derive(Clone, Copy)]
pub(super) struct Strip {
    /// Its first and last point on the parent's side, in the order in which that side runs.
    pub(super) parent: [Point; 2],
    /// The points of the child's side opposite them.
    pub(super) child: [Point; 2],
    /// How far its first point lies from the end of the parent's side, in metres.
    pub(super) start: f64,
    width: f64,
}

impl Strip {
    /// Its corners, counter-clockwise.
    fn corners(&self) -> [Node; 4] {
        let ([a, d], [b, c]) = (self.parent, self.child);
        [a, b, c, d].map(|point| Node::corner(point.x, point.y))
    }
}

/// A part's own place in the list, where there are few enough parts for one.
fn number(n: usize) -> u8 {
    u8::try_from(n).unwrap_or(u8::MAX)
}

/// The fold that leads to `part`, and its place in the list.
fn fold_to(folds: &[FoldLink], part: u8) -> Option<(u8, &FoldLink)> {
    (0_u8..)
        .zip(folds)
        .find(|(_, fold)| fold.child.part == part)
}

/// The side of a part, in the part's own coordinates.
fn side(parts: &[&[Node]], side: PartSide) -> Option<Side> {
    Ring::of(parts.get(usize::from(side.part))?).side(usize::from(side.side))
}

/// Checks all inputs, places the parts, draws the bend lines, and looks for overlaps.
pub(super) fn place(
    parts: &[&[Node]],
    folds: &[FoldLink],
    flat: &mut Unfolded,
) -> Result<(), UnfoldError> {
    if parts.is_empty() {
        return Err(UnfoldError::NoPart);
    }
    if parts.len() > MOST_PARTS {
        return Err(UnfoldError::TooManyParts {
            found: u32::try_from(parts.len()).unwrap_or(u32::MAX),
            most: MOST_PARTS as u32,
        });
    }
    for (part, nodes) in (0_u8..).zip(parts) {
        Ring::new(nodes).map_err(|error| UnfoldError::Part { part, error })?;
    }
    // A part has one parent, so more folds than parts cannot pass; looked at before folds are counted.
    for (place, fold) in folds.iter().enumerate() {
        let part = fold.child.part;
        let earlier = folds.iter().take(place);
        if earlier
            .map(|other| other.child.part)
            .any(|other| other == part)
        {
            return Err(UnfoldError::NotATree { part });
        }
        check(parts, folds, number(place), fold)?;
    }
    arrange(parts, folds, flat)?;
    for (place, fold) in (0_u8..).zip(folds) {
        let Some(strip) = strip(parts, fold, flat.placings()) else {
            return Err(UnfoldError::Apart { fold: place });
        };
        let middle = |n: fn([Point; 2]) -> Point| {
            let (near, far) = (n(strip.parent), n(strip.child));
            near.moved(near.to(far), 0.5)
        };
        let line = BendLine {
            ends: [middle(|[first, _]| first), middle(|[_, last]| last)],
            turn: fold.turn,
            fold: place,
        };
        // At most as many folds as parts have passed.
        if flat.bends.push(line).is_err() {
            return Err(UnfoldError::NotATree {
                part: fold.child.part,
            });
        }
    }
    clear_of_each_other(parts, folds, flat.placings())
}

fn check(
    parts: &[&[Node]],
    folds: &[FoldLink],
    place: u8,
    fold: &FoldLink,
) -> Result<(), UnfoldError> {
    let mut lengths = [0.0; 2];
    for (named, length) in [fold.parent, fold.child].into_iter().zip(&mut lengths) {
        let found = side(parts, named).ok_or(UnfoldError::NoSuchSide {
            fold: place,
            side: named,
        })?;
        if !found.is_straight() {
            return Err(UnfoldError::NotStraight {
                fold: place,
                side: named,
            });
        }
        *length = found.chord().length();
    }
    if folds.iter().any(|other| other.child == fold.parent) {
        return Err(UnfoldError::SideTaken {
            fold: place,
            side: fold.parent,
        });
    }
    let at = |field| {
        move |problem| UnfoldError::Link {
            fold: place,
            field,
            problem,
        }
    };
    let metres = Length::from_metres;
    within(
        metres(fold.width),
        metres(0.0),
        metres(MOST_WIDTH),
        Value::Length,
    )
    .map_err(at(LinkField::Width))?;
    let [parent, child] = lengths;
    within(
        metres(fold.along),
        metres(-child),
        metres(parent),
        Value::Length,
    )
    .map_err(at(LinkField::Along))?;
    let half = Angle::from_radians(PI);
    if !(libm::fabs(fold.turn.si()) < half.si()) {
        let limit = if fold.turn >= half {
            Limit::Below(Value::Angle(half))
        } else {
            Limit::Above(Value::Angle(Angle::from_radians(-PI)))
        };
        return Err(at(LinkField::Turn)(OutOfRange {
            value: Value::Angle(fold.turn),
            limit,
        }));
    }
    Ok(())
}

/// Places the parts from the root outward.
fn arrange(parts: &[&[Node]], folds: &[FoldLink], flat: &mut Unfolded) -> Result<(), UnfoldError> {
    let all = (0..number(parts.len())).map(|_| Placing::STAY);
    flat.placings.extend(all);
    let mut placed = 0_u32;
    if let Some(root) = (0..number(parts.len())).find(|part| fold_to(folds, *part).is_none()) {
        placed |= 1 << root;
    }
    // Each pass places one part more, or none is left to place.
    for _ in parts {
        for (place, fold) in (0_u8..).zip(folds) {
            let (parent, child) = (fold.parent.part, fold.child.part);
            if placed & (1 << parent) == 0 || placed & (1 << child) != 0 {
                continue;
            }
            let placing =
                placing(parts, fold, flat.placings()).ok_or(UnfoldError::Apart { fold: place })?;
            if let Some(slot) = flat.placings.get_mut(usize::from(child)) {
                *slot = placing;
            }
            placed |= 1 << child;
        }
    }
    match (0..number(parts.len())).find(|part| placed & (1 << part) == 0) {
        None => Ok(()),
        Some(part) => Err(UnfoldError::NotATree { part }),
    }
}

/// The parent's side in the flat, the direction in which it runs, and that out of the sheet.
fn parent_side(
    parts: &[&[Node]],
    fold: &FoldLink,
    placings: &[Placing],
) -> Option<(Side, Point, Point)> {
    let placing = placings.get(usize::from(fold.parent.part))?;
    let own = side(parts, fold.parent)?;
    let side = Side {
        from: placing.point(own.from),
        to: placing.point(own.to),
        bulge: 0.0,
    };
    let along = side.direction(0.0);
    Some((side, along, Point::new(along.y, -along.x)))
}

/// Where the child of `fold` comes to lie, its parent being placed.
fn placing(parts: &[&[Node]], fold: &FoldLink, placings: &[Placing]) -> Option<Placing> {
    let (parent, along, out) = parent_side(parts, fold, placings)?;
    let child = side(parts, fold.child)?;
    let to = parent.to.moved(along, -fold.along).moved(out, fold.width);
    let back = Point::new(-along.x, -along.y);
    Placing::aligning(child.from, child.chord(), to, back)
}

/// The strip of `fold`; `None` where its two sides do not face each other.
pub(super) fn strip(parts: &[&[Node]], fold: &FoldLink, placings: &[Placing]) -> Option<Strip> {
    let (parent, along, out) = parent_side(parts, fold, placings)?;
    let length = side(parts, fold.child)?.chord().length();
    // Both measured from the end of the parent's side backward.
    let start = libm::fmin(parent.chord().length(), fold.along + length);
    let end = libm::fmax(0.0, fold.along);
    if !(start - end > TOUCH) {
        return None;
    }
    let ends = [start, end].map(|back| parent.to.moved(along, -back));
    Some(Strip {
        parent: ends,
        child: ends.map(|point| point.moved(out, fold.width)),
        start,
        width: fold.width,
    })
}

fn clear_of_each_other(
    parts: &[&[Node]],
    folds: &[FoldLink],
    placings: &[Placing],
) -> Result<(), UnfoldError> {
    // The strip counts to the part that it leads to.
    let strip_to = |part: u8| {
        fold_to(folds, part)
            .and_then(|(_, fold)| strip(parts, fold, placings))
            .filter(|strip| strip.width > TOUCH)
            .map(|strip| strip.corners())
    };
    let whole = || (0_u8..).zip(parts.iter().zip(placings));
    for (a, (nodes, placing)) in whole() {
        let one = Ring::of(nodes).placed(*placing);
        let corners = strip_to(a);
        let one_strip = corners.as_ref().map(|corners| Ring::of(corners));
        if one_strip.is_some_and(|strip| strip.overlaps(&one)) {
            let parent = fold_to(folds, a).map_or(a, |(_, fold)| fold.parent.part);
            return Err(overlap(folds, parent, a));
        }
        for (b, (nodes, placing)) in whole().skip(usize::from(a) + 1) {
            let other = Ring::of(nodes).placed(*placing);
            let corners = strip_to(b);
            let other_strip = corners.as_ref().map(|corners| Ring::of(corners));
            let meets = |x: Option<Ring<'_>>, y: Option<Ring<'_>>| match (x, y) {
                (Some(x), Some(y)) => x.overlaps(&y),
                _ => false,
            };
            if one.overlaps(&other)
                || meets(one_strip, Some(other))
                || meets(Some(one), other_strip)
                || meets(one_strip, other_strip)
            {
                return Err(overlap(folds, a, b));
            }
        }
    }
    Ok(())
}

/// The error that names two parts and the folds between them.
fn overlap(folds: &[FoldLink], a: u8, b: u8) -> UnfoldError {
    let mut between = Vec::new();
    // A fold lies between the two where it is on the way from just one of them to the root.
    for place in
        (0..number(folds.len())).filter(|fold| leads(folds, *fold, a) != leads(folds, *fold, b))
    {
        // A tree has fewer folds than there is room for.
        if between.push(place).is_err() {
            break;
        }
    }
    UnfoldError::Overlap {
        parts: [a, b],
        folds: between,
    }
}

/// Whether fold `wanted` is on the way from `part` to the root.
fn leads(folds: &[FoldLink], wanted: u8, part: u8) -> bool {
    let mut part = part;
    for _ in 0..MOST_PARTS {
        match fold_to(folds, part) {
            Some((place, _)) if place == wanted => return true,
            Some((_, fold)) => part = fold.parent.part,
            None => return false,
        }
    }
    false
}
