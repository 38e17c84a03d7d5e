//! Baffles: plates across the inside.

use core::f64::consts::PI;

use heapless::Vec;

use super::PlaceError;
use crate::body::{
    ArcPath, Body, Edge, FaceView, FlatForm, MAX_PLATE_CORNERS, Path, Solid, disc_below,
    half_turned,
};
use crate::geom::Vector;
use crate::geom::outline::section::{Section, SectionCorner, off};
use crate::input::limits::MAX_BAFFLE_HOLES;
use crate::input::{Across, BaffleDraft, Face, WallSet};
use crate::units::{Angle, Length};

/// A hole in a baffle, in metres of the plate's plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BaffleHole {
    /// Its centre.
    pub at: [f64; 2],
    /// Its radius.
    pub radius: f64,
}

/// Beside the bits of its sides: something is left open below or above a baffle.
pub(super) const OPEN: u16 = 1 << 15;

/// What a gauge calls of a flanged baffle without having it in its program.
#[derive(Debug)]
pub(super) struct Work {
    pub(super) edge: fn(&Baffle, &Flanges, usize, &mut Edge),
    pub(super) volume: fn(&Baffle, &Flanges) -> f64,
    pub(super) below: fn(&Baffle, &Flanges, Vector, f64) -> f64,
    pub(super) middle: fn(&Baffle, &Flanges) -> Vector,
}

/// The flanges of a baffle; lengths in metres. A gauge holds room for those of eight baffles and has none: what can be
/// worked out from the rest is not kept.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Flanges {
    /// A bit for each side of the plate that has one.
    pub(super) sides: u16,
    /// Whether they point to the high side of the axis.
    pub(crate) high: bool,
    /// From the outer face of the plate to the free edge.
    pub(crate) width: f64,
    /// From the rim to where a bend begins, on the plate and on the flange.
    pub(crate) setback: f64,
    /// What a bend takes of the blank.
    pub(super) allowance: f64,
    /// How much larger the blank is than the plate, in m².
    pub(super) more: f64,
    pub(super) work: &'static Work,
}

impl PartialEq for Flanges {
    fn eq(&self, other: &Self) -> bool {
        let all = |of: &Self| [of.width, of.setback, of.allowance, of.more];
        self.sides == other.sides && self.high == other.high && all(self) == all(other)
    }
}

/// A baffle where it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Baffle {
    across: Across,
    at: f64,
    thickness: f64,
    pub(super) plate: FlatForm,
    holes: Vec<BaffleHole, MAX_BAFFLE_HOLES>,
    /// A bit for each side of the plate that meets no wall.
    pub(super) free: u16,
    /// What of its edges is bent over; a gauge has none.
    pub(super) flanges: Option<Flanges>,
    /// The walls through which it is plug-welded.
    pub(super) plugged: WallSet,
}

/// The axis that a baffle stands across, and the two of its plane in the order x, y, z.
pub(crate) fn axes(across: Across) -> [Vector; 3] {
    let (x, y, z) = (
        Vector::new(1.0, 0.0, 0.0),
        Vector::new(0.0, 1.0, 0.0),
        Vector::new(0.0, 0.0, 1.0),
    );
    match across {
        Across::Length => [x, y, z],
        Across::Width => [y, x, z],
        Across::Height => [z, x, y],
    }
}

impl Baffle {
    /// Finds the form of a baffle where it is to stand.
    ///
    /// # Errors
    /// [`PlaceError`] where it does not fit there.
    pub(crate) fn place(
        body: &Body,
        draft: &BaffleDraft,
        thickness: Length,
    ) -> Result<Self, PlaceError> {
        let inside = &body.inside;
        let at = draft.at.si();
        let half = 0.5 * thickness.si();
        let [axis, ..] = axes(draft.across);
        let (low, high) = inside.extent(axis);
        if !(at - half > low && at + half < high) {
            let outside = PlaceError::Outside {
                low: Length::from_metres(low),
                high: Length::from_metres(high),
            };
            return Err(outside);
        }
        let plate = plate(inside, draft.across, at)?;
        let mut holes = Vec::new();
        for hole in &draft.holes {
            // As many as the draft may have.
            let _ = holes.push(BaffleHole {
                at: hole.at.map(Length::si),
                radius: 0.5 * hole.diameter.si(),
            });
        }
        Ok(Self {
            across: draft.across,
            at,
            thickness: thickness.si(),
            plate,
            holes,
            free: 0,
            flanges: None,
            plugged: WallSet::NONE,
        })
    }

    /// Looks whether every hole lies within the plate.
    ///
    /// # Errors
    /// [`PlaceError`], with the number from 1 of the hole at fault.
    pub(crate) fn check_holes(&self) -> Result<(), (PlaceError, u8)> {
        for (hole, number) in self.holes.iter().zip(1_u8..) {
            let spare = self.plate.inside(hole.at) - hole.radius;
            if spare < 0.0 {
                let off = PlaceError::OffBaffle {
                    by: Length::from_metres(-spare),
                };
                return Err((off, number));
            }
        }
        Ok(())
    }

    /// Its form; coordinates are those of the two axes of its plane, in the order x, y, z.
    #[must_use]
    pub const fn plate(&self) -> &FlatForm {
        &self.plate
    }

    /// Its holes.
    #[must_use]
    pub fn holes(&self) -> &[BaffleHole] {
        &self.holes
    }

    /// The walls through which it is plug-welded from outside.
    #[must_use]
    pub const fn plugged(&self) -> WallSet {
        self.plugged
    }

    /// Whether it is so through this one.
    pub(crate) const fn is_plugged(&self, wall: Face) -> bool {
        self.plugged.has(wall)
    }

    /// Its sheet.
    #[must_use]
    pub const fn thickness(&self) -> Length {
        Length::from_metres(self.thickness)
    }

    /// The size that it stands across.
    #[must_use]
    pub const fn across(&self) -> Across {
        self.across
    }

    /// The unit direction that it stands across.
    pub(crate) fn axis(&self) -> Vector {
        let [axis, ..] = axes(self.across);
        axis
    }

    /// Whether a point of the tank lies within its sheet.
    pub(crate) fn is_metal(&self, point: Vector) -> bool {
        let [axis, right, ahead] = axes(self.across);
        if libm::fabs(axis.dot(point) - self.at) > 0.5 * self.thickness {
            return false;
        }
        let flat = [right.dot(point), ahead.dot(point)];
        let in_hole = |hole: &BaffleHole| {
            libm::hypot(flat[0] - hole.at[0], flat[1] - hole.at[1]) <= hole.radius
        };
        self.plate.inside(flat) >= 0.0 && !self.holes.iter().any(in_hole)
    }

    /// Where its middle stands on that axis, from the outside corner of the tank.
    #[must_use]
    pub const fn at(&self) -> Length {
        Length::from_metres(self.at)
    }

    /// Its area less its holes, in m².
    #[must_use]
    pub fn area(&self) -> f64 {
        let holes: f64 = self.holes.iter().map(|h| PI * h.radius * h.radius).sum();
        self.plate.area() - holes
    }

    /// What it takes of the inside, in m³.
    pub(super) fn displaced(&self) -> f64 {
        self.area() * self.thickness
    }

    /// What of it lies below a plane, counted at the middle of its sheet; or where the plane is so nearly
    /// its own that it goes through the sheet about as soon as along it, by how far through it is. The room
    /// taken so never grows faster with depth than the liquid's, which must not seem to fall.
    pub(super) fn below(&self, up: Vector, level: f64) -> f64 {
        let [axis, right, ahead] = axes(self.across);
        let dir = [up.dot(right), up.dot(ahead)];
        let steep = libm::hypot(dir[0], dir[1]);
        let level = level - up.dot(axis) * self.at;
        let unit = 1.0 / libm::fmax(steep, 1e-12);
        let dir = dir.map(|c| c * unit);
        let [low, high] = self.plate.span(dir);
        let through = libm::fabs(up.dot(axis)) * self.thickness;
        // A line across a convex plate is at most twice as long as the plate is wide on average, so along it
        // the plate fills at most twice as fast.
        if steep * (high - low) <= 2.0 * through {
            let past = (level - 0.5 * steep * (low + high)) / through + 0.5;
            return self.displaced() * libm::fmin(libm::fmax(past, 0.0), 1.0);
        }
        let level = level / steep;
        let holes: f64 = self
            .holes
            .iter()
            .map(|hole| disc_below(hole.at, hole.radius, dir, level))
            .sum();
        (self.plate.below(dir, level) - holes) * self.thickness
    }

    /// A point of its plane in the tank.
    fn lift(&self, [right, ahead]: [f64; 2]) -> Vector {
        let [axis, first, second] = axes(self.across);
        axis * self.at + first * right + second * ahead
    }

    /// The place on the tank that a place on its plane is, and the two axes of that plane.
    pub(crate) fn frame(&self, at: [f64; 2]) -> [Vector; 3] {
        let [_, first, second] = axes(self.across);
        [self.lift(at), first, second]
    }

    /// How many seams hold it.
    pub(crate) fn seam_count(&self) -> usize {
        self.sides() - (self.free & !OPEN).count_ones() as usize
    }

    /// How many sides its plate has.
    pub(crate) fn sides(&self) -> usize {
        match &self.plate {
            FlatForm::Corners(corners) => corners.len(),
            FlatForm::Outline(section) => section.len(),
            FlatForm::Disc { .. } => 1,
        }
    }

    /// The side of the plate at which the seam at a place is.
    pub(super) fn side_of(&self, place: usize) -> Option<usize> {
        let mut held = (0..self.sides()).filter(|side| self.free & (1 << side) == 0);
        held.nth(place)
    }

    /// The wall that the seam at a place is on.
    pub(crate) fn wall(&self, inside: &Solid, place: usize) -> Option<Face> {
        self.wall_of(inside, self.side_of(place)?)
    }

    /// The wall that a side of the plate stands on.
    pub(crate) fn wall_of(&self, inside: &Solid, side: usize) -> Option<Face> {
        if inside.turned().is_some() {
            return Some(Face::Shell);
        }
        let [start, end] = match &self.plate {
            FlatForm::Outline(section) => section.straight(side).map(|at| self.lift(at)),
            _ => self.ends(side)?,
        };
        let middle = (start + end) * 0.5;
        match inside.face(Face::Front) {
            Some(front) if self.across == Across::Width && inside.face(Face::Side(1)).is_some() => {
                beside(&front, middle)
            }
            _ => wall_at(inside, middle),
        }
    }

    /// The two corners between which a side runs, of a plate with sharp ones.
    fn ends(&self, side: usize) -> Option<[Vector; 2]> {
        let of = |at: usize| match &self.plate {
            FlatForm::Corners(corners) => corners.get(at % corners.len().max(1)).copied(),
            FlatForm::Outline(section) => Some(section.at(at)),
            FlatForm::Disc { .. } => None,
        };
        Some([self.lift(of(side)?), self.lift(of(side + 1)?)])
    }

    /// The seam at a place of those that hold it, its number counted from 1.
    pub(crate) fn edge(&self, inside: &Solid, number: u8, place: usize) -> Option<Edge> {
        let side = self.side_of(place)?;
        let mut edge = self.rim_edge(inside, number, side)?;
        self.to_flange(side, &mut edge);
        Some(edge)
    }

    /// A side of its plate as an edge between it and its wall, at the middle of its sheet.
    pub(crate) fn rim_edge(&self, inside: &Solid, number: u8, side: usize) -> Option<Edge> {
        let mut edge = Edge {
            faces: [self.wall_of(inside, side)?, Face::Baffle(number)],
            ends: [Vector::ZERO; 2],
            dihedral: Angle::from_radians(0.5 * PI),
            path: Path::Straight,
            radius: Length::default(),
        };
        match &self.plate {
            FlatForm::Corners(_) => edge.ends = self.ends(side)?,
            FlatForm::Outline(section) => {
                (edge.ends, edge.path) = half_turned(section, side, &|at| self.lift(at));
            }
            FlatForm::Disc { centre, radius } => {
                let [axis, right, _] = axes(self.across);
                let turn = ArcPath {
                    centre: self.lift(*centre),
                    from: right,
                    towards: axis.cross(right),
                    radius: *radius,
                    sweep: 2.0 * PI,
                };
                edge.ends = [turn.at(0.0); 2];
                edge.path = Path::Round(turn);
            }
        }
        Some(edge)
    }
}

/// The wall on whose plane a point lies.
fn wall_at(inside: &Solid, point: Vector) -> Option<Face> {
    nearest(inside.faces().map(|view| {
        let off = libm::fabs(view.plane().distance(point));
        (view.face(), off)
    }))
}

/// The side of a profile that a point lies on, of whatever depth: two sides in one plane are told apart by
/// where they run.
fn beside(front: &FaceView<'_>, point: Vector) -> Option<Face> {
    nearest(front.sharp_sides().filter_map(|(_, edge)| {
        let edge = edge?;
        let [start, end] = edge.ends;
        let flat = |v: Vector| [v.x, v.z];
        let distance = off(flat(point - start), flat(end - start));
        let [first, second] = edge.faces;
        let side = if first == Face::Front { second } else { first };
        Some((side, distance))
    }))
}

/// The nearest of some faces.
fn nearest(all: impl Iterator<Item = (Face, f64)>) -> Option<Face> {
    let mut nearest = None;
    let mut least = f64::INFINITY;
    for (face, distance) in all {
        if distance < least {
            least = distance;
            nearest = Some(face);
        }
    }
    nearest
}

/// The form of the inside at a plane across one axis.
pub(super) fn plate(inside: &Solid, across: Across, at: f64) -> Result<FlatForm, PlaceError> {
    if let Some((centre, radius)) = inside
        .disc_at(across, at)
        .map_err(|()| PlaceError::NotAcrossDrum)?
    {
        return Ok(FlatForm::Disc { centre, radius });
    }
    if let Some(section) = inside.section()
        && across == Across::Width
    {
        return Ok(FlatForm::Outline(*section));
    }
    let [axis, right, ahead] = axes(across);
    let mut points: Vec<SectionCorner, { 2 * MAX_PLATE_CORNERS }> = Vec::new();
    let mut keep = |point: Vector, radius: f64| {
        let at = [right.dot(point), ahead.dot(point)];
        let known = points
            .iter()
            .any(|p| libm::hypot(p.at[0] - at[0], p.at[1] - at[1]) < 1e-9);
        if known {
            return Ok(());
        }
        points
            .push(SectionCorner { at, radius })
            .map_err(|_| PlaceError::Parted)
    };
    if let Some((section, front, back)) = inside.rounded() {
        // The plane runs along the outline's own axis: a rectangle over each chord.
        let chord = section.crossings(usize::from(across == Across::Height), at);
        let [low, high] = chord.ok_or(PlaceError::Parted)?;
        let corner = |other: f64, y: f64| match across {
            Across::Length => Vector::new(at, y, other),
            _ => Vector::new(other, y, at),
        };
        for (other, y) in [(low, front), (low, back), (high, front), (high, back)] {
            keep(corner(other, y), 0.0)?;
        }
    } else {
        for edge in inside.sharp_edges() {
            let [a, b] = edge.ends;
            let (ha, hb) = (axis.dot(a) - at, axis.dot(b) - at);
            if (ha <= 0.0) != (hb <= 0.0) {
                keep(a + (b - a) * (ha / (ha - hb)), edge.radius.si())?;
            }
        }
        let profile = inside.face(Face::Side(1)).is_some();
        if profile && across != Across::Width && points.len() > 4 {
            return Err(PlaceError::Parted);
        }
        // Its corners stand in the order of its outline, which may have inside corners.
        if profile
            && across == Across::Width
            && let Some(front) = inside.face(Face::Front)
        {
            let place = |corner: &SectionCorner| {
                let near = |p: Vector| {
                    libm::hypot(right.dot(p) - corner.at[0], ahead.dot(p) - corner.at[1]) < 1e-9
                };
                front.outline().position(near)
            };
            crate::geom::sort::insertion(&mut points, |a, b| place(a) < place(b));
            return formed(&points);
        }
    }
    around(&mut points)
}

/// A form through corners in their order.
fn formed(points: &[SectionCorner]) -> Result<FlatForm, PlaceError> {
    if points.iter().any(|corner| corner.radius > 0.0) {
        let section = Section::new(points).map_err(|_| PlaceError::Parted)?;
        return Ok(FlatForm::Outline(section));
    }
    let mut corners = Vec::new();
    for corner in points {
        corners.push(corner.at).map_err(|_| PlaceError::Parted)?;
    }
    Ok(FlatForm::Corners(corners))
}

/// The corners of a convex form in order round its middle.
fn around(points: &mut [SectionCorner]) -> Result<FlatForm, PlaceError> {
    let count = points.len();
    if count < 3 {
        return Err(PlaceError::Parted);
    }
    let mut middle = [0.0; 2];
    for point in points.iter() {
        middle[0] += point.at[0] / count as f64;
        middle[1] += point.at[1] / count as f64;
    }
    let angle = |p: &SectionCorner| libm::atan2(p.at[1] - middle[1], p.at[0] - middle[0]);
    // A plate has at most sixteen corners: the simplest sort there is will do.
    crate::geom::sort::insertion(points, |a, b| angle(a) < angle(b));
    formed(points)
}
