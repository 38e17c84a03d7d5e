//! Baffles: plates across the inside.

use core::f64::consts::PI;

use heapless::Vec;

use super::PlaceError;
use crate::body::{ArcPath, Body, Edge, FlatForm, MAX_PLATE_CORNERS, Path, Solid, disc_below};
use crate::geom::Vector;
use crate::input::limits::MAX_BAFFLE_HOLES;
use crate::input::{Across, BaffleDraft, Face};
use crate::units::{Angle, Length};

/// A hole in a baffle, in metres of the plate's plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BaffleHole {
    /// Its centre.
    pub at: [f64; 2],
    /// Its radius.
    pub radius: f64,
}

/// A baffle where it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Baffle {
    across: Across,
    at: f64,
    thickness: f64,
    plate: FlatForm,
    holes: Vec<BaffleHole, MAX_BAFFLE_HOLES>,
}

/// A way through a baffle, in metres of the plate's plane.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Passage<'a> {
    /// A round hole.
    Disc {
        /// Its centre.
        centre: [f64; 2],
        /// Its radius.
        radius: f64,
    },
    /// A convex opening with straight sides, its corners counter-clockwise.
    #[expect(dead_code, reason = "baffles have no such opening yet")]
    Corners(&'a [[f64; 2]]),
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
    /// [`PlaceError`] where it does not fit there, with the number from 1 of the hole at fault if it is
    /// one.
    pub(crate) fn place(
        body: &Body,
        draft: &BaffleDraft,
        thickness: Length,
    ) -> Result<Self, (PlaceError, Option<u8>)> {
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
            return Err((outside, None));
        }
        let plate = plate(inside, draft.across, at).map_err(|error| (error, None))?;
        let mut holes = Vec::new();
        for (hole, number) in draft.holes.iter().zip(1_u8..) {
            let hole = BaffleHole {
                at: hole.at.map(Length::si),
                radius: 0.5 * hole.diameter.si(),
            };
            let spare = plate.inside(hole.at) - hole.radius;
            if spare < 0.0 {
                let off = PlaceError::OffBaffle {
                    by: Length::from_metres(-spare),
                };
                return Err((off, Some(number)));
            }
            // As many as the draft may have.
            let _ = holes.push(hole);
        }
        Ok(Self {
            across: draft.across,
            at,
            thickness: thickness.si(),
            plate,
            holes,
        })
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

    /// Every way through it: liquid runs from side to side down to the lowest point of one, and air up to the highest.
    pub(crate) fn passages(&self) -> impl Iterator<Item = Passage<'_>> {
        self.holes.iter().map(|hole| Passage::Disc {
            centre: hole.at,
            radius: hole.radius,
        })
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
        match &self.plate {
            FlatForm::Corners(corners) => corners.len(),
            FlatForm::Outline(section) => section.len(),
            FlatForm::Disc { .. } => 1,
        }
    }

    /// The wall that the seam at a place is on.
    pub(crate) fn wall(&self, inside: &Solid, place: usize) -> Option<Face> {
        match &self.plate {
            FlatForm::Corners(_) => {
                let [start, end] = self.ends(place)?;
                wall_at(inside, (start + end) * 0.5)
            }
            FlatForm::Outline(section) => Some(Face::Side(section.side_number(place))),
            FlatForm::Disc { .. } => Some(Face::Shell),
        }
    }

    /// The two corners between which a seam runs, of a plate with sharp ones.
    fn ends(&self, place: usize) -> Option<[Vector; 2]> {
        let of = |at: usize| match &self.plate {
            FlatForm::Corners(corners) => corners.get(at % corners.len().max(1)).copied(),
            FlatForm::Outline(section) => Some(section.at(at)),
            FlatForm::Disc { .. } => None,
        };
        Some([self.lift(of(place)?), self.lift(of(place + 1)?)])
    }

    /// The seam at a place of those that hold it, its number counted from 1.
    pub(crate) fn edge(&self, inside: &Solid, number: u8, place: usize) -> Option<Edge> {
        let mut edge = Edge {
            faces: [self.wall(inside, place)?, Face::Baffle(number)],
            ends: [Vector::ZERO; 2],
            dihedral: Angle::from_radians(0.5 * PI),
            path: Path::Straight,
            radius: Length::default(),
        };
        match &self.plate {
            FlatForm::Corners(_) => edge.ends = self.ends(place)?,
            FlatForm::Outline(_) => {
                edge.ends = self.ends(place)?;
                inside.round(&mut edge);
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

/// The wall on which a point lies.
fn wall_at(inside: &Solid, point: Vector) -> Option<Face> {
    let mut nearest = None;
    let mut least = f64::INFINITY;
    for view in inside.faces() {
        let off = libm::fabs(view.plane().distance(point));
        if off < least {
            least = off;
            nearest = Some(view.face());
        }
    }
    nearest
}

/// The form of the inside at a plane across one axis.
fn plate(inside: &Solid, across: Across, at: f64) -> Result<FlatForm, PlaceError> {
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
    let mut points: Vec<[f64; 2], { 2 * MAX_PLATE_CORNERS }> = Vec::new();
    let mut keep = |point: Vector| {
        let flat = [right.dot(point), ahead.dot(point)];
        let known = points
            .iter()
            .any(|p| libm::hypot(p[0] - flat[0], p[1] - flat[1]) < 1e-9);
        if known {
            return Ok(());
        }
        points.push(flat).map_err(|_| PlaceError::Parted)
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
            keep(corner(other, y))?;
        }
    } else if across == Across::Width && inside.face(Face::Side(1)).is_some() {
        let front = inside.face(Face::Front).ok_or(PlaceError::Parted)?;
        let mut corners = Vec::new();
        for corner in front.outline() {
            corners
                .push([right.dot(corner), ahead.dot(corner)])
                .map_err(|_| PlaceError::Parted)?;
        }
        return Ok(FlatForm::Corners(corners));
    } else {
        for edge in inside.edges() {
            let [a, b] = edge.ends;
            let (ha, hb) = (axis.dot(a) - at, axis.dot(b) - at);
            if (ha <= 0.0) != (hb <= 0.0) {
                keep(a + (b - a) * (ha / (ha - hb)))?;
            }
        }
        if inside.face(Face::Side(1)).is_some() && points.len() > 4 {
            return Err(PlaceError::Parted);
        }
    }
    around(&points)
}

/// The points of a convex form in order round its middle.
fn around(points: &[[f64; 2]]) -> Result<FlatForm, PlaceError> {
    let count = points.len();
    if count < 3 {
        return Err(PlaceError::Parted);
    }
    let mut middle = [0.0; 2];
    for point in points {
        middle[0] += point[0] / count as f64;
        middle[1] += point[1] / count as f64;
    }
    let mut corners: Vec<[f64; 2], MAX_PLATE_CORNERS> =
        Vec::from_slice(points).map_err(|_| PlaceError::Parted)?;
    let angle = |p: &[f64; 2]| libm::atan2(p[1] - middle[1], p[0] - middle[0]);
    // A plate has at most sixteen corners: the simplest sort there is will do.
    crate::geom::sort::insertion(&mut corners, |a, b| angle(a) < angle(b));
    Ok(FlatForm::Corners(corners))
}
