//! Blanks: panels as they are cut from flat sheet, seen from outside.

mod arena;
mod bent_plate;
mod cut;
mod flanged;
mod make;
mod part;
mod rim;

pub(crate) use bent_plate::{BentPlate, FlangeEnd, PlateSide};
pub(super) use make::area;

use heapless::Vec;

use super::panel::Axes;
use super::unfold::Unfolded;
use crate::body::Body;
use crate::geom::Vector;
use crate::geom::outline::{Node, Point};
use crate::input::Face;
use crate::units::{Angle, Area, Length};

use part::Half;

/// Parts of one blank: a face each, the side that a wrapper is parted in twice.
pub const MAX_PARTS: usize = 16;
/// Flanges of one blank.
pub const MAX_FLANGES: usize = 8;
/// Flanges of one blank as it is cut.
pub const MAX_CUT_FLANGES: usize = 32;

/// A blank as it is cut, its flanges notched: more than a small machine has room for.
pub type CutBlank = Blank<MAX_CUT_FLANGES>;

/// A line to bend along.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BendMark {
    /// Its two ends, in metres from the blank's lower left.
    pub ends: [[f64; 2]; 2],
    /// The faces on its two sides; a flange has the same one twice.
    pub faces: [Face; 2],
    /// How far it is bent.
    pub turn: Angle,
    /// Whether it is bent towards someone who looks at the outside.
    pub towards: bool,
    /// Inside radius.
    pub radius: Length,
    /// The length that the bend takes.
    pub allowance: Length,
}

/// Where two bends come together: a hole drilled there keeps the corner from tearing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReliefHole {
    /// Its centre, in metres from the blank's lower left.
    pub at: [f64; 2],
    /// Across it.
    pub diameter: Length,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct Piece {
    face: Face,
    half: Half,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct Bent {
    faces: [Face; 2],
    towards: bool,
    radius: Length,
    allowance: Length,
}

/// The blank of one panel; about 5 KiB. Lengths within are metres, from the lower left corner of the
/// box about it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Blank<const FLANGES: usize = MAX_FLANGES> {
    flat: Unfolded,
    pieces: Vec<Piece, MAX_PARTS>,
    /// The axes of a single piece whose axes are not those of its face.
    axes: Option<Axes>,
    bent: Vec<Bent, MAX_PARTS>,
    flanges: Vec<BendMark, FLANGES>,
    reliefs: Vec<ReliefHole, MAX_PARTS>,
    low: [f64; 2],
    size: [f64; 2],
    /// What a rolled wall needs: neutral circumference for each radian round it, and where the seam is.
    round: Option<Round>,
}

/// How a rolled wall is laid out: its axis to the right, round it up.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Round {
    /// Where its outside begins along the axis, less what its joint takes.
    start: f64,
    /// Circumference outside over that of the neutral line.
    scale: f64,
    /// Half the root gap.
    gap: f64,
}

impl<const FLANGES: usize> Blank<FLANGES> {
    /// Nothing yet; a place for [`PanelPlan::blank`](super::PanelPlan::blank) to write to.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            flat: Unfolded::new(),
            pieces: Vec::new(),
            axes: None,
            bent: Vec::new(),
            flanges: Vec::new(),
            reliefs: Vec::new(),
            low: [0.0; 2],
            size: [0.0; 2],
            round: None,
        }
    }

    /// Takes everything away, in its place.
    pub(crate) fn clear(&mut self) {
        self.flat.clear();
        self.pieces.clear();
        self.axes = None;
        self.bent.clear();
        self.flanges.clear();
        self.reliefs.clear();
        self.low = [0.0; 2];
        self.size = [0.0; 2];
        self.round = None;
    }

    /// Whether there is anything: a dished end has no flat blank, and a face that its sheets take whole
    /// has none either.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.flat.outline().nodes().is_empty()
    }

    /// Its outline, counter-clockwise.
    pub fn outline(&self) -> impl Iterator<Item = Node> + Clone + '_ {
        let [x, y] = self.low;
        let nodes = self.flat.outline().nodes().iter();
        nodes.map(move |node| Node::new(node.x - x, node.y - y, node.bulge))
    }

    /// Its area, holes not taken off.
    #[must_use]
    pub fn area(&self) -> Area {
        Area::from_square_metres(if self.is_empty() {
            0.0
        } else {
            self.flat.outline().area()
        })
    }

    /// Its width and height, in metres.
    #[must_use]
    pub const fn size(&self) -> [f64; 2] {
        self.size
    }

    /// The lines to bend along, flanges last.
    pub fn bends(&self) -> impl Iterator<Item = BendMark> + Clone + '_ {
        let lines = self.flat.bends().iter().zip(&self.bent);
        let folds = lines.map(move |(line, bent)| BendMark {
            ends: line.ends.map(|end| self.down(end)),
            faces: bent.faces,
            turn: line.turn,
            towards: bent.towards,
            radius: bent.radius,
            allowance: bent.allowance,
        });
        folds.chain(self.flanges.iter().copied())
    }

    /// Where bends come together.
    #[must_use]
    pub fn reliefs(&self) -> &[ReliefHole] {
        &self.reliefs
    }

    /// The faces that it holds, with a point inside each: where to write its name.
    pub fn faces(&self) -> impl Iterator<Item = Face> + Clone + '_ {
        self.pieces.iter().map(|piece| piece.face)
    }

    /// Where a point of a face of `body` lies on the blank, which is one of its own; `None` where the face
    /// is none of this blank's.
    #[must_use]
    pub fn place(&self, body: &Body, face: Face, point: Vector) -> Option<[f64; 2]> {
        let axes = match self.axes {
            Some(axes) => axes,
            None => Axes::of_face(&body.outside.face(face)?),
        };
        let mut best = None;
        let mut nearest = f64::INFINITY;
        for (piece, placing) in self.pieces.iter().zip(self.flat.placings()) {
            if piece.face != face {
                continue;
            }
            let [x, y] = axes.flat(point);
            let at = self.down(placing.point(Point::new(x, y)));
            // The two halves of a parted side: on the one whose piece of the blank is there.
            let outside = if self
                .flat
                .outline()
                .contains(Point::new(at[0] + self.low[0], at[1] + self.low[1]))
            {
                0.0
            } else {
                1.0
            };
            if outside < nearest {
                nearest = outside;
                best = Some(at);
            }
        }
        best
    }

    /// Where a place on a drum's wall lies on its blank: `along` the axis and `round` from the seam on
    /// the outside, both in metres.
    #[must_use]
    pub fn place_round(&self, along: f64, round: f64) -> Option<[f64; 2]> {
        let laid = self.round?;
        Some([along - laid.start, round * laid.scale - laid.gap])
    }

    fn down(&self, point: Point) -> [f64; 2] {
        let [x, y] = self.low;
        [point.x - x, point.y - y]
    }
}
