//! Flanges of a flanged lap as they are cut: in the flat each stops where, folded, it would run into what
//! stands at its two ends.
//!
//! Common practice, no source, is followed in this: a flange is straight, for it is bent in a brake. Past
//! a rounded corner it does not go: it ends in a slit beside the corner, and the edge of the plate goes
//! plainly round it, up to the inner face of the wrapper, to be welded there. Between two flanges of one
//! plate a square notch is cut down to where their bends begin, and the opening that is left is filled by
//! the weld. Where two flanges come to lie on one wall, they are mitred; where one comes to a wall without a
//! flange, it stops at its inner face.

use heapless::Vec;

use super::super::edge::{Tab, Taken, tab_at, taken_at};
use super::super::error::BlankError;
use super::super::joint::Meeting;
use super::super::panel::Axes;
use super::super::plan::PanelPlan;
use super::part::{Half, Line, MAX_SIDES, Part, PartSide, corner, drop_vanished, lines_of, meet};
use super::rim::{Corner, Flanged, MOST_NODES, SAME, SLIT, Tip, emit, moved, point};
use crate::body::{Edge, FaceView};
use crate::geom::Vector;
use crate::geom::outline::{Node, cross, dot};
use crate::input::Face;
use crate::units::Length;

/// A bend that takes at least so many slits of sheet has its edge carried on between two flanges; a
/// tighter one is notched.
const TONGUE: f64 = 4.0;
/// A flange keeps so far off what stands at its ends, in metres, that it goes in: common practice, no source.
const PLAY: f64 = 0.000_5;
/// A flange in the axes of its part.
#[derive(Clone, Copy, Debug)]
pub(super) struct Flange {
    /// The ends of the middle of its bend.
    pub(super) ends: [[f64; 2]; 2],
    /// Its bend and its sizes.
    pub(super) tab: Tab,
    /// The wall on which it lies.
    pub(super) wall: Face,
}

/// Why a part has no flanges.
#[derive(Clone, Copy, Debug)]
pub(super) enum Fault {
    /// For a reason that has nothing to do with them.
    Blank(BlankError),
    /// The flange at this edge is longer than what is there for it.
    Long([Face; 2]),
}

impl From<BlankError> for Fault {
    fn from(error: BlankError) -> Self {
        Self::Blank(error)
    }
}

/// A corner between two sides: how it is cut, its plain nodes, where the plain edges end there, and how far from
/// there their flanges stop.
type Met = (Corner, [Option<Node>; 2], [[f64; 2]; 2], [Tip; 2]);

/// A face with what its sides follow from.
struct Plate<'a> {
    plan: &'a PanelPlan<'a>,
    face: Face,
    normal: Vector,
    axes: &'a Axes,
}

/// What an edge takes, a flange thought away: the plate then ends where its flange's outer face lies.
fn plain(plan: &PanelPlan<'_>, face: Face, edge: &Edge) -> Result<Taken, BlankError> {
    let taken = taken_at(plan, face, edge)?;
    Ok(match tab_at(plan, face, edge)? {
        Some(tab) if taken.beyond.is_none() => Taken {
            deduct: tab.short,
            beyond: None,
            flange: Length::default(),
        },
        _ => taken,
    })
}

/// How far the outline turns to the left between two sides, in radians.
fn turn(last: &Flanged, here: &Flanged) -> f64 {
    let (a, b) = (last.line.along, here.line.along);
    libm::atan2(cross(a, b), dot(a, b))
}

/// Whether there is a flange at any side of a face.
pub(in crate::blank) fn has_flange(plan: &PanelPlan<'_>, view: &FaceView<'_>) -> bool {
    view.sharp_sides().any(|(_, edge)| {
        edge.is_some_and(|edge| {
            plan.joints.at(&edge) != Meeting::Folded
                && matches!(tab_at(plan, view.face(), &edge), Ok(Some(_)))
        })
    })
}

/// [`part`](super::part::part) with its flanges cut to fit, their bends written to `flanges`.
pub(super) fn flanged<const F: usize>(
    plan: &PanelPlan<'_>,
    view: &FaceView<'_>,
    axes: &Axes,
    half: Half,
    part: &mut Part<MOST_NODES>,
    flanges: &mut Vec<Flange, F>,
) -> Result<(), Fault> {
    part.nodes.clear();
    part.sides.clear();
    let full = BlankError::TooComplex { face: view.face() };
    let mut lines: Vec<Line, MAX_SIDES> = Vec::new();
    lines_of(plan, view, axes, half, plain, &mut lines)?;
    drop_vanished(&mut lines);
    if lines.len() < 3 {
        return Ok(());
    }
    let on = Plate {
        plan,
        face: view.face(),
        normal: view.normal(),
        axes,
    };
    let mut sides: Vec<Flanged, MAX_SIDES> = Vec::new();
    for line in &lines {
        let tab = match plan.body.outside.sharp_edge_between([on.face, line.other]) {
            Some(edge) if line.fold.is_none() && line.other != on.face => {
                tab_at(plan, on.face, &edge)?
            }
            _ => None,
        };
        let side = Flanged {
            line: *line,
            tab,
            run: [line.at; 2],
            tips: [Tip::default(); 2],
        };
        sides.push(side).map_err(|_| full)?;
    }
    let mut corners: Vec<(Corner, [Option<Node>; 2]), MAX_SIDES> = Vec::new();
    let count = sides.len();
    for at in 0..count {
        let before = (at + count - 1) % count;
        let (Some(last), Some(here)) = (sides.get(before).copied(), sides.get(at).copied()) else {
            continue;
        };
        let (kind, nodes, ends, tips) = on.corner(&last, &here);
        if let Some(side) = sides.get_mut(before) {
            side.run[1] = ends[0];
            side.tips[1] = tips[0];
        }
        if let Some(side) = sides.get_mut(at) {
            side.run[0] = ends[1];
            side.tips[0] = tips[1];
        }
        corners.push((kind, nodes)).map_err(|_| full)?;
    }
    for side in &sides {
        on.fits(side)?;
    }
    for (at, (kind, nodes)) in corners.iter().enumerate() {
        let before = (at + count - 1) % count;
        let (Some(last), Some(here)) = (sides.get(before), sides.get(at)) else {
            continue;
        };
        let oblique = |side: &Flanged, that: &Flanged, way: f64| match (*kind, *nodes) {
            (Corner::Plain, [Some(node), None]) => {
                let base = [node.x, node.y];
                on.short(side, that, way, base).map(|by| {
                    let [x, y] = point(&side.line, base, way, by, 0.0);
                    Node::corner(x, y)
                })
            }
            _ => None,
        };
        if let Some(node) = oblique(last, here, -1.0) {
            part.nodes.push(node).map_err(|_| full)?;
        }
        emit(part, last, here, *kind, *nodes).ok_or(full)?;
        if let Some(node) = oblique(here, last, 1.0) {
            part.nodes.push(node).map_err(|_| full)?;
        }
        let node = u8::try_from(part.nodes.len().saturating_sub(1)).map_err(|_| full)?;
        let side = PartSide {
            node,
            fold: here.line.fold,
            flange: Length::default(),
        };
        part.sides.push(side).map_err(|_| full)?;
        if let Some(tab) = here.tab {
            let level = 0.5 * tab.bend.allowance().si() - tab.deep();
            let [start, end] = here.run;
            let [first, last] = here.tips;
            let flange = Flange {
                ends: [
                    point(&here.line, start, 1.0, first.bend, level),
                    point(&here.line, end, -1.0, last.bend, level),
                ],
                tab,
                wall: here.line.other,
            };
            flanges.push(flange).map_err(|_| full)?;
        }
    }
    Ok(())
}

impl Plate<'_> {
    /// How the corner between two sides is cut, its plain nodes, where the plain edges end there, and how
    /// far from there their flanges stop.
    fn corner(&self, last: &Flanged, here: &Flanged) -> Met {
        let nodes = self.rounded(&last.line, &here.line);
        let at = |node: Option<Node>| node.map(|node| [node.x, node.y]);
        let sharp = meet(&last.line, &here.line);
        let start = at(nodes[0]).unwrap_or(sharp);
        let end = at(nodes[1]).unwrap_or(start);
        let turn = turn(last, here);
        if turn < 0.0
            && let Some((step, tips)) = self.step(last, here, sharp)
        {
            return (Corner::Step(step), nodes, [sharp; 2], tips);
        }
        if last.tab.is_none() && here.tab.is_none() {
            return (Corner::Plain, nodes, [start, end], [Tip::default(); 2]);
        }
        let deep = |side: &Flanged| side.tab.map_or(0.0, |tab| tab.deep());
        let notch = meet(
            &moved(&last.line, deep(last)),
            &moved(&here.line, deep(here)),
        );
        // How far from the sharp corner the notch lies along each side.
        let off = |line: &Line, way: f64, from: [f64; 2]| {
            way * dot([notch[0] - from[0], notch[1] - from[1]], line.along)
        };
        let both = last.tab.is_some() && here.tab.is_some();
        let rounded = nodes[1].is_some();
        let arc = libm::hypot(start[0] - sharp[0], start[1] - sharp[1]);
        let clears = both
            && arc <= off(&last.line, -1.0, sharp) + SAME
            && arc <= off(&here.line, 1.0, sharp) + SAME;
        let wide = last.line.fold.is_some() || here.line.fold.is_some();
        let wide = wide && self.folded_wide(last, here);
        let slits = turn < 0.0 || (rounded && !clears) || wide;
        let [start, end] = if slits { [start, end] } else { [sharp; 2] };
        let tip = |side: &Flanged, other: &Flanged, way: f64, base: [f64; 2]| {
            let Some(tab) = side.tab else {
                return Tip::default();
            };
            let from = if slits {
                SLIT * tab.bend.thickness().si()
            } else {
                off(&side.line, way, base)
            };
            self.tip(side, &tab, other.line.other, [way, from, turn], base)
        };
        let tips = [tip(last, here, -1.0, start), tip(here, last, 1.0, end)];
        if slits {
            (Corner::Slits, nodes, [start, end], tips)
        } else {
            (Corner::Notch(notch), nodes, [start, end], tips)
        }
    }

    /// By how much the strip of a fold at `side` ends short of its corner with `that`, where the wall there leans
    /// over the bend: so far that all of the bend is clear of the wall's inner face.
    fn short(&self, side: &Flanged, that: &Flanged, way: f64, base: [f64; 2]) -> Option<f64> {
        let other = side.line.fold?;
        let outside = &self.plan.body.outside;
        let edge = outside.sharp_edge_between([self.face, other])?;
        let wall = outside.face(that.line.other)?;
        let sheet = self.plan.sheet.of(that.line.other).si();
        let lands = that.line.fold.is_none() && that.line.deduct > 0.9 * sheet;
        if !lands || edge.dihedral.si() > core::f64::consts::PI {
            return None;
        }
        let lift = |[a, b]: [f64; 2]| self.axes.right * a + self.axes.up * b;
        let [x, y] = side.line.along;
        let (along, outward) = (lift([way * x, way * y]), lift([y, -x]));
        let (sine, cosine) = libm::sincos(core::f64::consts::PI - edge.dihedral.si());
        let (up, through) = (
            outward * cosine - self.normal * sine,
            -(outward * sine) - self.normal * cosine,
        );
        let (s, t) = (self.plan.setback(&edge), self.plan.sheet.of(self.face).si());
        let mold = outward * s;
        let plane = wall.plane();
        let rate = -plane.normal.dot(along);
        if !(rate > SAME) {
            return None;
        }
        let corner = self.axes.lift(base);
        let points = [
            Vector::ZERO,
            -self.normal * t,
            mold,
            mold + up * s,
            mold + up * s + through * t,
        ];
        let by = points.iter().fold(0.0, |most, from| {
            libm::fmax(most, (sheet + plane.distance(corner + *from)) / rate)
        });
        (by > 1e-6).then_some(by)
    }

    /// The plain corner between two sides. Where it meets the bend of a fold, the plate stays within the inside
    /// of that bend, however obliquely it stands to it.
    fn rounded(&self, last: &Line, here: &Line) -> [Option<Node>; 2] {
        const TRIES: u8 = 60;
        let nodes = corner(last, here);
        let outside = &self.plan.body.outside;
        let edge = outside.sharp_edge_between([last.other, here.other]);
        let (Some(edge), [Some(_), Some(_)]) = (edge, nodes) else {
            return nodes;
        };
        let thick = |line: &Line| self.plan.sheet.of(line.other).si();
        let lands = [last, here]
            .iter()
            .all(|line| line.deduct > 0.25 * thick(line));
        if !lands || edge.dihedral.si() > core::f64::consts::PI {
            return nodes;
        }
        let (Some(one), Some(other)) = (outside.face(last.other), outside.face(here.other)) else {
            return nodes;
        };
        // The axis of the bend runs along the sharp edge, as deep below both faces as the bend's outside radius.
        let inward = -(one.normal() + other.normal());
        let deep = libm::fmax(-one.normal().dot(inward), SAME);
        let axis = edge.ends[0] + inward * (edge.radius.si() / deep);
        let Some(way) = (edge.ends[1] - edge.ends[0]).unit() else {
            return nodes;
        };
        // What is cut larger is drawn in again by its seam, and may reach so far into the bend until then.
        let larger = |line: &Line| self.plan.larger_at([self.face, line.other]);
        let inner = edge.radius.si() - libm::fmax(thick(last), thick(here))
            + libm::fmax(larger(last), larger(here));
        let own = self.plan.sheet.of(self.face).si();
        let clear = |[start, end]: [Option<Node>; 2]| {
            let (Some(start), Some(end)) = (start, end) else {
                return true;
            };
            // A few places of the arc, on both faces of the plate: off the chord by its bulge.
            (0..=8_u8).all(|n| {
                let (s, c) =
                    libm::sincos(4.0 * libm::atan(start.bulge) * (f64::from(n) / 8.0 - 0.5));
                let (whole, deepest) = libm::sincos(2.0 * libm::atan(start.bulge));
                let half = [0.5 * (end.x - start.x), 0.5 * (end.y - start.y)];
                let middle = [start.x + half[0], start.y + half[1]];
                let along = s / whole;
                let off = (c - deepest) / whole;
                let at = [
                    middle[0] + half[0] * along + half[1] * off,
                    middle[1] + half[1] * along - half[0] * off,
                ];
                let point = self.axes.lift(at);
                [point, point - self.normal * own].iter().all(|point| {
                    let from = *point - axis;
                    (from - way * way.dot(from)).length() < inner + SAME
                })
            })
        };
        let mut found = nodes;
        for n in 1..=TRIES {
            if clear(found) {
                break;
            }
            let wider = Line {
                radius: here.radius * (1.0 + 0.02 * f64::from(n)),
                ..*here
            };
            found = corner(last, &wider);
        }
        found
    }

    /// The step that a plate has at an inside corner where one of the two walls on which it lands runs on past
    /// the corner, into the tank: round that wall's end.
    fn step(
        &self,
        last: &Flanged,
        here: &Flanged,
        sharp: [f64; 2],
    ) -> Option<([[f64; 2]; 3], [Tip; 2])> {
        let (plan, outside) = (self.plan, &self.plan.body.outside);
        let walls = [last.line.other, here.line.other];
        let edge = outside.sharp_edge_between(walls)?;
        if plan.joints.at(&edge) == Meeting::Folded {
            return None;
        }
        let gap = plan.joints.allow().gap.si();
        // How far a wall runs on past its sharp outside edge, where the plate lands on that wall.
        let past = |side: &Flanged, other: &Flanged| {
            let wall = side.line.other;
            let taken = plain(plan, wall, &edge).ok()?;
            let by = -taken.deduct;
            let sheet = plan.sheet.of(wall).si();
            // The corner of the plate is short of the sharp edge by what it leaves at the other wall.
            let lands = side.line.deduct > sheet - SAME;
            let more = by - other.line.deduct;
            (lands && more > SAME).then_some((more + gap + PLAY, sheet + gap + PLAY))
        };
        let slit = |side: &Flanged| SLIT * side.tab.map_or(0.0, |tab| tab.bend.thickness().si());
        let of = |side: &Flanged, from: f64| {
            let Some(tab) = side.tab else {
                return Tip::default();
            };
            // Beside the step the flange keeps off by what its neighbour's bend and free edge take.
            let half = libm::tan(0.5 * (core::f64::consts::PI + turn(last, here)));
            let level = tab.bend.allowance().si() - tab.deep();
            Tip {
                bend: from + slit(side) + level / half,
                edge: from + slit(side) + tab.out() / half,
            }
        };
        if let Some((more, deep)) = past(last, here) {
            // Along the first wall to its end, across it, and back to the second.
            let end = point(&last.line, sharp, 1.0, more, 0.0);
            let across = point(&last.line, sharp, 1.0, more, deep);
            let back = meet(&moved(&last.line, -deep), &here.line);
            let run = dot([back[0] - sharp[0], back[1] - sharp[1]], here.line.along);
            return Some(([end, across, back], [of(last, 0.0), of(here, run)]));
        }
        let (more, deep) = past(here, last)?;
        let start = point(&here.line, sharp, -1.0, more, 0.0);
        let across = point(&here.line, sharp, -1.0, more, deep);
        let back = meet(&last.line, &moved(&here.line, -deep));
        let run = dot([sharp[0] - back[0], sharp[1] - back[1]], last.line.along);
        Some(([back, across, start], [of(last, run), of(here, 0.0)]))
    }

    /// Whether the bend at a fold beside a flange is so wide that its edge is carried on between flanges.
    fn folded_wide(&self, last: &Flanged, here: &Flanged) -> bool {
        [last, here].into_iter().any(|side| {
            let Some(other) = side.line.fold else {
                return false;
            };
            let edge = self
                .plan
                .body
                .outside
                .sharp_edge_between([self.face, other]);
            let bend = edge.and_then(|edge| self.plan.bend(&edge).ok());
            bend.is_some_and(|bend| bend.allowance().si() >= TONGUE * SLIT * bend.thickness().si())
        })
    }

    /// How far from the end of a plain side its flange stops, where the wall `next` stands.
    fn tip(
        &self,
        side: &Flanged,
        tab: &Tab,
        next: Face,
        [way, from, turn]: [f64; 3],
        base: [f64; 2],
    ) -> Tip {
        let mut tip = Tip {
            bend: libm::fmax(from, 0.0),
            edge: 0.0,
        };
        if turn < 0.0 {
            // At an inside corner the two flanges part in the flat along the line between them.
            let half = 0.5 * (core::f64::consts::PI + turn);
            let level = tab.bend.allowance().si() - tab.deep();
            tip.bend = libm::fmax(tip.bend, tip.bend + level / libm::tan(half));
            tip.edge = libm::fmax(tip.bend, from + tab.out() / libm::tan(half));
            return tip;
        }
        if next != self.face && !tab.towards {
            self.clear_of(
                side,
                tab,
                next,
                [way * side.line.along[0], way * side.line.along[1]],
                base,
                &mut tip,
            );
        }
        if tip.bend < SAME {
            tip.bend = 0.0;
        }
        tip.edge = libm::fmax(tip.edge, tip.bend);
        tip
    }

    /// Draws a flange's end back until it is clear of the wall `next` and of what hangs on it.
    fn clear_of(
        &self,
        side: &Flanged,
        tab: &Tab,
        next: Face,
        [x, y]: [f64; 2],
        base: [f64; 2],
        tip: &mut Tip,
    ) {
        let (plan, outside) = (self.plan, &self.plan.body.outside);
        let Some(wall) = outside.face(next) else {
            return;
        };
        let (own, that) = (plan.sheet.of(self.face).si(), plan.sheet.of(next).si());
        let gap = plan.joints.allow().gap.si();
        // How deep below the outside of the wall the flange must lie: at its bend, past it, at its free edge.
        let mut deep = [that; 3];
        let all = |least: f64, deep: &mut [f64; 3]| {
            for one in deep.iter_mut() {
                *one = libm::fmax(*one, least);
            }
        };
        let tab_of = |face: Face, edge: &Edge| tab_at(plan, face, edge).ok().flatten();
        if let Some(edge) = outside.sharp_edge_between([self.face, next]) {
            if plan.joints.at(&edge) == Meeting::Folded {
                deep[0] = 0.0;
            } else if tab_of(self.face, &edge).is_some() {
                // The notch between the two bends sees to the bend itself.
                deep = [0.0, that + gap + own, that + gap + own];
            } else if let Some(its) = tab_of(next, &edge).filter(|its| !its.towards) {
                all(its.setback, &mut deep);
            }
        }
        let wall_of_flange = side.line.other;
        if let Some(edge) = outside.sharp_edge_between([wall_of_flange, next]) {
            if plan.joints.at(&edge) == Meeting::Folded {
                if edge.dihedral.si() < core::f64::consts::PI {
                    all(plan.setback(&edge), &mut deep);
                }
            } else if let Some(its) = tab_of(next, &edge).filter(|its| !its.towards) {
                all(libm::fmax(its.setback, tab.setback), &mut deep);
                deep[2] = libm::fmax(deep[2], tab.lap);
            } else if let Some(its) = tab_of(wall_of_flange, &edge).filter(|its| !its.towards) {
                all(that + gap + its.setback, &mut deep);
            }
        }
        let lift = |[a, b]: [f64; 2]| self.axes.right * a + self.axes.up * b;
        let along = lift([x, y]);
        let [lx, ly] = side.line.along;
        let inward = lift([-ly, lx]);
        let (sine, cosine) = libm::sincos(tab.bend.turn().si());
        // The way up the flange, and from its outer face to its inner one.
        let up = -(inward * cosine) - self.normal * sine;
        let through = inward * sine - self.normal * cosine;
        let corner = self.axes.lift(base) - inward * tab.inset;
        let plane = wall.plane();
        let rate = -plane.normal.dot(along);
        if !(rate > SAME) {
            return;
        }
        let need = |from: Vector, least: f64| (least + PLAY + plane.distance(corner + from)) / rate;
        let (s, t) = (tab.setback, own);
        let starts = inward * s;
        let bend = [starts, starts - self.normal * t, Vector::ZERO];
        for from in bend {
            if deep[0] > 0.0 {
                tip.bend = libm::fmax(tip.bend, need(from, deep[0]));
            }
        }
        for from in [up * s, up * s + through * t] {
            tip.bend = libm::fmax(tip.bend, need(from, deep[1]));
        }
        for from in [up * tab.lap, up * tab.lap + through * t] {
            tip.edge = libm::fmax(tip.edge, need(from, deep[2]));
        }
    }

    /// Whether a flange finds room: along its own side, and on the wall on which it comes to lie.
    fn fits(&self, side: &Flanged) -> Result<(), Fault> {
        let Some(tab) = side.tab else { return Ok(()) };
        let [start, end] = side.run;
        let length = dot([end[0] - start[0], end[1] - start[1]], side.line.along);
        let [first, last] = side.tips;
        let faces = [self.face, side.line.other];
        let least = tab.bend.thickness().si();
        if !(length - first.bend - last.bend > least) {
            return Err(Fault::Blank(BlankError::Narrow { face: self.face }));
        }
        if !(length - first.edge - last.edge > least) {
            return Err(Fault::Long(faces));
        }
        if tab.towards {
            return Ok(());
        }
        // The free edge must lie on the wall, clear of what comes from its far side.
        let [lx, ly] = side.line.along;
        let inward = self.axes.right * -ly + self.axes.up * lx;
        let (sine, cosine) = libm::sincos(tab.bend.turn().si());
        let up = -(inward * cosine) - self.normal * sine;
        let outside = &self.plan.body.outside;
        let Some(wall) = outside.face(side.line.other) else {
            return Ok(());
        };
        for along in [
            first.edge,
            0.5 * (first.edge + length - last.edge),
            length - last.edge,
        ] {
            let foot = self
                .axes
                .lift(point(&side.line, start, 1.0, along, tab.inset));
            let free = foot + up * tab.lap;
            for (_, edge) in wall.sharp_sides() {
                let Some(edge) = edge.filter(|edge| !edge.faces.contains(&self.face)) else {
                    continue;
                };
                let [a, b] = edge.faces;
                let far = if a == side.line.other { b } else { a };
                let Some(that) = outside.face(far) else {
                    continue;
                };
                // Only what the flange grows towards, and stands opposite to.
                let along_edge = (edge.ends[1] - edge.ends[0]).unit().unwrap_or_default();
                let nearer = -that.plane().distance(free) < -that.plane().distance(foot);
                let [from, to] = edge.ends.map(|end| along_edge.dot(end));
                let here = along_edge.dot(free);
                if !nearer || here < from || here > to || edge.dihedral.si() > core::f64::consts::PI
                {
                    continue;
                }
                let beside = edge.faces.iter().any(|face| {
                    outside
                        .sharp_edge_between([self.face, *face])
                        .is_some_and(|_| *face == far)
                });
                if beside {
                    continue;
                }
                let its = match self.plan.joints.at(&edge) {
                    Meeting::Folded => self.plan.setback(&edge),
                    Meeting::Welded { .. } => tab_at(self.plan, far, &edge)
                        .ok()
                        .flatten()
                        .map_or(0.0, |its| its.lap),
                };
                let deep = libm::fmax(self.plan.sheet.of(far).si(), its);
                if -that.plane().distance(free) < deep - SAME {
                    return Err(Fault::Long(faces));
                }
            }
        }
        Ok(())
    }
}
