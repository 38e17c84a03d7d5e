//! Edges of a baffle that are bent over: flanges that lie flat along the walls they meet, or stiffen an edge that is
//! open.
//!
//! A flange is bent square to the plate, so that the outside of its bend is where the plate's rim would be. The plate and
//! its flanges are one blank; how that is cut at the flanges' ends follows the rules for flanged panels (common practice,
//! no source): a square notch down to where the bends begin between two flanges, a slit beside a corner that is rounded.
//! A gauge has no room for this: a job with such baffles is the laptop's, and what a gauge must know of it is called
//! through pointers that only the laptop sets.

use core::f64::consts::PI;

use super::baffle::{Baffle, Flanges, Work, axes};
use super::cut::FlangeCut;
use super::error::CutFault;
use crate::blank::layout::{BentPlate, FlangeEnd, PlateSide};
use crate::blank::{Bend, BendFace};
use crate::body::{Edge, FlatForm, Path, Solid};
use crate::geom::Vector;
use crate::geom::outline::section::Section;
use crate::input::{Across, Face, WallSet};

/// Width of a slit beside a flange, in thicknesses: that of [`relief`](crate::blank::relief).
const SLIT: f64 = 1.5;
/// A flange keeps so far off a wall beside it, in metres, that it goes in: common practice, no source.
const PLAY: f64 = 0.000_5;
/// The end of a flange keeps so far off the outer face of the next one, in metres: room for two bends that are each
/// 0.5 mm off. Common practice, no source.
const APART: f64 = 0.001;
/// Points nearer than this, in metres, are one.
const SAME: f64 = 1e-9;
/// A direction this near to square, by its cosine, is square.
const SQUARE: f64 = 1e-9;

static WORK: Work = Work {
    edge: weld_edge,
    volume: taken,
    below: taken_below,
    middle: middle_of,
};

/// A box of a flange: its middle, half its sizes along its side, away from the wall and along the baffle's axis, and what
/// it takes, in m³.
struct Block {
    middle: Vector,
    halves: [f64; 3],
    ways: [Vector; 3],
    volume: f64,
}

/// What bending the edges of a baffle follows from.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Bending<'a> {
    pub(crate) cut: &'a FlangeCut,
    pub(crate) bend: &'a Bend,
    /// What is left open below it and above it, in metres.
    pub(crate) open: [f64; 2],
}

impl Flanges {
    /// Whether a side has one.
    pub(crate) const fn has(&self, side: usize) -> bool {
        self.sides & (1 << side) != 0
    }

    /// In the flat, how far a flange's free edge lies out from the rim, in metres.
    pub(crate) fn out(&self) -> f64 {
        self.width - 2.0 * self.setback + self.allowance
    }

    /// The same with flanges of another width.
    pub(crate) const fn with_width(self, width: f64) -> Self {
        Self { width, ..self }
    }

    /// The two ends of the flange at a side.
    pub(crate) fn ends(&self, baffle: &Baffle, side: usize) -> [FlangeEnd; 2] {
        let FlatForm::Outline(section) = baffle.plate() else {
            return [FlangeEnd {
                base: 0.0,
                bend: 0.0,
                edge: 0.0,
                slit: false,
            }; 2];
        };
        let count = section.len().max(1);
        let next = super::cut::around(side + 1, count);
        let last = super::cut::around(side + count - 1, count);
        [(side, last), (next, next)].map(|(corner, other)| {
            let free = !baffle.is_held(other);
            self.end(section, corner, (other, free), baffle.thickness().si())
        })
    }

    /// The baffle, counted from 1, and its flanges as a plate to be laid out, seen from the right, the front or the top;
    /// `None` of a disc.
    pub(crate) fn plate<'a>(
        &self,
        (number, baffle): (u8, &'a Baffle),
        inside: &Solid,
        bend: &'a Bend,
    ) -> Option<BentPlate<'a>> {
        let FlatForm::Outline(section) = baffle.plate() else {
            return None;
        };
        let face = Face::Baffle(number);
        let sides = (0..section.len()).map(|side| PlateSide {
            flanged: self.has(side),
            ends: self.ends(baffle, side),
            wall: Some(side)
                .filter(|side| baffle.is_held(*side))
                .and_then(|side| baffle.wall_of(inside, side))
                .unwrap_or(face),
        });
        let mut all = heapless::Vec::new();
        for side in sides {
            all.push(side).ok()?;
        }
        Some(BentPlate {
            face,
            section,
            sides: all,
            bend,
            // From the front a baffle across the width is looked at towards the high side of its axis.
            towards: self.high != (baffle.across() == Across::Width),
            width: self.width,
            setback: self.setback,
            out: self.out(),
        })
    }

    /// One end of a flange, at a corner beyond which is another side, which meets no wall where it is free.
    fn end(
        &self,
        section: &Section,
        corner: usize,
        (other, free): (usize, bool),
        sheet: f64,
    ) -> FlangeEnd {
        let turn = section.turn(corner);
        let tangent = section.tangent_length(corner);
        let (both, deep, slit) = (self.has(other), self.setback, SLIT * sheet);
        if turn <= 0.0 {
            // At an inside corner two flanges part in the flat along the line between them.
            let beyond = PI + turn;
            let tan = libm::tan(if both { 0.5 * beyond } else { beyond });
            let over = |out: f64| {
                if tan > 0.0 {
                    libm::fmax(out, 0.0) / tan
                } else {
                    0.0
                }
            };
            let bend = slit + over(self.allowance - deep);
            return FlangeEnd {
                base: tangent,
                bend,
                edge: libm::fmax(bend, slit + over(self.out())),
                slit: true,
            };
        }
        let (sine, cosine) = libm::sincos(PI - turn);
        let sine = libm::fmax(sine, SAME);
        let notch = deep / libm::tan(0.5 * (PI - turn));
        let plain = |base: f64, bend: f64, slit: bool| FlangeEnd {
            base,
            bend,
            edge: bend,
            slit,
        };
        if both {
            let clear = (sheet + APART + libm::fmax(0.0, sheet * cosine)) / sine;
            let from = libm::fmax(notch, clear);
            return if tangent <= notch + SAME {
                plain(0.0, from, false)
            } else {
                plain(tangent, libm::fmax(slit, from - tangent), true)
            };
        }
        let short = if free { 0.0 } else { PLAY };
        let from = libm::fmax(0.0, (deep * cosine + short) / sine);
        if tangent > SAME {
            plain(tangent, libm::fmax(slit, from - tangent), true)
        } else {
            plain(0.0, from, false)
        }
    }

    /// How long a flange is at its bend and at its free edge, in metres; below zero where there is no room for it.
    pub(crate) fn lengths(&self, baffle: &Baffle, side: usize) -> [f64; 2] {
        let whole = match baffle.plate() {
            FlatForm::Outline(section) => section.sharp_length(side),
            _ => 0.0,
        };
        let [a, b] = self.ends(baffle, side);
        let rest = whole - a.base - b.base;
        [rest - a.bend - b.bend, rest - a.edge - b.edge]
    }

    /// The direction in which they point.
    fn way(&self, baffle: &Baffle) -> Vector {
        let axis = baffle.axis();
        if self.high { axis } else { -axis }
    }

    /// How far the free edge lies from the middle of the plate, along the axis.
    fn offset(&self, baffle: &Baffle) -> f64 {
        self.width - 0.5 * baffle.thickness().si()
    }

    /// A point of the flange at a side: `share` of the way along its free edge, `deep` in from its outer face, and
    /// `out` along the axis from the middle of the plate.
    pub(crate) fn point(
        &self,
        baffle: &Baffle,
        side: usize,
        [share, deep, out]: [f64; 3],
    ) -> Option<Vector> {
        let FlatForm::Outline(section) = baffle.plate() else {
            return None;
        };
        let [start, _] = self.ends(baffle, side);
        let [_, length] = self.lengths(baffle, side);
        let run = start.base + start.edge + share * length;
        let (from, [u, w]) = (section.at(side), section.direction(side));
        let at = [from[0] + u * run - w * deep, from[1] + w * run + u * deep];
        let [point, ..] = baffle.frame(at);
        Some(point + self.way(baffle) * out)
    }

    /// Calls `see` with the boxes that they take: of each its flat, and what its bend takes over the rim of the plate.
    fn each_block(&self, baffle: &Baffle, mut see: impl FnMut(&Block)) {
        let FlatForm::Outline(section) = baffle.plate() else {
            return;
        };
        let sheet = baffle.thickness().si();
        let sides = (0..section.len()).filter(|side| self.has(*side));
        let flat = |side: usize| {
            let [bend, edge] = self.lengths(baffle, side);
            0.5 * (bend + edge) * (self.width - self.setback) * sheet
        };
        let whole = taken(baffle, self);
        let (mut flats, mut bends) = (0.0, 0.0);
        for side in sides.clone() {
            flats += flat(side);
            bends += self.lengths(baffle, side)[0];
        }
        for side in sides {
            let [bend, edge] = self.lengths(baffle, side);
            let [u, w] = section.direction(side);
            let [_, right, ahead] = axes(baffle.across());
            let ways = [
                right * u + ahead * w,
                ahead * u - right * w,
                self.way(baffle),
            ];
            let s = self.setback;
            let middle = |deep: f64, out: f64| {
                self.point(baffle, side, [0.5, deep, out - 0.5 * sheet])
                    .unwrap_or_default()
            };
            see(&Block {
                middle: middle(0.5 * sheet, 0.5 * (s + self.width)),
                halves: [0.25 * (bend + edge), 0.5 * sheet, 0.5 * (self.width - s)],
                ways,
                volume: flat(side),
            });
            see(&Block {
                middle: middle(0.5 * s, 0.5 * s),
                halves: [0.5 * bend, 0.5 * s, 0.5 * s],
                ways,
                volume: (whole - flats) * bend / libm::fmax(bends, SAME),
            });
        }
    }
}

/// The seam of a flange: along its free edge.
fn weld_edge(baffle: &Baffle, flanges: &Flanges, side: usize, edge: &mut Edge) {
    let out = flanges.offset(baffle);
    let end = |share: f64| flanges.point(baffle, side, [share, 0.0, out]);
    if let (Some(start), Some(end)) = (end(0.0), end(1.0)) {
        edge.ends = [start, end];
        edge.path = Path::Straight;
    }
}

/// How much room the flanges take over what the plate to its rim would, in m³.
fn taken(baffle: &Baffle, flanges: &Flanges) -> f64 {
    let sheet = baffle.thickness().si();
    let bends: f64 = (0..baffle.sides())
        .filter(|side| flanges.has(*side))
        .map(|side| flanges.lengths(baffle, side)[0])
        .sum();
    // A quarter of a ring, from the inside radius to the outside one.
    let inner = flanges.setback - sheet;
    let ring = 0.25 * PI * (flanges.setback * flanges.setback - inner * inner);
    sheet * (flanges.more - flanges.allowance * bends) + ring * bends
}

/// What of the room that the flanges take lies below a plane, in m³: each box of theirs is filled evenly from its lowest
/// point to its highest, which is exact where the plane is square to one of its sides.
fn taken_below(baffle: &Baffle, flanges: &Flanges, up: Vector, level: f64) -> f64 {
    let mut sum = 0.0;
    flanges.each_block(baffle, |block| {
        let half: f64 = (block.halves.iter().zip(block.ways))
            .map(|(half, way)| half * libm::fabs(up.dot(way)))
            .sum();
        let past = 0.5 * (level - up.dot(block.middle)) / libm::fmax(half, SAME) + 0.5;
        sum += block.volume * libm::fmin(libm::fmax(past, 0.0), 1.0);
    });
    sum
}

/// The middle of what the flanges take over the plate.
fn middle_of(baffle: &Baffle, flanges: &Flanges) -> Vector {
    let (mut sum, mut volume) = (Vector::ZERO, 0.0);
    flanges.each_block(baffle, |block| {
        sum = sum + block.middle * block.volume;
        volume += block.volume;
    });
    sum * (1.0 / volume)
}

impl Baffle {
    /// Its flanges.
    pub(crate) const fn flanges(&self) -> Option<&Flanges> {
        self.flanges.as_ref()
    }

    /// Whether a side of its plate stands on a wall.
    pub(crate) const fn is_held(&self, side: usize) -> bool {
        self.free & (1 << side) == 0
    }

    /// Whether it has flanges.
    #[must_use]
    pub const fn is_flanged(&self) -> bool {
        self.flanges.is_some()
    }

    /// Whether the seam at a place of those that hold it runs along a flange.
    pub(crate) fn laps(&self, place: usize) -> bool {
        self.flanges
            .as_ref()
            .is_some_and(|flanges| self.side_of(place).is_some_and(|side| flanges.has(side)))
    }

    /// Moves the edge at a side to the free edge of its flange, where it has one.
    pub(super) fn to_flange(&self, side: usize, edge: &mut Edge) {
        if let Some(flanges) = &self.flanges
            && flanges.has(side)
        {
            (flanges.work.edge)(self, flanges, side, edge);
        }
    }

    /// Whether one of its edges is reached from its high side (`far`) or from its low one: the free edge of a flange lies
    /// on one of them.
    pub(crate) fn is_reached(&self, edge: &Edge, far: bool) -> bool {
        let off = self.axis().dot(edge.ends[0]) - self.at().si();
        libm::fabs(off) < SAME || (off > 0.0) == far
    }

    /// How much larger its blank is than its plate to the rim, in m².
    pub(crate) fn flange_area(&self) -> f64 {
        self.flanges.as_ref().map_or(0.0, |flanges| flanges.more)
    }

    /// How much room its flanges take over what its plate does, in m³.
    pub(crate) fn flange_volume(&self) -> f64 {
        self.flanges
            .as_ref()
            .map_or(0.0, |flanges| (flanges.work.volume)(self, flanges))
    }

    /// What of that lies below a plane.
    pub(super) fn flanges_below(&self, up: Vector, level: f64) -> f64 {
        self.flanges.as_ref().map_or(0.0, |flanges| {
            (flanges.work.below)(self, flanges, up, level)
        })
    }

    /// What its flanges take over its plate, in m³, and the middle of that.
    pub(crate) fn flange_middle(&self) -> Option<(f64, Vector)> {
        let flanges = self.flanges.as_ref()?;
        let volume = (flanges.work.volume)(self, flanges);
        Some((volume, (flanges.work.middle)(self, flanges)))
    }

    /// How far from its middle it holds a wall, along its axis, in metres: there the free edge of its flange is.
    pub(crate) fn holds_at(&self, inside: &Solid, wall: Face) -> f64 {
        let Some(flanges) = &self.flanges else {
            return 0.0;
        };
        let sides = 0..self.sides();
        let mut on = sides.filter(|side| flanges.has(*side) && self.is_held(*side));
        if on.any(|side| self.wall_of(inside, side) == Some(wall)) {
            let out = flanges.offset(self);
            if flanges.high { out } else { -out }
        } else {
            0.0
        }
    }

    /// Finds which edges are bent over, and how their flanges end; the blank is not laid yet.
    pub(crate) fn flanged(
        &self,
        inside: &Solid,
        of: &Bending<'_>,
    ) -> Result<Flanges, (CutFault, f64)> {
        let FlatForm::Outline(section) = self.plate() else {
            return Err((CutFault::FlangeRound, 0.0));
        };
        if inside.turned().is_some() {
            return Err((CutFault::FlangeRound, 0.0));
        }
        let setback = of.bend.setback_on(BendFace::Outer).si();
        let width = of.cut.width.si();
        if width <= setback + SAME {
            return Err((CutFault::FlangeShort, setback));
        }
        let mut flanges = Flanges {
            sides: 0,
            high: of.cut.high,
            width,
            setback,
            allowance: of.bend.allowance().si(),
            more: 0.0,
            work: &WORK,
        };
        let mut met = WallSet::NONE;
        for side in 0..section.len() {
            if !self.is_held(side) || section.straight_length(side) <= SAME {
                continue;
            }
            let Some(wall) = self.wall_of(inside, side) else {
                continue;
            };
            if !of.cut.is_all() && !of.cut.walls.has(wall) {
                continue;
            }
            met.add(wall);
            if self.is_plugged(wall) {
                return Err((CutFault::FlangePlugged(wall), 0.0));
            }
            let flat = inside.face(wall).filter(crate::body::FaceView::is_flat);
            let square =
                flat.is_some_and(|view| libm::fabs(view.normal().dot(self.axis())) < SQUARE);
            if !square {
                return Err((CutFault::FlangeLeans(wall), 0.0));
            }
            flanges.sides |= 1 << side;
        }
        if let Some(wall) = of.cut.walls.walls().find(|wall| !met.has(*wall)) {
            return Err((CutFault::FlangeNowhere(wall), 0.0));
        }
        let [low, high] = match self.uncut(inside) {
            FlatForm::Outline(whole) => {
                let (low, high) = whole.extent([0.0, 1.0]);
                [low, high]
            }
            form => form.span([0.0, 1.0]),
        };
        for (wanted, gap, height, sense, fault) in [
            (
                of.cut.below,
                of.open[0],
                low + of.open[0],
                1.0,
                CutFault::FlangeNoGap(false),
            ),
            (
                of.cut.above,
                of.open[1],
                high - of.open[1],
                -1.0,
                CutFault::FlangeNoGap(true),
            ),
        ] {
            if !wanted {
                continue;
            }
            let is_it = |side: &usize| {
                let [_, at] = section.at(*side);
                let [u, w] = section.direction(*side);
                !self.is_held(*side)
                    && libm::fabs(at - height) < SAME
                    && libm::fabs(w) < SQUARE
                    && u * sense > 0.0
            };
            let side = (0..section.len()).find(is_it).filter(|_| gap > 0.0);
            flanges.sides |= 1 << side.ok_or((fault, 0.0))?;
        }
        if flanges.sides == 0 || self.across() == Across::Height && (of.cut.below || of.cut.above) {
            return Err((CutFault::FlangeRound, 0.0));
        }
        Ok(flanges)
    }

    /// Takes its flanges on, the blank of all of it being `area` m² large.
    pub(crate) fn bend_over(&mut self, mut flanges: Flanges, area: f64) {
        flanges.more = area - self.plate.area();
        self.flanges = Some(flanges);
    }

    /// How far a hole of it reaches into a bend, counted from 1, if one does: the plate is flat to where its bends begin.
    pub(crate) fn hole_in_bend(&self, flanges: &Flanges) -> Option<(u8, f64)> {
        let FlatForm::Outline(section) = self.plate() else {
            return None;
        };
        for (hole, number) in self.holes().iter().zip(1_u8..) {
            for side in (0..section.len()).filter(|side| flanges.has(*side)) {
                let (from, [u, w]) = (section.at(side), section.direction(side));
                let off = [hole.at[0] - from[0], hole.at[1] - from[1]];
                let (run, deep) = (off[0] * u + off[1] * w, off[1] * u - off[0] * w);
                let within = run > -hole.radius && run < section.sharp_length(side) + hole.radius;
                let by = flanges.setback + hole.radius - deep;
                if within && deep > 0.0 && by > SAME {
                    return Some((number, by));
                }
            }
        }
        None
    }
}
