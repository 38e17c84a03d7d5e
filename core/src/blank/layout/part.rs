//! The flat piece of one face: its outline, each side moved to where its joint or its bend leaves it.

use heapless::Vec;

use super::super::edge::{Taken, taken_at};
use super::super::error::BlankError;
use super::super::panel::Axes;
use super::super::plan::PanelPlan;
use crate::body::{Edge, FaceView};
use crate::geom::outline::{Node, cross, dot};
use crate::input::Face;
use crate::units::Length;

/// Corners that a face may have.
pub(super) const MAX_SIDES: usize = 16;
/// Nodes of its outline: a rounded corner has two.
pub(super) const MAX_NODES: usize = 2 * MAX_SIDES;

/// Which part of a face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Half {
    /// All of it.
    Whole,
    /// The first half of a side that is parted in its middle, from its first corner.
    First,
    /// The second half, from the middle to its second corner.
    Second,
}

/// One straight side of a part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct PartSide {
    /// The node at which it starts; it ends at the next.
    pub(super) node: u8,
    /// The face beyond the bend there, if there is one. What else there is to know of the bend is worked
    /// out anew where it is wanted: a small machine's stack holds many sides.
    pub(super) fold: Option<Face>,
    /// How far a flange's bend line lies in from it.
    pub(super) flange: Length,
}

/// The flat piece of one face, in the face's own axes.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Part<const N: usize = MAX_NODES> {
    pub(super) nodes: Vec<Node, N>,
    pub(super) sides: Vec<PartSide, MAX_SIDES>,
}

/// A side under construction: the line that it lies on.
#[derive(Clone, Copy)]
pub(super) struct Line {
    pub(super) at: [f64; 2],
    pub(super) along: [f64; 2],
    pub(super) deduct: f64,
    pub(super) fold: Option<Face>,
    pub(super) flange: Length,
    /// Radius of the corner at its start, on the outside; zero where it is sharp.
    pub(super) radius: f64,
    /// The face beyond it; its own where a wrapper is closed on itself.
    pub(super) other: Face,
}

/// Where two lines meet; on the second one's own point where they run side by side.
pub(super) fn meet(a: &Line, b: &Line) -> [f64; 2] {
    // Less than this and two directions are one: a metre further on they are a nanometre apart.
    const PARALLEL: f64 = 1e-9;
    let sine = cross(a.along, b.along);
    if libm::fabs(sine) < PARALLEL {
        return b.at;
    }
    let from = [b.at[0] - a.at[0], b.at[1] - a.at[1]];
    let run = cross(from, b.along) / sine;
    [a.at[0] + a.along[0] * run, a.at[1] + a.along[1] * run]
}

/// The flat piece of a face, or of a half of it.
#[inline(never)]
pub(super) fn part(
    plan: &PanelPlan<'_>,
    view: &FaceView<'_>,
    axes: &Axes,
    half: Half,
    part: &mut Part,
) -> Result<(), BlankError> {
    part.nodes.clear();
    part.sides.clear();
    let full = BlankError::TooComplex { face: view.face() };
    let mut lines: Vec<Line, MAX_SIDES> = Vec::new();
    lines_of(plan, view, axes, half, taken_at, &mut lines)?;
    drop_vanished(&mut lines);
    if lines.len() < 3 {
        return Ok(());
    }
    let count = lines.len().max(1);
    for at in 0..count {
        let (Some(here), Some(last)) = (lines.get(at), lines.get((at + count - 1) % count)) else {
            continue;
        };
        for node in corner(last, here).into_iter().flatten() {
            part.nodes.push(node).map_err(|_| full)?;
        }
        let node = u8::try_from(part.nodes.len() - 1).map_err(|_| full)?;
        part.sides
            .push(PartSide {
                node,
                fold: here.fold,
                flange: here.flange,
            })
            .map_err(|_| full)?;
    }
    Ok(())
}

/// The corner between two lines: one node, or the two of the arc that rounds it.
pub(super) fn corner(last: &Line, here: &Line) -> [Option<Node>; 2] {
    let corner = meet(last, here);
    let turn = libm::atan2(cross(last.along, here.along), dot(last.along, here.along));
    let inset = 0.5 * (last.deduct + here.deduct);
    let radius = if turn > 0.0 {
        here.radius - inset
    } else {
        here.radius + inset
    };
    // A bend of this part's own runs on past a round corner: there it ends at its relief.
    let bends = here.fold.is_some() || last.fold.is_some();
    if here.radius > 0.0 && radius > 0.0 && !bends {
        let reach = radius * libm::fabs(libm::tan(0.5 * turn));
        let start = Node::new(
            corner[0] - last.along[0] * reach,
            corner[1] - last.along[1] * reach,
            libm::tan(0.25 * turn),
        );
        let end = Node::corner(
            corner[0] + here.along[0] * reach,
            corner[1] + here.along[1] * reach,
        );
        [Some(start), Some(end)]
    } else {
        [Some(Node::corner(corner[0], corner[1])), None]
    }
}

/// The lines on which the sides of a face, or of a half of it, lie, each where `taken` leaves it.
pub(super) fn lines_of(
    plan: &PanelPlan<'_>,
    view: &FaceView<'_>,
    axes: &Axes,
    half: Half,
    taken: impl Fn(&PanelPlan<'_>, Face, &Edge) -> Result<Taken, BlankError>,
    lines: &mut Vec<Line, MAX_SIDES>,
) -> Result<(), BlankError> {
    let full = BlankError::TooComplex { face: view.face() };
    let next_points = view.outline().skip(1).chain(view.outline().take(1));
    let mut before: Option<Face> = last_neighbour(view);
    for ((point, edge), next) in view.sharp_sides().zip(next_points) {
        let Some(edge) = edge else { continue };
        let (here, next) = (axes.flat(point), axes.flat(next));
        let run = [next[0] - here[0], next[1] - here[1]];
        let length = libm::sqrt(dot(run, run));
        if !(length > 0.0) {
            continue;
        }
        let along = [run[0] / length, run[1] / length];
        let taken = taken(plan, view.face(), &edge)?;
        let other = other_of(&edge, view.face());
        let radius = match before {
            Some(before) => plan
                .body
                .outside
                .sharp_edge_between([before, other])
                .map_or(0.0, |corner| corner.radius.si()),
            None => 0.0,
        };
        before = Some(other);
        // Inward is to the left of an outline that runs counter-clockwise.
        let at = [
            here[0] - along[1] * taken.deduct,
            here[1] + along[0] * taken.deduct,
        ];
        lines
            .push(Line {
                at,
                along,
                deduct: taken.deduct,
                fold: taken.beyond,
                flange: taken.flange,
                radius,
                other,
            })
            .map_err(|_| full)?;
    }
    if half != Half::Whole {
        cut_in_half(plan, view.face(), lines, half);
    }
    Ok(())
}

fn other_of(edge: &Edge, face: Face) -> Face {
    let [first, second] = edge.faces;
    if first == face { second } else { first }
}

fn last_neighbour(view: &FaceView<'_>) -> Option<Face> {
    let last = view.sharp_sides().last()?;
    Some(other_of(&last.1?, view.face()))
}

/// Leaves one half of a wrapper's side: its first and third sides are those along the tank's corners.
fn cut_in_half(plan: &PanelPlan<'_>, face: Face, lines: &mut Vec<Line, MAX_SIDES>, half: Half) {
    let (Some(first), Some(third)) = (lines.first().copied(), lines.get(2).copied()) else {
        return;
    };
    // From the first line inward to the third, square to both.
    let inward = [-first.along[1], first.along[0]];
    let apart = dot(
        [third.at[0] - first.at[0], third.at[1] - first.at[1]],
        inward,
    );
    let gap = 0.5 * plan.joints.allow().gap.si() - plan.larger_at([face; 2]);
    let (kept, place) = match half {
        Half::First => (2, 0.5 * apart - gap),
        Half::Second | Half::Whole => (0, 0.5 * apart + gap),
    };
    let along = match half {
        Half::First => third.along,
        Half::Second | Half::Whole => first.along,
    };
    if let Some(line) = lines.get_mut(kept) {
        *line = Line {
            at: [
                first.at[0] + inward[0] * place,
                first.at[1] + inward[1] * place,
            ],
            along,
            deduct: 0.0,
            fold: None,
            flange: Length::default(),
            radius: 0.0,
            other: face,
        };
    }
}

/// Takes out the sides that moving in has left no length, one after the other.
pub(super) fn drop_vanished(lines: &mut Vec<Line, MAX_SIDES>) {
    loop {
        let count = lines.len().max(1);
        if count < 3 {
            return;
        }
        let mut worst = None;
        let mut least = 0.0;
        for at in 0..count {
            let (Some(last), Some(here), Some(next)) = (
                lines.get((at + count - 1) % count),
                lines.get(at),
                lines.get((at + 1) % count),
            ) else {
                continue;
            };
            let (start, end) = (meet(last, here), meet(here, next));
            let run = dot([end[0] - start[0], end[1] - start[1]], here.along);
            if run < least {
                least = run;
                worst = Some(at);
            }
        }
        match worst {
            Some(at) => {
                let mut place = 0;
                lines.retain(|_| {
                    place += 1;
                    place != at + 1
                });
            }
            None => return,
        }
    }
}

impl<const N: usize> Part<N> {
    /// The straight run of a side: its start and its end.
    pub(super) fn run(&self, side: &PartSide) -> Option<[[f64; 2]; 2]> {
        let start = usize::from(side.node);
        let next = (start + 1) % self.nodes.len().max(1);
        let (a, b) = (self.nodes.get(start)?, self.nodes.get(next)?);
        Some([[a.x, a.y], [b.x, b.y]])
    }
}
