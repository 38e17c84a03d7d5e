//! A baffle as it is cut: clear of the walls by a little, left open below or above, its corners taken off,
//! notches along its rim.
//!
//! What is cut stays one outline of at most twelve corners, of which each side either stands on a wall or
//! is free. A gauge has no room for this: a job with such baffles is the laptop's.

use heapless::Vec;

use super::baffle::Baffle;
use super::error::CutFault;
use crate::body::{FlatForm, Solid};
use crate::geom::outline::section::{CornerArc, MAX_CORNERS, Section, SectionCorner};
use crate::geom::outline::{cross, dot};
use crate::input::{Across, WallSet};
use crate::units::Length;

/// Notches that a baffle may have, its corners apart.
pub const MAX_NOTCHES: usize = 4;
/// Straight runs and turns of a rim while it is cut.
const MAX_RUNS: usize = 4 * MAX_CORNERS;
/// Play between a loose edge and its wall, in m, so that neither rubs: common practice, no source.
pub(crate) const PLAY: f64 = 0.003;
/// Points nearer than this, in metres, are one.
const SAME: f64 = 1e-9;

/// A notch in the rim of a baffle, for liquid and air to pass along a wall.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Notch {
    /// Where its middle is on the rim, in the coordinates of the baffle's holes: it is cut into the straight
    /// side that is nearest to there.
    pub at: [Length; 2],
    /// Along the wall.
    pub width: Length,
    /// Away from it.
    pub depth: Length,
}

/// How a baffle is cut.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct BaffleCut {
    /// How far its rim stays from the inside of the sheet, all round.
    pub clearance: Length,
    /// What is left open below it, from the lowest point of the inside there.
    pub gap_below: Length,
    /// What is left open above it.
    pub gap_above: Length,
    /// Legs of the triangle that is taken off every corner between two walls.
    pub corner_notch: Length,
    /// The walls through which it is plug-welded from outside.
    pub plugged: WallSet,
    /// Notches along its rim.
    pub notches: Vec<Notch, MAX_NOTCHES>,
    /// Edges that are bent over.
    pub flange: Option<FlangeCut>,
}

/// Which edges of a baffle are bent over, by how much and to which side.
#[derive(Clone, Debug, PartialEq)]
pub struct FlangeCut {
    /// How wide the flanges are: from the face of the plate on the outside of the bend to their free edge.
    pub width: Length,
    /// Whether they point to the right, the back or the top; else to the left, the front or the bottom.
    pub high: bool,
    /// The walls along which a flange lies.
    pub walls: WallSet,
    /// Whether the edge over what is left open below is stiffened so.
    pub below: bool,
    /// Whether the edge under what is left open above is.
    pub above: bool,
}

impl FlangeCut {
    /// Whether no edge is named: then every edge that stands on a wall has a flange.
    #[must_use]
    pub fn is_all(&self) -> bool {
        self.walls.is_empty() && !self.below && !self.above
    }
}

/// A straight run or a turn of a rim.
#[derive(Clone, Copy, Debug)]
enum Run {
    Line { ends: [[f64; 2]; 2], free: bool },
    Turn(CornerArc),
}

impl Run {
    fn ends(&self) -> [[f64; 2]; 2] {
        match self {
            Self::Line { ends, .. } => *ends,
            Self::Turn(arc) => arc.ends(),
        }
    }

    /// Its directions where it starts and where it ends.
    fn ways(&self) -> [[f64; 2]; 2] {
        match self {
            Self::Line { ends: [a, b], .. } => {
                let run = [b[0] - a[0], b[1] - a[1]];
                let length = libm::hypot(run[0], run[1]);
                [run.map(|c| c / length); 2]
            }
            Self::Turn(arc) => [arc.towards, part(arc, arc.sweep, arc.sweep).towards],
        }
    }

    const fn is_free(&self) -> bool {
        matches!(self, Self::Line { free: true, .. })
    }

    /// Cut where it crosses the height: the parts of it, in their order.
    fn parts(&self, height: f64) -> Vec<Self, 3> {
        let mut cuts: Vec<f64, 2> = Vec::new();
        let mut parts = Vec::new();
        match self {
            Self::Line { ends: [a, b], free } => {
                let (from, to) = (a[1] - height, b[1] - height);
                let at = |share: f64| [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
                let mut last = *a;
                if from * to < 0.0 {
                    let middle = at(from / (from - to));
                    let _ = parts.push(Self::Line {
                        ends: [last, middle],
                        free: *free,
                    });
                    last = middle;
                }
                let _ = parts.push(Self::Line {
                    ends: [last, *b],
                    free: *free,
                });
            }
            Self::Turn(arc) => {
                let over = (height - arc.centre[1]) / arc.radius;
                if libm::fabs(over) < 1.0 {
                    let steepest = libm::atan2(arc.towards[1], arc.from[1]);
                    let half = libm::acos(over);
                    for angle in [steepest - half, steepest + half] {
                        let turn = 2.0 * core::f64::consts::PI;
                        let angle = angle - turn * libm::floor(angle / turn);
                        if angle > 0.0 && angle < arc.sweep {
                            let _ = cuts.push(angle);
                        }
                    }
                    crate::geom::sort::insertion(&mut cuts, |a, b| a < b);
                }
                let mut last = 0.0;
                for to in cuts.iter().copied().chain(core::iter::once(arc.sweep)) {
                    let _ = parts.push(Self::Turn(part(arc, last, to)));
                    last = to;
                }
            }
        }
        parts
    }

    /// Its middle.
    fn middle(&self) -> [f64; 2] {
        match self {
            Self::Line { ends: [a, b], .. } => [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])],
            Self::Turn(arc) => arc.at(0.5 * arc.sweep),
        }
    }
}

/// An arc from one of its angles to another.
fn part(arc: &CornerArc, from: f64, to: f64) -> CornerArc {
    let (sine, cosine) = libm::sincos(from);
    let ([a, b], [c, d]) = (arc.from, arc.towards);
    CornerArc {
        from: [a * cosine + c * sine, b * cosine + d * sine],
        towards: [c * cosine - a * sine, d * cosine - b * sine],
        sweep: to - from,
        ..*arc
    }
}

type Runs = Vec<Run, MAX_RUNS>;

/// The runs of an outline, all of them on walls.
fn runs(section: &Section) -> Runs {
    let mut runs = Runs::new();
    for place in 0..section.len() {
        if let Some(arc) = section.arc(place) {
            let _ = runs.push(Run::Turn(arc));
        }
        let ends = section.straight(place);
        if section.straight_length(place) > SAME {
            let _ = runs.push(Run::Line { ends, free: false });
        }
    }
    runs
}

/// What of a rim lies above a height (`above`) or below it; `None` where nothing does, or more than one piece.
fn clipped(runs: &Runs, height: f64, above: bool) -> Result<Runs, CutFault> {
    let mut kept = Runs::new();
    for run in runs {
        for part in run.parts(height) {
            let [a, b] = part.ends();
            let short = libm::hypot(b[0] - a[0], b[1] - a[1]) <= SAME;
            if (part.middle()[1] > height) == above && !short {
                kept.push(part).map_err(|_| CutFault::Corners)?;
            }
        }
    }
    let mut closed = Runs::new();
    let mut gaps = 0;
    let next = kept.iter().skip(1).chain(kept.first());
    for (run, next) in kept.iter().zip(next) {
        closed.push(*run).map_err(|_| CutFault::Corners)?;
        let ([_, end], [start, _]) = (run.ends(), next.ends());
        if libm::hypot(start[0] - end[0], start[1] - end[1]) > SAME {
            gaps += 1;
            let chord = Run::Line {
                ends: [end, start],
                free: true,
            };
            closed.push(chord).map_err(|_| CutFault::Corners)?;
        }
    }
    match (closed.is_empty(), gaps) {
        (true, _) => Err(CutFault::Gaps),
        (false, 0 | 1) => Ok(closed),
        (false, _) => Err(CutFault::Parted),
    }
}

/// A corner of a rim, and whether the side after it is free.
#[derive(Clone, Copy, Debug)]
struct Corner {
    own: SectionCorner,
    free: bool,
}

type Corners = Vec<Corner, MAX_CORNERS>;

/// The corners of a rim.
fn corners(runs: &Runs) -> Result<Corners, CutFault> {
    let mut corners = Corners::new();
    let mut push = |at: [f64; 2], radius: f64, free: bool| {
        let own = SectionCorner { at, radius };
        corners
            .push(Corner { own, free })
            .map_err(|_| CutFault::Corners)
    };
    let next = runs.iter().skip(1).chain(runs.first());
    for (run, next) in runs.iter().zip(next) {
        let ([_, end], [_, way], [ahead, _]) = (run.ends(), run.ways(), next.ways());
        let smooth = libm::fabs(cross(way, ahead)) < 1e-7 && dot(way, ahead) > 0.0;
        if let Run::Turn(arc) = run {
            let reach = arc.radius * libm::tan(0.5 * arc.sweep);
            let start = arc.at(0.0);
            let sharp = [
                start[0] + arc.towards[0] * reach,
                start[1] + arc.towards[1] * reach,
            ];
            push(sharp, arc.radius, smooth && next.is_free())?;
        }
        if !smooth {
            push(end, 0.0, next.is_free())?;
        }
    }
    Ok(corners)
}

/// The outline through corners.
fn outline(corners: &Corners) -> Result<Section, CutFault> {
    let mut all: Vec<SectionCorner, MAX_CORNERS> = Vec::new();
    for corner in corners {
        // As many as there are.
        let _ = all.push(corner.own);
    }
    Section::new(&all).map_err(|_| CutFault::Parted)
}

/// Takes the corners between two walls off.
fn without_corners(corners: &Corners, leg: f64) -> Result<Corners, (CutFault, f64)> {
    let section = outline(corners).map_err(|fault| (fault, 0.0))?;
    let count = corners.len().max(1);
    let is_free = |place: usize| {
        corners
            .get(around(place, count))
            .is_some_and(|corner| corner.free)
    };
    let taken =
        |place: usize| section.turn(place) > 0.0 && !is_free(place) && !is_free(place + count - 1);
    let mut cut = Corners::new();
    for (corner, place) in corners.iter().zip(0_usize..) {
        let full = |_| (CutFault::Corners, 0.0);
        if !taken(place) {
            cut.push(*corner).map_err(full)?;
            continue;
        }
        let tangent = section.tangent_length(place);
        if leg < tangent {
            return Err((CutFault::Bend, tangent));
        }
        for (side, other) in [(place, place + 1), (place + count - 1, place + count - 1)] {
            let length = section.sharp_length(around(side, count));
            let rest = if taken(around(other, count)) {
                leg
            } else {
                section.tangent_length(around(other, count))
            };
            if leg + rest >= length - SAME {
                let most = if taken(around(other, count)) {
                    0.5 * length
                } else {
                    length - rest
                };
                return Err((CutFault::Corner, most));
            }
        }
        let [u, w] = corner.own.at;
        let (before, after) = (
            section.direction(around(place + count - 1, count)),
            section.direction(place),
        );
        for (at, free) in [
            ([u - before[0] * leg, w - before[1] * leg], true),
            ([u + after[0] * leg, w + after[1] * leg], false),
        ] {
            let own = SectionCorner { at, radius: 0.0 };
            cut.push(Corner { own, free }).map_err(full)?;
        }
    }
    Ok(cut)
}

/// Cuts one notch.
fn notched(corners: &Corners, notch: &Notch, number: u8) -> Result<Corners, (CutFault, f64)> {
    let section = outline(corners).map_err(|fault| (fault, 0.0))?;
    let at = notch.at.map(Length::si);
    let (width, depth) = (notch.width.si(), notch.depth.si());
    let mut nearest = None;
    let mut least = f64::INFINITY;
    for (corner, place) in corners.iter().zip(0_usize..) {
        let [start, end] = section.straight(place);
        let run = [end[0] - start[0], end[1] - start[1]];
        let away = crate::geom::outline::section::off([at[0] - start[0], at[1] - start[1]], run);
        if !corner.free && section.straight_length(place) > SAME && away < least {
            least = away;
            nearest = Some(place);
        }
    }
    let place = nearest.ok_or((CutFault::Wide(number), 0.0))?;
    let [start, _] = section.straight(place);
    let along = section.direction(place);
    let inward = [-along[1], along[0]];
    let length = section.straight_length(place);
    let middle = dot(along, [at[0] - start[0], at[1] - start[1]]);
    let (from, to) = (middle - 0.5 * width, middle + 0.5 * width);
    if !(from > SAME && to < length - SAME) {
        let most = 2.0 * libm::fmin(middle, length - middle);
        return Err((CutFault::Wide(number), libm::fmax(most, 0.0)));
    }
    let point = |run: f64, deep: f64| {
        [
            start[0] + along[0] * run + inward[0] * deep,
            start[1] + along[1] * run + inward[1] * deep,
        ]
    };
    let new = [
        (point(from, 0.0), true),
        (point(from, depth), true),
        (point(to, depth), true),
        (point(to, 0.0), false),
    ];
    let mut cut = Corners::new();
    for (corner, here) in corners.iter().zip(0_usize..) {
        let full = |_| (CutFault::Corners, 0.0);
        cut.push(*corner).map_err(full)?;
        if here == place {
            for (at, free) in new {
                let own = SectionCorner { at, radius: 0.0 };
                cut.push(Corner { own, free }).map_err(full)?;
            }
        }
    }
    // Its floor within the plate, and no side of it across another.
    let (floor, other) = (point(from, depth), point(to, depth));
    let within = section.inside(floor) > SAME && section.inside(other) > SAME;
    match outline(&cut) {
        Ok(_) if within => Ok(cut),
        _ => Err((CutFault::Deep(number), depth)),
    }
}

impl BaffleCut {
    /// Whether it leaves a baffle as it is.
    #[must_use]
    pub fn is_none(&self) -> bool {
        *self == Self::default()
    }
}

impl Baffle {
    /// Cuts it, and tells what does not fit: by which limit, in metres, where there is one. `loose` are the walls that its
    /// edges are not welded to.
    pub(crate) fn cut(
        &mut self,
        inside: &Solid,
        loose: WallSet,
        cut: &BaffleCut,
    ) -> Result<(), (CutFault, f64)> {
        self.plugged = cut.plugged;
        let shape = BaffleCut {
            plugged: WallSet::NONE,
            ..cut.clone()
        };
        if shape.is_none() && loose.is_empty() {
            return Ok(());
        }
        let bare = |fault: CutFault| (fault, 0.0);
        let mut cut = shape;
        let loose = self.loose_sides(inside, loose);
        if matches!(self.plate, FlatForm::Disc { .. }) && loose != 0 {
            cut.clearance = Length::from_metres(libm::fmax(cut.clearance.si(), PLAY));
        }
        let cut = &cut;
        let clear = BaffleCut {
            clearance: cut.clearance,
            ..BaffleCut::default()
        };
        if let FlatForm::Disc { radius, .. } = &mut self.plate
            && *cut == clear
        {
            // A disc stays one, with one seam round it.
            if cut.clearance.si() >= *radius {
                return Err((CutFault::Clearance, *radius));
            }
            *radius -= cut.clearance.si();
            return Ok(());
        }
        let whole = section_of(&self.plate).ok_or(bare(CutFault::Corners))?;
        let clearance = cut.clearance.si();
        let section = clear_of_walls(&whole, clearance, loose)?;
        let mut rim = runs(&section);
        let (low, high) = whole.extent([0.0, 1.0]);
        let (below, above) = (cut.gap_below.si(), cut.gap_above.si());
        let is_open = below > 0.0 || above > 0.0;
        if is_open {
            if self.across() == Across::Height {
                return Err(bare(CutFault::Level));
            }
            let gaps = (CutFault::Gaps, high - low);
            if below + above >= high - low - 2.0 * clearance {
                return Err(gaps);
            }
            for (gap, height, keep_above) in
                [(below, low + below, true), (above, high - above, false)]
            {
                if gap > 0.0 {
                    rim = clipped(&rim, height, keep_above).map_err(bare)?;
                }
            }
        }
        let mut corners = corners(&rim).map_err(bare)?;
        if cut.corner_notch.si() > 0.0 {
            if matches!(self.plate, FlatForm::Disc { .. }) {
                return Err(bare(CutFault::Round));
            }
            corners = without_corners(&corners, cut.corner_notch.si())?;
        }
        for (notch, number) in cut.notches.iter().zip(1_u8..) {
            corners = notched(&corners, notch, number)?;
        }
        let section = outline(&corners).map_err(bare)?;
        self.free = if is_open { super::baffle::OPEN } else { 0 };
        for (corner, place) in corners.iter().zip(0_u32..) {
            self.free |= u16::from(corner.free) << place;
        }
        self.plate = FlatForm::Outline(section);
        Ok(())
    }
}

impl Baffle {
    /// A bit for each side of its plate that stands on one of these walls.
    fn loose_sides(&self, inside: &Solid, walls: WallSet) -> u16 {
        let mut sides = 0;
        if walls.is_empty() {
            return sides;
        }
        for (side, place) in (0..self.sides()).zip(0..u16::BITS) {
            if self
                .wall_of(inside, side)
                .is_some_and(|wall| walls.has(wall))
            {
                sides |= 1 << place;
            }
        }
        sides
    }
}

/// An outline that stays clear of the walls about it, and by [`PLAY`] at least at its loose sides.
fn clear_of_walls(whole: &Section, clearance: f64, loose: u16) -> Result<Section, (CutFault, f64)> {
    if !(clearance > 0.0) && loose == 0 {
        return Ok(*whole);
    }
    let across = [[1.0, 0.0], [0.0, 1.0]].map(|way| {
        let (low, high) = whole.extent(way);
        high - low
    });
    let half = 0.5 * libm::fmin(across[0], across[1]);
    let fault = (CutFault::Clearance, half);
    if clearance >= half {
        return Err(fault);
    }
    let count = whole.len();
    let away = |side: usize| {
        if loose & (1 << around(side, count)) == 0 {
            clearance
        } else {
            libm::fmax(clearance, PLAY)
        }
    };
    let mut sheets: Vec<f64, MAX_CORNERS> = Vec::new();
    // Within a bend that is tighter the corner is sharp, and so it is for now between two sides of which one moves farther.
    let mut sharp: Vec<SectionCorner, MAX_CORNERS> = Vec::new();
    for (corner, place) in whole.corners().iter().zip(0..) {
        let [before, after] = [away(place + count - 1), away(place)];
        let mut corner = *corner;
        let is_tight = whole.turn(place) > 0.0 && corner.radius <= libm::fmin(before, after);
        if is_tight || before < after || after < before {
            corner.radius = 0.0;
        }
        // As many as the outline has.
        let _ = sharp.push(corner);
        let _ = sheets.push(after);
    }
    let moved = Section::new(&sharp)
        .and_then(|sharp| sharp.inward(&sheets))
        .map_err(|_| fault)?;
    let mut eased: Vec<SectionCorner, MAX_CORNERS> = Vec::new();
    for (corner, place) in moved.corners().iter().zip(0..) {
        let [before, after] = [away(place + count - 1), away(place)];
        let mut corner = *corner;
        let drawn = whole.radius(place);
        if (before < after || after < before) && drawn > 0.0 {
            // The wall's own arc, moved off that side: it stays clear of the wall all along.
            let nearer = libm::fmin(before, after);
            corner.radius = if whole.turn(place) > 0.0 {
                libm::fmax(drawn - nearer, 0.0)
            } else {
                drawn + libm::fmax(before, after)
            };
        }
        let _ = eased.push(corner);
    }
    Section::new(&eased).map_err(|_| fault)
}

/// A plate as an outline; `None` of one with more corners than an outline may have.
pub(super) fn section_of(form: &FlatForm) -> Option<Section> {
    let mut all: Vec<SectionCorner, MAX_CORNERS> = Vec::new();
    match form {
        FlatForm::Outline(section) => return Some(*section),
        FlatForm::Corners(corners) => {
            for at in corners {
                let radius = 0.0;
                all.push(SectionCorner { at: *at, radius }).ok()?;
            }
        }
        FlatForm::Disc {
            centre: [u, w],
            radius,
        } => {
            // A square whose corners are rounded until nothing of its sides is left.
            let r = *radius;
            for [right, up] in [[-r, -r], [r, -r], [r, r], [-r, r]] {
                let at = [u + right, w + up];
                all.push(SectionCorner { at, radius: r }).ok()?;
            }
        }
    }
    Section::new(&all).ok()
}

/// A place counted round so many: of none, the first.
pub(super) fn around(place: usize, count: usize) -> usize {
    place.checked_rem(count).unwrap_or(0)
}
