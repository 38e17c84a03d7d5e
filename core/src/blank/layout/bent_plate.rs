//! The blank of a baffle whose edges are bent over: its plate and its flanges in one piece, cut at the flanges' ends as
//! those of walls are.

use heapless::Vec;

use super::super::bend::Bend;
use super::super::edge::Tab;
use super::super::error::BlankError;
use super::flanged::{Corner, Flanged, MOST_NODES, Tip, emit, moved, point};
use super::part::{Half, Line, MAX_SIDES, Part, corner, meet};
use super::{BendMark, Blank, Piece};
use crate::blank::Axes;
use crate::body::{FlatForm, Solid};
use crate::fitting::{Baffle, FlangeEnd, Flanges};
use crate::geom::Vector;
use crate::geom::outline::Point;
use crate::geom::outline::section::Section;
use crate::input::{Across, Face};
use crate::units::Length;

impl<const FLANGES: usize> Blank<FLANGES> {
    /// Lays out a baffle, counted from 1, with its flanges, seen as its plate is: from the right, the front or the top.
    pub(crate) fn lay_flanged(
        &mut self,
        number: u8,
        (baffle, flanges): (&Baffle, &Flanges),
        inside: &Solid,
        bend: &Bend,
    ) -> Result<(), BlankError> {
        self.clear();
        let face = Face::Baffle(number);
        let full = BlankError::TooComplex { face };
        let FlatForm::Outline(section) = baffle.plate() else {
            return Err(full);
        };
        // From the front a baffle across the width is looked at towards the high side of its axis.
        let towards = flanges.high != (baffle.across() == Across::Width);
        let tab = Tab {
            bend: *bend,
            lap: flanges.width,
            reach: flanges.out(),
            setback: flanges.setback,
            short: 0.0,
            inset: 0.0,
            towards,
        };
        let mut sides: Vec<Flanged, MAX_SIDES> = Vec::new();
        let mut ends: Vec<[FlangeEnd; 2], MAX_SIDES> = Vec::new();
        for side in 0..section.len() {
            let own = flanges.ends(baffle, side);
            ends.push(own).map_err(|_| full)?;
            let wall = baffle
                .wall_of(inside, side)
                .filter(|_| baffle.is_held(side));
            let made = flanged(section, side, &own, wall.unwrap_or(face));
            let made = Flanged {
                tab: flanges.has(side).then_some(tab),
                ..made
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
                let own = ends.get(side).and_then(|own| own.get(end));
                flanges.has(side) && own.is_some_and(|end| end.slit)
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
                towards,
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
