//! The outline of the blank, walked around the tree of folds.

use heapless::Vec;

use super::place::{Strip, strip};
use super::{FoldLink, MOST_PARTS, UnfoldError, Unfolded};
use crate::geom::outline::{MOST_NODES, Node, Placing, Point, Ring, TOUCH};

/// Three corners within this many metres of one line lie on it. Tighter than a touch, since corners
/// dropped one after the other must not add up to one.
const ON_LINE: f64 = 0.01 * TOUCH;

const FULL: UnfoldError = UnfoldError::TooManyNodes {
    most: MOST_NODES as u32,
};

/// How far the walk has come around one part.
struct Step {
    part: usize,
    /// The side that it is on.
    side: usize,
    /// How many sides are left, that one included.
    left: usize,
    /// The last strip that it came to on this side: how far its start lay from the side's end, and the
    /// place of its fold.
    passed: Option<(f64, usize)>,
    /// The strip by which it came here, and the side of the part that it runs along; none at the root.
    strip: Option<(Strip, usize)>,
}

/// Walks around all parts, which are placed and clear of each other.
pub(super) fn walk(
    parts: &[&[Node]],
    folds: &[FoldLink],
    flat: &mut Unfolded,
) -> Result<(), UnfoldError> {
    let Unfolded {
        placings, outline, ..
    } = flat;
    let nodes = outline.nodes_mut();
    let child = |place: usize| folds.get(place).map(|fold| usize::from(fold.child.part));
    // The root is no fold's child.
    let Some(root) =
        (0..parts.len()).find(|part| !(0..folds.len()).any(|n| child(n) == Some(*part)))
    else {
        return Err(UnfoldError::NotATree { part: 0 });
    };
    let mut stack: Vec<Step, MOST_PARTS> = Vec::new();
    let count = |part: usize| parts.get(part).map_or(0, |nodes| nodes.len());
    let begin = Step {
        part: root,
        side: 0,
        left: count(root),
        passed: None,
        strip: None,
    };
    stack.push(begin).map_err(|_| FULL)?;
    while let Some(step) = stack.last_mut() {
        let node_at = |side: usize| placed(parts, placings, step.part, side);
        if step.left == 0 {
            // Round the child: back along the rest of its joined side, and over the strip.
            if let Some((strip, joined)) = step.strip {
                let last = node_at(joined).map(Node::point);
                let [_, near] = strip.parent;
                let [_, far] = strip.child;
                for point in last.into_iter().chain([far, near]) {
                    add(nodes, straight(point))?;
                }
            }
            stack.pop();
            continue;
        }
        if step.passed.is_none()
            && let Some(node) = node_at(step.side)
        {
            add(nodes, node)?;
        }
        match next_strip(parts, folds, placings, step) {
            None => {
                step.left -= 1;
                step.side = (step.side + 1) % count(step.part).max(1);
                step.passed = None;
            }
            Some((place, strip)) => {
                step.passed = Some((strip.start, place));
                let ([near, _], [far, _]) = (strip.parent, strip.child);
                add(nodes, straight(near))?;
                add(nodes, straight(far))?;
                let Some(fold) = folds.get(place) else {
                    continue;
                };
                let (part, joined) = (usize::from(fold.child.part), usize::from(fold.child.side));
                let sides = count(part);
                let begin = Step {
                    part,
                    side: (joined + 1) % sides.max(1),
                    left: sides.saturating_sub(1),
                    passed: None,
                    strip: Some((strip, joined)),
                };
                stack.push(begin).map_err(|_| FULL)?;
            }
        }
    }
    close(nodes);
    match Ring::of(nodes).crossing() {
        None => Ok(()),
        Some(sides) => Err(UnfoldError::Crossing {
            sides: sides.map(|n| u32::try_from(n).unwrap_or(u32::MAX)),
        }),
    }
}

fn straight(point: Point) -> Node {
    Node::corner(point.x, point.y)
}

/// A corner of a part in the flat.
fn placed(parts: &[&[Node]], placings: &[Placing], part: usize, node: usize) -> Option<Node> {
    let placing = placings.get(part)?;
    Some(placing.node(*parts.get(part)?.get(node)?))
}

/// The next strip on the side that the walk is on: of those not passed yet, the one that starts furthest
/// from the side's end, and of two such the earlier.
fn next_strip(
    parts: &[&[Node]],
    folds: &[FoldLink],
    placings: &[Placing],
    step: &Step,
) -> Option<(usize, Strip)> {
    let on_side = |fold: &FoldLink| {
        usize::from(fold.parent.part) == step.part && usize::from(fold.parent.side) == step.side
    };
    let ahead = |start: f64, place: usize| match step.passed {
        None => true,
        #[expect(
            clippy::float_cmp,
            reason = "the same figure, computed twice from the same inputs"
        )]
        Some((passed, last)) => start < passed || (start == passed && place > last),
    };
    let mut found: Option<(usize, Strip)> = None;
    for (place, fold) in folds.iter().enumerate().filter(|(_, fold)| on_side(fold)) {
        let Some(strip) = strip(parts, fold, placings) else {
            continue;
        };
        let sooner = found.is_none_or(|(_, best)| strip.start > best.start);
        if sooner && ahead(strip.start, place) {
            found = Some((place, strip));
        }
    }
    found
}

/// Adds a corner, and drops the one before where it marks nothing: where it lies on this one or on the
/// straight way to it.
fn add(nodes: &mut Vec<Node, MOST_NODES>, node: Node) -> Result<(), UnfoldError> {
    while let [.., last] = nodes.as_slice() {
        let before = nodes.len().checked_sub(2).and_then(|n| nodes.get(n));
        if !marks_nothing(before, last, &node) {
            break;
        }
        nodes.pop();
    }
    nodes.push(node).map_err(|_| FULL)
}

/// Whether `node` may be left out between its neighbours.
fn marks_nothing(before: Option<&Node>, node: &Node, after: &Node) -> bool {
    if node.bulge != 0.0 {
        return false;
    }
    if node.point().touches(after.point()) {
        return true;
    }
    let Some(before) = before.filter(|before| before.bulge == 0.0) else {
        return false;
    };
    let (back, whole) = (
        before.point().to(node.point()),
        before.point().to(after.point()),
    );
    let ahead = node.point().to(after.point());
    back.dot(ahead) > 0.0 && libm::fabs(whole.cross(back)) <= ON_LINE * whole.length()
}

/// Drops what marks nothing where the walk's end meets its start.
fn close(nodes: &mut Vec<Node, MOST_NODES>) {
    while let [first, second, .., before, last] = nodes.as_slice() {
        if marks_nothing(Some(before), last, first) {
            nodes.pop();
        } else if marks_nothing(Some(last), first, second) {
            // Moved by hand: the library's own removal can panic.
            let mut next = *last;
            for node in nodes.iter_mut().rev() {
                core::mem::swap(node, &mut next);
            }
            nodes.pop();
        } else {
            return;
        }
    }
}
