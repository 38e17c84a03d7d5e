//! The blank of a baffle whose edges are bent over: its plate and its flanges in one piece, cut at the flanges' ends as
//! those of walls are.

use heapless::Vec;

use super::super::bend::Bend;
use super::super::edge::Tab;
use super::super::error::BlankError;
use super::part::{Half, Line, MAX_SIDES, Part, corner, meet};
use super::rim::{Corner, Flanged, MOST_NODES, Tip, emit, moved, point};
use super::{BendMark, Blank, Piece};
use crate::blank::Axes;
use crate::geom::Vector;
use crate::geom::outline::Point;
use crate::geom::outline::section::Section;
use crate::input::Face;
use crate::units::Length;

/// One end of a flange, along its side from the sharp corner there, in metres.
#[derive(Clone, Copy, Debug)]
pub(crate) struct FlangeEnd {
    /// To where the plain edge of the plate ends.
    pub(crate) base: f64,
    /// From there to where the bend begins.
    pub(crate) bend: f64,
    /// From there to where the free edge begins.
    pub(crate) edge: f64,
    /// Whether there is a slit beside it, and the edge of the plate goes on round the corner.
    pub(crate) slit: bool,
}

/// A side of a plate, which may have a flange.
#[derive(Clone, Copy, Debug)]
pub(crate) struct PlateSide {
    /// Whether it has one.
    pub(crate) flanged: bool,
    /// Its two ends, where it has one.
    pub(crate) ends: [FlangeEnd; 2],
    /// What it stands on; the plate's own face where it stands on nothing.
    pub(crate) wall: Face,
}

/// A plate with flanges; lengths in metres.
#[derive(Clone, Debug)]
pub(crate) struct BentPlate<'a> {
    /// Its face.
    pub(crate) face: Face,
    /// Its rim, where the outsides of the bends come to lie.
    pub(crate) section: &'a Section,
    /// Its sides, in the order of the rim.
    pub(crate) sides: Vec<PlateSide, MAX_SIDES>,
    /// The bend of every flange.
    pub(crate) bend: &'a Bend,
    /// Whether they are bent towards who looks at it.
    pub(crate) towards: bool,
    /// From the outer face of the plate to the free edges.
    pub(crate) width: f64,
    /// From the rim to where a bend begins.
    pub(crate) setback: f64,
    /// In the flat, how far the free edges lie out from the rim.
    pub(crate) out: f64,
}

impl<const FLANGES: usize> Blank<FLANGES> {
    /// Lays out a plate with its flanges.
    pub(crate) fn lay_bent(&mut self, plate: &BentPlate<'_>) -> Result<(), BlankError> {
        self.clear();
        let face = plate.face;
        let full = BlankError::TooComplex { face };
        let bend = plate.bend;
        let tab = Tab {
            bend: *bend,
            lap: plate.width,
            reach: plate.out,
            setback: plate.setback,
            short: 0.0,
            inset: 0.0,
            towards: plate.towards,
        };
        let mut sides: Vec<Flanged, MAX_SIDES> = Vec::new();
        for (own, side) in plate.sides.iter().zip(0..) {
            let made = Flanged {
                tab: own.flanged.then_some(tab),
                ..flanged(plate.section, side, &own.ends, own.wall)
            };
            sides.push(made).map_err(|_| full)?;
        }
        let mut part = Part::<MOST_NODES>::default();
        let count = sides.len();
        for at in 0..count {
            let before = (at + count - 1) % count;
            let (Some(last), Some(here)) = (sides.get(before), sides.get(at)) else {
                continue;
            };
            let slit = |side: usize, end: usize| {
                let own = plate.sides.get(side).filter(|own| own.flanged);
                own.and_then(|own| own.ends.get(end))
                    .is_some_and(|end| end.slit)
            };
            let deep = |side: &Flanged| side.tab.map_or(0.0, |tab| tab.deep());
            let kind = if last.tab.is_none() && here.tab.is_none() {
                Corner::Plain
            } else if slit(before, 1) || slit(at, 0) {
                Corner::Slits
            } else {
                Corner::Notch(meet(
                    &moved(&last.line, deep(last)),
                    &moved(&here.line, deep(here)),
                ))
            };
            emit(&mut part, last, here, kind, corner(&last.line, &here.line)).ok_or(full)?;
        }
        self.axes = Some(Axes {
            origin: Vector::ZERO,
            right: Vector::new(1.0, 0.0, 0.0),
            up: Vector::new(0.0, 1.0, 0.0),
        });
        let half = Half::Whole;
        self.pieces.push(Piece { face, half }).map_err(|_| full)?;
        self.lay(&[&part.nodes], &[], face)?;
        let placing = self.flat.placings().first().copied().ok_or(full)?;
        for side in &sides {
            let Some(tab) = side.tab else { continue };
            let level = 0.5 * tab.bend.allowance().si() - tab.deep();
            let [start, end] = side.run;
            let [first, last] = side.tips;
            let line = [
                point(&side.line, start, 1.0, first.bend, level),
                point(&side.line, end, -1.0, last.bend, level),
            ];
            let mark = BendMark {
                ends: line.map(|[x, y]| self.down(placing.point(Point::new(x, y)))),
                faces: [face, side.line.other],
                turn: bend.turn(),
                towards: plate.towards,
                radius: bend.inside_radius(),
                allowance: bend.allowance(),
            };
            self.flanges.push(mark).map_err(|_| full)?;
        }
        Ok(())
    }
}

/// A side of a plate, its flange aside.
fn flanged(section: &Section, side: usize, ends: &[FlangeEnd; 2], wall: Face) -> Flanged {
    let line = Line {
        at: section.at(side),
        along: section.direction(side),
        deduct: 0.0,
        fold: None,
        flange: Length::default(),
        radius: section.radius(side),
        other: wall,
    };
    let [first, last] = ends;
    let length = section.sharp_length(side);
    let tip = |end: &FlangeEnd| Tip {
        bend: end.bend,
        edge: end.edge,
    };
    Flanged {
        line,
        tab: None,
        run: [
            point(&line, line.at, 1.0, first.base, 0.0),
            point(&line, line.at, 1.0, length - last.base, 0.0),
        ],
        tips: [tip(first), tip(last)],
    }
}
