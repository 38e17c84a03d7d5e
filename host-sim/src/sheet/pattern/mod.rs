//! One flat piece of sheet: its outline, holes, bend lines, marks and words.

mod fault;
mod segment;

pub use fault::{Fault, Limit};
pub use segment::Segment;

use std::ops::Range;

use segment::Box2;

/// The farthest a coordinate lies from the origin, and the largest hole, in millimetres.
pub const REACH: f64 = 100_000.0;
/// The smallest area that counts as a piece, in square millimetres.
pub const LEAST_AREA: f64 = 1.0;
/// The shortest piece of an outline, bend or mark, in millimetres: shorter ones are a slip in the
/// geometry, and some cutting machines stop at them.
pub const LEAST_LENGTH: f64 = 0.001;
/// The largest bulge either way: an arc of 337°.
pub const MOST_BULGE: f64 = 10.0;
/// The most signs in a mark, title, label or note.
pub const MOST_SIGNS: usize = 120;

/// A corner of an outline, and how the way to the next one bends.
///
/// The bulge is that of DXF's LWPOLYLINE (group 42): the tangent of a quarter of the arc's angle,
/// positive when the arc turns anticlockwise, 0 for a straight line, 1 for half a circle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Node {
    /// Position to the right, mm.
    pub x: f64,
    /// Position up, mm.
    pub y: f64,
    /// Tangent of a quarter of the angle of the arc to the next node.
    pub bulge: f64,
}

impl Node {
    /// A corner followed by a straight edge.
    pub const fn corner(x: f64, y: f64) -> Self {
        Self { x, y, bulge: 0.0 }
    }
}

/// A round hole.
#[derive(Clone, Debug, PartialEq)]
pub struct Hole {
    /// Its centre, mm.
    pub at: [f64; 2],
    /// Its diameter, mm.
    pub diameter: f64,
    /// What it is for; may be empty.
    pub label: String,
}

/// A line along which the sheet is folded.
#[derive(Clone, Debug, PartialEq)]
pub struct Bend {
    /// Where it starts and ends, mm.
    pub ends: [[f64; 2]; 2],
    /// What the folder needs to know, as "90° up"; may be empty.
    pub label: String,
    /// Folded towards the reader, otherwise away.
    pub up: bool,
}

/// A line scribed and not cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MarkLine {
    /// Where it starts and ends, mm.
    pub ends: [[f64; 2]; 2],
}

/// Words on the piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Note {
    /// The left end of the foot of the letters, mm.
    pub at: [f64; 2],
    /// Height of a capital letter, mm.
    pub height: f64,
    /// How far the words are turned anticlockwise, degrees.
    pub angle_deg: f64,
    /// The words, on one line.
    pub text: String,
}

/// Which notes and scribed lines only say what piece this is, and which way is up: they mean the same
/// anywhere on it, as long as they stay together. None by default.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Stamp {
    /// Of the notes, by place.
    pub notes: Range<usize>,
    /// Of the lines, by place.
    pub lines: Range<usize>,
}

/// A piece as it is filled in, not yet checked.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Draft {
    /// What is scribed on the piece, as "P3".
    pub mark: String,
    /// What the piece is, as "Front".
    pub title: String,
    /// The outside, closed and anticlockwise.
    pub outline: Vec<Node>,
    /// Holes cut through.
    pub holes: Vec<Hole>,
    /// Bend lines.
    pub bends: Vec<Bend>,
    /// Scribed lines.
    pub lines: Vec<MarkLine>,
    /// Words.
    pub notes: Vec<Note>,
    /// Those that may be moved.
    pub stamp: Stamp,
}

/// The smallest upright rectangle around something, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extents {
    /// Lower left corner.
    pub low: [f64; 2],
    /// Upper right corner.
    pub high: [f64; 2],
}

impl Extents {
    /// Size to the right, mm.
    pub fn width(&self) -> f64 {
        self.high[0] - self.low[0]
    }

    /// Size upwards, mm.
    pub fn height(&self) -> f64 {
        self.high[1] - self.low[1]
    }
}

/// A checked piece: finite, within [`REACH`], anticlockwise, with an area.
///
/// Not checked: whether the outline crosses itself, and whether holes lie inside it (a relief hole at
/// a bend's end reaches past the edge on purpose).
#[derive(Clone, Debug, PartialEq)]
pub struct Pattern {
    draft: Draft,
    extents: Extents,
    area: f64,
}

impl Pattern {
    /// Checks `draft` and measures it.
    ///
    /// # Errors
    /// The first field that breaks a limit of this module, with its value.
    pub fn build(draft: Draft) -> Result<Self, Fault> {
        fault::check(&draft)?;
        let mut found = Box2::EMPTY;
        let mut doubled = 0.0;
        for segment in segments(&draft.outline) {
            segment.cover(&mut found);
            doubled += segment.doubled_area();
        }
        let area = doubled / 2.0;
        if area < LEAST_AREA {
            return Err(Fault::new(
                &draft.mark,
                "outline area, mm²",
                area,
                Limit::Anticlockwise,
            ));
        }
        let extents = Extents {
            low: found.low,
            high: found.high,
        };
        Ok(Self {
            draft,
            extents,
            area,
        })
    }

    /// What is scribed on the piece.
    pub fn mark(&self) -> &str {
        &self.draft.mark
    }

    /// What the piece is.
    pub fn title(&self) -> &str {
        &self.draft.title
    }

    /// The corners of the outside, anticlockwise.
    pub fn outline(&self) -> &[Node] {
        &self.draft.outline
    }

    /// The lines and arcs of the outside, in order; the last ends where the first starts.
    pub fn segments(&self) -> impl Iterator<Item = Segment> {
        segments(&self.draft.outline)
    }

    /// Holes cut through.
    pub fn holes(&self) -> &[Hole] {
        &self.draft.holes
    }

    /// Bend lines.
    pub fn bends(&self) -> &[Bend] {
        &self.draft.bends
    }

    /// Scribed lines.
    pub fn lines(&self) -> &[MarkLine] {
        &self.draft.lines
    }

    /// Words.
    pub fn notes(&self) -> &[Note] {
        &self.draft.notes
    }

    /// Which of the lines and words may be moved.
    pub const fn stamp(&self) -> &Stamp {
        &self.draft.stamp
    }

    /// The smallest upright rectangle around the outline, arcs included.
    pub const fn extents(&self) -> Extents {
        self.extents
    }

    /// [`Self::extents`], widened by holes that reach past the outline: what the cutter touches.
    pub fn extents_with_holes(&self) -> Extents {
        let mut all = self.extents;
        for hole in self.holes() {
            let ([x, y], r) = (hole.at, hole.diameter / 2.0);
            all.low = [all.low[0].min(x - r), all.low[1].min(y - r)];
            all.high = [all.high[0].max(x + r), all.high[1].max(y + r)];
        }
        all
    }

    /// The area within the outline, holes not taken off, mm².
    pub const fn area(&self) -> f64 {
        self.area
    }
}

fn segments(outline: &[Node]) -> impl Iterator<Item = Segment> {
    let next = outline.iter().cycle().skip(1);
    outline
        .iter()
        .zip(next)
        .map(|(from, to)| Segment::between(*from, [to.x, to.y]))
}
