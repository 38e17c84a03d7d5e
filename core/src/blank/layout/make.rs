//! Making a blank: parts, folds, and the whole of them laid flat.

use core::f64::consts::PI;

use heapless::Vec;

use super::super::bend::{Bend, MOST_SETBACK_TURN, relief};
use super::super::edge::{bend_at, fit_at, is_towards};
use super::super::error::{BlankError, NAMED_FOLDS};
use super::super::panel::{Axes, Groups, Making, Panel};
use super::super::plan::PanelPlan;
use super::super::unfold::{FoldLink, PartSide, UnfoldError, unfold};
use super::arena::{Arena, Entry};
use super::part::{Half, Part, PartSide as Side, part};
use super::{BendMark, Bent, Blank, MAX_PARTS, Piece, ReliefHole, Round};
use crate::body::{Edge, FaceView, FlatForm, Path, Solid};
use crate::geom::Vector;
use crate::geom::outline::{Node, Point, area_about_origin};
use crate::input::Face;
use crate::units::{Angle, Length};

/// The halves in which a face enters a blank.
pub(super) fn halves(groups: &Groups, place: u8) -> &'static [Half] {
    match groups.parted() {
        Some(parted) if parted.is(place) => &[Half::Second, Half::First],
        _ => &[Half::Whole],
    }
}

/// The area of a panel's blank, in m², without laying it out.
pub(in crate::blank) fn area(
    plan: &PanelPlan<'_>,
    groups: &Groups,
    panel: &Panel,
) -> Result<f64, BlankError> {
    let face = panel.face();
    match panel.making {
        Making::Rolled => return shell(plan).map(|[length, round, ..]| length * round),
        Making::Dished => {
            // Half way between its two surfaces, as good as the middle of a thin sheet.
            let of = |solid: &Solid| solid.face(face).map_or(0.0, |f| f.area().si());
            return Ok(0.5 * (of(&plan.body.outside) + of(&plan.body.inside)));
        }
        Making::Flat | Making::Bent => {}
    }
    if let Some(radius) = disc(plan, face)? {
        return Ok(PI * radius * radius);
    }
    let mut made = Part::default();
    let mut sum = 0.0;
    for (view, place) in plan.body.outside.faces().zip(0_u8..) {
        if groups.panel_of(usize::from(place)) != Some(u8_of(panel)) {
            continue;
        }
        for half in halves(groups, place) {
            part(plan, &view, &Axes::of_face(&view), *half, &mut made)?;
            sum += area_about_origin(&made.nodes);
            for side in &made.sides {
                if let (Some(other), Some([a, b])) = (side.fold, made.run(side)) {
                    // The strip of a bend belongs half to each of its two sides.
                    let width = bent(plan, [view.face(), other])?.0.allowance().si();
                    sum += 0.5 * width * libm::hypot(b[0] - a[0], b[1] - a[1]);
                }
            }
        }
    }
    Ok(sum)
}

pub(super) fn u8_of(panel: &Panel) -> u8 {
    panel.mark.place()
}

/// The bend between two faces, and whether it turns towards someone who looks at the outside.
fn bent(plan: &PanelPlan<'_>, faces: [Face; 2]) -> Result<(Bend, bool), BlankError> {
    let [face, _] = faces;
    let edge = plan
        .body
        .outside
        .sharp_edge_between(faces)
        .ok_or(BlankError::Narrow { face })?;
    Ok((bend_at(plan, &edge)?, is_towards(&edge)))
}

/// The radius of a flat end's blank; `None` for all else.
fn disc(plan: &PanelPlan<'_>, face: Face) -> Result<Option<f64>, BlankError> {
    let Some(edge) = plan
        .body
        .outside
        .edge_between([face, Face::Shell])
        .filter(|_| face != Face::Shell)
    else {
        return Ok(None);
    };
    let Path::Round(turn) = edge.path else {
        return Ok(None);
    };
    let fit = fit_at(plan, face, &edge)?;
    Ok(Some(turn.radius - fit.deduct.si()))
}

/// How far each side of a drum's wall falls short where it is closed on itself.
fn closing_gap(plan: &PanelPlan<'_>) -> f64 {
    0.5 * plan.joints.allow().gap.si() - plan.larger_at([Face::Shell; 2])
}

/// Length and girth of a drum's wall laid flat, where it starts along the axis, and the share that the
/// neutral line has of the outside's girth. In metres.
fn shell(plan: &PanelPlan<'_>) -> Result<[f64; 4], BlankError> {
    let outside = &plan.body.outside;
    let gap = closing_gap(plan);
    let mut length = 0.0;
    let mut radius = 0.0;
    let mut deduct = [0.0; 2];
    for edge in outside.edges() {
        match edge.path {
            Path::Round(turn) => {
                radius = turn.radius;
                let fit = fit_at(plan, Face::Shell, &edge)?;
                let far = matches!(edge.faces[0], Face::Top | Face::Right);
                if let Some(slot) = deduct.get_mut(usize::from(far)) {
                    *slot = fit.deduct.si();
                }
            }
            _ => length = edge.length().si(),
        }
    }
    let neutral = radius - 0.5 * plan.sheet.of(Face::Shell).si();
    let round = 2.0 * PI * neutral - 2.0 * gap;
    let [near, far] = deduct;
    Ok([length - near - far, round, near, neutral / radius])
}

impl PanelPlan<'_> {
    /// The blank of a panel, laid flat as it is seen from outside, written to `blank`. A dished end has
    /// none: it is bought, or spun.
    ///
    /// # Errors
    /// [`BlankError`] names the edges at fault; `blank` is then of no use.
    #[inline(never)]
    pub fn blank(&self, panel: &Panel, blank: &mut Blank) -> Result<(), BlankError> {
        if self.simple(panel, blank)? {
            return Ok(());
        }
        self.unfolded(panel, blank)
    }

    /// The blank of a panel that is no unfolded body of plane parts: of a dished end, a rolled wall, a disc.
    /// Whether it was one.
    pub(super) fn simple<const F: usize>(
        &self,
        panel: &Panel,
        blank: &mut Blank<F>,
    ) -> Result<bool, BlankError> {
        blank.clear();
        match panel.making {
            Making::Dished => return Ok(true),
            Making::Rolled => {
                let [length, round, start, scale] = shell(self)?;
                let nodes = [
                    Node::corner(0.0, 0.0),
                    Node::corner(length, 0.0),
                    Node::corner(length, round),
                    Node::corner(0.0, round),
                ];
                blank.round = Some(Round {
                    start,
                    scale,
                    gap: closing_gap(self),
                });
                return blank.lay(&[&nodes], &[], Face::Shell).map(|()| true);
            }
            Making::Flat | Making::Bent => {}
        }
        let face = panel.face();
        if let Some(radius) = disc(self, face)? {
            let nodes = [
                Node::new(0.0, radius, 1.0),
                Node::new(2.0 * radius, radius, 1.0),
            ];
            if let Some(view) = self.body.outside.face(face) {
                blank.axes = Some(disc_axes(self, &view, radius));
                let _ = blank.pieces.push(Piece {
                    face,
                    half: Half::Whole,
                });
            }
            return blank.lay(&[&nodes], &[], face).map(|()| true);
        }
        Ok(false)
    }

    fn unfolded(&self, panel: &Panel, blank: &mut Blank) -> Result<(), BlankError> {
        let groups = self.groups();
        let mut arena = Arena::default();
        let mut links: Vec<FoldLink, MAX_PARTS> = Vec::new();
        self.gather(panel, &groups, &mut arena, blank)?;
        self.link(&arena, blank, &mut links)?;
        let mut parts: Vec<&[Node], MAX_PARTS> = Vec::new();
        for entry in &arena.parts {
            let nodes = arena.nodes_of(entry);
            if nodes.len() < 3 {
                if arena.parts.len() == 1 {
                    // The sheets around it take the whole face; a notice says so.
                    return Ok(());
                }
                return Err(BlankError::Narrow { face: entry.face });
            }
            parts
                .push(nodes)
                .map_err(|_| BlankError::TooComplex { face: entry.face })?;
        }
        blank.lay(&parts, &links, panel.face())?;
        for entry in arena.parts.iter().zip(0_usize..) {
            self.finish_part(&arena, entry, blank);
        }
        Ok(())
    }

    /// Makes the parts of a panel.
    #[inline(never)]
    fn gather(
        &self,
        panel: &Panel,
        groups: &Groups,
        arena: &mut Arena,
        blank: &mut Blank,
    ) -> Result<(), BlankError> {
        let mut made = Part::default();
        for (view, place) in self.body.outside.faces().zip(0_u8..) {
            if groups.panel_of(usize::from(place)) != Some(u8_of(panel)) {
                continue;
            }
            let face = view.face();
            let full = BlankError::TooComplex { face };
            let axes = Axes::of_face(&view);
            for half in halves(groups, place) {
                part(self, &view, &axes, *half, &mut made)?;
                arena.add(face, &made).ok_or(full)?;
                blank
                    .pieces
                    .push(Piece { face, half: *half })
                    .map_err(|_| full)?;
            }
        }
        Ok(())
    }

    /// Joins the parts by their folds, outward from the one with the most.
    pub(super) fn link<const N: usize, const F: usize>(
        &self,
        arena: &Arena<N>,
        blank: &mut Blank<F>,
        links: &mut Vec<FoldLink, MAX_PARTS>,
    ) -> Result<(), BlankError> {
        let mut placed = [false; MAX_PARTS];
        let mut queue: Vec<u8, MAX_PARTS> = Vec::new();
        let folds_of = |entry: &Entry| {
            arena
                .sides_of(entry)
                .iter()
                .filter(|side| side.fold.is_some())
                .count()
        };
        let mut root = 0;
        let mut most = 0;
        for (entry, place) in arena.parts.iter().zip(0_u8..) {
            if folds_of(entry) > most {
                most = folds_of(entry);
                root = place;
            }
        }
        if let Some(slot) = placed.get_mut(usize::from(root)) {
            *slot = true;
        }
        let _ = queue.push(root);
        let mut at = 0;
        while let Some(parent) = queue.get(at).copied() {
            at += 1;
            let Some(entry) = arena.parts.get(usize::from(parent)) else {
                continue;
            };
            for side in arena.sides_of(entry) {
                let Some(other) = side.fold else { continue };
                let faces = [entry.face, other];
                // The strip back to the part that this one hangs on.
                let back = links
                    .iter()
                    .any(|link| link.child.part == parent && link.child.side == side.node);
                if back {
                    continue;
                }
                let Some((child, child_side)) = arena.across(parent, side) else {
                    return Err(BlankError::Narrow { face: other });
                };
                if placed.get(usize::from(child)).copied().unwrap_or(true) {
                    return Err(BlankError::Ring { faces });
                }
                let (bend, towards) = bent(self, faces)?;
                if !(bend.turn() < MOST_SETBACK_TURN) {
                    return Err(BlankError::Sharp {
                        faces,
                        turn: bend.turn(),
                        most: MOST_SETBACK_TURN,
                    });
                }
                if let Some(slot) = placed.get_mut(usize::from(child)) {
                    *slot = true;
                }
                let _ = queue.push(child);
                let link = FoldLink {
                    parent: PartSide {
                        part: parent,
                        side: side.node,
                    },
                    child: PartSide {
                        part: child,
                        side: child_side.node,
                    },
                    along: self
                        .along(arena, [(parent, side), (child, child_side)])
                        .unwrap_or(0.0),
                    width: bend.allowance().si(),
                    turn: bend.turn(),
                };
                links
                    .push(link)
                    .map_err(|_| BlankError::TooComplex { face: entry.face })?;
                let _ = blank.bent.push(Bent {
                    faces,
                    towards,
                    radius: bend.inside_radius(),
                    allowance: bend.allowance(),
                });
            }
        }
        Ok(())
    }

    /// How far back from the end of the parent's side the child's side starts, along their edge.
    fn along<const N: usize>(&self, arena: &Arena<N>, sides: [(u8, &Side); 2]) -> Option<f64> {
        let lifted = |(place, side): (u8, &Side)| {
            let entry = arena.parts.get(usize::from(place))?;
            let axes = Axes::of_face(&self.body.outside.face(entry.face)?);
            let [a, b] = arena.run(entry, side)?;
            Some([axes.lift(a), axes.lift(b)])
        };
        let [parent, child] = sides;
        let ([start, end], [child_start, _]) = (lifted(parent)?, lifted(child)?);
        let direction = (end - start).unit()?;
        Some(direction.dot(end - child_start))
    }

    /// Flange lines and reliefs of one part, once it lies where it is to lie.
    pub(super) fn finish_part<const N: usize, const F: usize>(
        &self,
        arena: &Arena<N>,
        (entry, place): (&Entry, usize),
        blank: &mut Blank<F>,
    ) {
        let Some(placing) = blank.flat.placings().get(place).copied() else {
            return;
        };
        let allow = self.joints.allow();
        let sides = arena.sides_of(entry);
        for side in sides {
            if !(side.flange.si() > 0.0) {
                continue;
            }
            let Some([a, b]) = arena.run(entry, side) else {
                continue;
            };
            let run = [b[0] - a[0], b[1] - a[1]];
            let length = libm::hypot(run[0], run[1]);
            if !(length > 0.0) {
                continue;
            }
            let inward = [-run[1] / length, run[0] / length];
            let ends = [a, b].map(|[x, y]| {
                let by = side.flange.si();
                let moved = Point::new(x + inward[0] * by, y + inward[1] * by);
                blank.down(placing.point(moved))
            });
            let mark = BendMark {
                ends,
                faces: [entry.face, entry.face],
                turn: Angle::from_radians(0.5 * PI),
                towards: false,
                radius: allow.bend_radius,
                allowance: Length::default(),
            };
            let _ = blank.flanges.push(mark);
        }
        // Two bends side by side on one part meet at the corner between them.
        let count = sides.len();
        for (side, at) in sides.iter().zip(0_usize..) {
            let before = sides.get((at + count.max(1) - 1) % count.max(1));
            let (Some(before), Some(fold)) = (before.and_then(|side| side.fold), side.fold) else {
                continue;
            };
            let Some([corner, _]) = arena.run(entry, side) else {
                continue;
            };
            if arena.parts.len() < 3 {
                continue;
            }
            let wider = |other: Face| {
                let bend = bent(self, [entry.face, other]).ok()?.0;
                Some(relief(&bend).width)
            };
            let (Some(a), Some(b)) = (wider(before), wider(fold)) else {
                continue;
            };
            let relief = ReliefHole {
                at: blank.down(placing.point(Point::new(corner[0], corner[1]))),
                diameter: if a > b { a } else { b },
            };
            let _ = blank.reliefs.push(relief);
        }
    }
}

/// Axes in which a flat end's blank starts at its lower left.
fn disc_axes(plan: &PanelPlan<'_>, view: &FaceView<'_>, radius: f64) -> Axes {
    let mut axes = Axes::of(view.normal(), core::iter::once(Vector::ZERO));
    let centre = plan
        .body
        .outside
        .edge_between([view.face(), Face::Shell])
        .map_or(Vector::ZERO, |edge: Edge| match edge.path {
            Path::Round(turn) => turn.centre,
            _ => Vector::ZERO,
        });
    axes.origin = centre - axes.right * radius - axes.up * radius;
    axes
}

impl<const FLANGES: usize> Blank<FLANGES> {
    /// Lays out a baffle: its plate as it stands.
    #[inline(never)]
    pub(crate) fn lay_plate(&mut self, number: u8, plate: &FlatForm) -> Result<(), BlankError> {
        self.clear();
        let face = Face::Baffle(number);
        let full = BlankError::TooComplex { face };
        let mut nodes: Vec<Node, { 2 * MAX_PARTS }> = Vec::new();
        let mut push = |node: Node| nodes.push(node).map_err(|_| full);
        match plate {
            FlatForm::Corners(corners) => {
                for [x, y] in corners {
                    push(Node::corner(*x, *y))?;
                }
            }
            FlatForm::Outline(section) => {
                for place in 0..section.len() {
                    match section.arc(place) {
                        Some(arc) => {
                            let [[x, y], [to_x, to_y]] = arc.ends();
                            let turn = if arc.left { arc.sweep } else { -arc.sweep };
                            push(Node::new(x, y, libm::tan(0.25 * turn)))?;
                            // Where nothing is left of the side after it, the next corner starts there.
                            if section.straight_length(place) > 1e-9 {
                                push(Node::corner(to_x, to_y))?;
                            }
                        }
                        None => {
                            let [x, y] = section.at(place);
                            push(Node::corner(x, y))?;
                        }
                    }
                }
            }
            FlatForm::Disc {
                centre: [x, y],
                radius,
            } => {
                push(Node::new(x - radius, *y, 1.0))?;
                push(Node::new(x + radius, *y, 1.0))?;
            }
        }
        self.axes = Some(Axes {
            origin: Vector::ZERO,
            right: Vector::new(1.0, 0.0, 0.0),
            up: Vector::new(0.0, 1.0, 0.0),
        });
        let _ = self.pieces.push(Piece {
            face,
            half: Half::Whole,
        });
        self.lay(&[&nodes], &[], face)
    }

    pub(super) fn lay(
        &mut self,
        parts: &[&[Node]],
        links: &[FoldLink],
        face: Face,
    ) -> Result<(), BlankError> {
        unfold(parts, links, &mut self.flat).map_err(|error| self.blame(&error, links, face))?;
        if let Some(extents) = self.flat.outline().extents() {
            self.low = [extents.least.x, extents.least.y];
            self.size = [extents.width(), extents.height()];
        }
        Ok(())
    }

    /// Says in faces what went wrong among parts.
    fn blame(&self, error: &UnfoldError, links: &[FoldLink], face: Face) -> BlankError {
        let face_of = |part: u8| self.pieces.get(usize::from(part)).map_or(face, |p| p.face);
        let edge_of = |fold: u8| {
            let link = links.get(usize::from(fold))?;
            Some([face_of(link.parent.part), face_of(link.child.part)])
        };
        match error {
            UnfoldError::Overlap { parts, folds } => {
                let mut named = [None; NAMED_FOLDS];
                for (slot, fold) in named.iter_mut().zip(folds) {
                    *slot = edge_of(*fold);
                }
                BlankError::Overlap {
                    faces: parts.map(face_of),
                    folds: named,
                    count: u8::try_from(folds.len()).unwrap_or(u8::MAX),
                }
            }
            UnfoldError::Part { part, .. } => BlankError::Narrow {
                face: face_of(*part),
            },
            UnfoldError::Link { fold, .. }
            | UnfoldError::Apart { fold }
            | UnfoldError::NoSuchSide { fold, .. }
            | UnfoldError::NotStraight { fold, .. }
            | UnfoldError::SideTaken { fold, .. } => {
                let [face, _] = edge_of(*fold).unwrap_or([face, face]);
                BlankError::Narrow { face }
            }
            UnfoldError::NoPart
            | UnfoldError::TooManyParts { .. }
            | UnfoldError::TooManyNodes { .. }
            | UnfoldError::NotATree { .. }
            | UnfoldError::Crossing { .. } => BlankError::TooComplex { face },
        }
    }
}
