//! A closed body: its corners, faces and edges, and what follows from them.
//!
//! The corners and faces are those of a body with plane faces. A profile with rounded corners has them
//! as if its corners were sharp, a drum hardly any; what the roundness changes (areas, volumes, lengths)
//! comes from the body's [`Curve`].

use heapless::Vec;

use super::Path;
use super::area::{area_vector, clipped_area_vector, triangles};
use super::edge::Edge;
use super::placed::PlacedDrum;
use super::turned::Turned;
use crate::geom::outline::section::Section;
use crate::geom::{Plane, Vector};
use crate::input::limits::{MAX_FACES, MAX_FOLDS};
use crate::input::{Across, Axis, Face};
use crate::units::{Angle, Area, Length, Volume};

/// Vertices a body may have.
pub const MAX_VERTICES: usize = 40;
/// Edges a body may have.
pub const MAX_EDGES: usize = 40;
/// Corners of all faces together: each edge is walked once by each of its two faces.
pub(super) const MAX_CORNERS: usize = 2 * MAX_EDGES;

/// Two points nearer than this share of the body's largest dimension are one point. Far above the
/// rounding of a few clips (about 1e-15), far below anything that moves a volume by 1e-9.
pub(super) const SAME_POINT: f64 = 1e-11;

/// One face as a [`Solid`] stores it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Loop {
    pub(super) face: Face,
    pub(super) plane: Plane,
    pub(super) start: u8,
    pub(super) len: u8,
}

/// One edge as a [`Solid`] stores it: the places of its faces and of its ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Side {
    pub(super) faces: [u8; 2],
    pub(super) ends: [u8; 2],
    pub(super) dihedral: f64,
}

/// What is round about a solid.
// Its tag stands apart (`repr`), so that `None` is zero: see `Tank::EMPTY`.
#[derive(Clone, Debug, PartialEq)]
#[repr(u8)]
pub(super) enum Curve {
    /// Nothing: all its faces are plane.
    None,
    /// Corners of an outline in x and z, carried along y.
    Rounded(Rounded),
    /// It turns about an axis.
    Turned(PlacedDrum),
    /// Folded edges of plane faces.
    Folded(Folded),
}

/// An outline in x and z with rounded corners, carried along y.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Rounded {
    pub(super) section: Section,
    pub(super) front: f64,
    pub(super) width: f64,
}

/// A fold of a solid: the place of its side, and the radius of the surface there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Fold {
    pub(super) side: u8,
    pub(super) radius: f64,
}

/// The folds of a solid.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Folded {
    pub(super) folds: Vec<Fold, MAX_FOLDS>,
    pub(super) code: &'static Code,
}

/// What is worked out of folds. It stands behind pointers that only `Body::fold` sets, so that a
/// program that never folds a body of plane faces, for want of flash, links nothing of it.
#[derive(Debug)]
pub(super) struct Code {
    pub(super) below: fn(&Folded, &Solid, Vector, f64) -> (f64, f64),
    pub(super) moment_below: fn(&Folded, &Solid, Vector, f64) -> (f64, Vector),
    pub(super) whole: fn(&Folded, &Solid) -> (f64, Vector),
    pub(super) area: fn(&Folded, &Solid, u8) -> f64,
    pub(super) reach: fn(&Folded, &Solid, Vector) -> f64,
    pub(super) round: fn(&Folded, &Solid, &Side, &mut Edge),
    pub(super) rounds: fn(&Folded, &Solid, Vector) -> Option<bool>,
}

/// One face of a [`Solid`], as it is looked at.
#[derive(Clone, Copy, Debug)]
pub struct FaceView<'a> {
    solid: &'a Solid,
    this: &'a Loop,
}

impl<'a> FaceView<'a> {
    /// Which face it is.
    #[must_use]
    pub const fn face(&self) -> Face {
        self.this.face
    }

    /// Unit outward normal.
    #[must_use]
    pub const fn normal(&self) -> Vector {
        self.this.plane.normal
    }

    /// The plane it lies in.
    #[must_use]
    pub const fn plane(&self) -> Plane {
        self.this.plane
    }

    /// Its corners, counter-clockwise as seen from outside.
    pub fn outline(&self) -> impl Iterator<Item = Vector> + Clone + use<'a> {
        let solid = self.solid;
        solid
            .corners_of(self.this)
            .iter()
            .filter_map(|index| solid.vertices.get(usize::from(*index)).copied())
    }

    /// Its corners with the edge that starts at each, in the order of [`FaceView::outline`].
    pub(crate) fn sides(&self) -> impl Iterator<Item = (Vector, Option<Edge>)> + Clone + use<'a> {
        let solid = self.solid;
        self.stored_sides()
            .map(move |(point, side)| (point, side.and_then(|side| solid.edge(side))))
    }

    /// [`Solid::sides`] with [`Solid::sharp_edges`] in place of the edges.
    pub(crate) fn sharp_sides(
        &self,
    ) -> impl Iterator<Item = (Vector, Option<Edge>)> + Clone + use<'a> {
        let solid = self.solid;
        self.stored_sides()
            .map(move |(point, side)| (point, side.and_then(|side| solid.sharp(side))))
    }

    fn stored_sides(&self) -> impl Iterator<Item = (Vector, Option<&'a Side>)> + Clone + use<'a> {
        let solid = self.solid;
        let corners = solid.corners_of(self.this);
        let next = corners.iter().skip(1).chain(corners.first());
        corners.iter().zip(next).filter_map(move |(here, next)| {
            let point = solid.vertices.get(usize::from(*here)).copied()?;
            let side = solid
                .sides
                .iter()
                .find(|side| side.ends == [*here, *next] || side.ends == [*next, *here]);
            Some((point, side))
        })
    }

    /// Its area. Faces share a rounded corner between them, half each; a dished end has the area of its
    /// dish.
    #[must_use]
    pub fn area(&self) -> Area {
        Area::from_square_metres(match &self.solid.curve {
            Curve::None => area_vector(self.outline()).length(),
            Curve::Folded(folded) => {
                let mut places = (0..).zip(&self.solid.loops);
                let own = places.find(|(_, this)| this.face == self.this.face);
                let more = own.map_or(0.0, |(place, _)| {
                    (folded.code.area)(folded, self.solid, place)
                });
                area_vector(self.outline()).length() + more
            }
            Curve::Rounded(rounded) => match self.side_of(rounded) {
                Some(side) => rounded.section.side_length(side) * rounded.width,
                None => rounded.section.area(),
            },
            Curve::Turned(placed) => match self.head_of(placed) {
                Some(head) => placed.turned.head_area(head),
                None => placed.turned.shell_area(),
            },
        })
    }

    /// Whether it is plane all over, rounded edges apart.
    #[must_use]
    pub fn is_flat(&self) -> bool {
        match &self.solid.curve {
            Curve::None | Curve::Rounded(_) | Curve::Folded(_) => true,
            Curve::Turned(placed) => self
                .head_of(placed)
                .is_some_and(|head| placed.turned.head_depth(head) == 0.0),
        }
    }

    /// Which side of the section it is, counted from 0; `None` for the two ends.
    fn side_of(&self, rounded: &Rounded) -> Option<usize> {
        let Face::Side(number) = self.this.face else {
            return None;
        };
        rounded.section.side_place(number)
    }

    fn head_of(&self, placed: &PlacedDrum) -> Option<usize> {
        let heads = placed.axis.heads();
        heads.iter().position(|head| *head == self.this.face)
    }
}

/// A closed body.
///
/// At most [`MAX_FACES`] faces, [`MAX_VERTICES`] vertices and [`MAX_EDGES`] edges; about 3.5 KiB.
#[derive(Clone, Debug, PartialEq)]
pub struct Solid {
    pub(super) vertices: Vec<Vector, MAX_VERTICES>,
    pub(super) loops: Vec<Loop, MAX_FACES>,
    pub(super) corners: Vec<u8, MAX_CORNERS>,
    pub(super) sides: Vec<Side, MAX_EDGES>,
    pub(super) curve: Curve,
}

impl Solid {
    /// A place for a solid that is about to be made.
    pub(super) const EMPTY: Self = Self {
        vertices: Vec::new(),
        loops: Vec::new(),
        corners: Vec::new(),
        sides: Vec::new(),
        curve: Curve::None,
    };

    /// Takes everything away.
    pub(super) fn clear(&mut self) {
        self.vertices.clear();
        self.loops.clear();
        self.corners.clear();
        self.sides.clear();
        self.curve = Curve::None;
    }

    /// Its vertices. A rounded corner has that of the sharp one.
    #[must_use]
    pub fn vertices(&self) -> &[Vector] {
        &self.vertices
    }

    /// Its faces, box faces first, then cuts.
    pub fn faces(&self) -> impl ExactSizeIterator<Item = FaceView<'_>> + Clone {
        self.loops.iter().map(|this| FaceView { solid: self, this })
    }

    /// One face by name, where the body has it.
    #[must_use]
    pub fn face(&self, face: Face) -> Option<FaceView<'_>> {
        self.faces().find(|view| view.face() == face)
    }

    /// Its edges, by the order of their faces.
    pub fn edges(&self) -> impl Iterator<Item = Edge> + Clone {
        self.sides.iter().filter_map(|side| self.edge(side))
    }

    /// The edges with the faces, the angle and the radius that each has, but running as they would if
    /// every corner were sharp. Whoever asks only what an edge is made of is spared its turns, which cost
    /// a machine without an FPU ten thousand instructions an edge.
    pub(crate) fn sharp_edges(&self) -> impl Iterator<Item = Edge> + Clone {
        self.sides.iter().filter_map(|side| self.sharp(side))
    }

    /// [`Solid::sharp_edges`], each with the places of its two faces among [`Solid::faces`].
    pub(crate) fn sharp_edges_at(&self) -> impl Iterator<Item = ([u8; 2], Edge)> + Clone {
        self.sides
            .iter()
            .filter_map(|side| Some((side.faces, self.sharp(side)?)))
    }

    /// Gives an edge that lies on the walls what their rounded corners make of it.
    pub(crate) fn round(&self, edge: &mut Edge) {
        match &self.curve {
            Curve::None | Curve::Folded(_) => {}
            Curve::Rounded(rounded) => rounded.round(edge),
            Curve::Turned(placed) => placed.round(edge),
        }
    }

    /// The outline of a profile with rounded corners.
    pub(crate) fn section(&self) -> Option<&Section> {
        self.rounded().map(|(section, ..)| section)
    }

    /// The outline of a profile with rounded corners, and where it begins and ends along y (m).
    #[must_use]
    pub fn rounded(&self) -> Option<(&Section, f64, f64)> {
        match &self.curve {
            Curve::Rounded(rounded) => Some((
                &rounded.section,
                rounded.front,
                rounded.front + rounded.width,
            )),
            Curve::None | Curve::Turned(_) | Curve::Folded(_) => None,
        }
    }

    /// Rounds the folds of a solid whose faces are plane: the edge between each two faces, at the radius
    /// of its own surface there. Edges that it has not are left out.
    pub(super) fn fold(&mut self, folds: impl Iterator<Item = ([Face; 2], f64)>) {
        let mut all = Folded {
            folds: Vec::new(),
            code: &Code::ALL,
        };
        for (faces, radius) in folds {
            let own = self
                .side_between(faces)
                .and_then(|side| self.place_of(side));
            if let Some(side) = own.filter(|_| radius > 0.0) {
                // As many as a job may have.
                let _ = all.folds.push(Fold { side, radius });
            }
        }
        if !all.folds.is_empty() {
            self.curve = Curve::Folded(all);
        }
    }

    fn place_of(&self, side: &Side) -> Option<u8> {
        let place = self.sides.iter().position(|own| own == side)?;
        u8::try_from(place).ok()
    }

    /// The folds of plane faces.
    /// The drum that it is: the turned body, where its first end begins, and which way it stands.
    #[must_use]
    pub const fn turned(&self) -> Option<(&Turned, Vector, Axis)> {
        match &self.curve {
            Curve::Turned(placed) => Some((&placed.turned, placed.start, placed.axis)),
            Curve::None | Curve::Rounded(_) | Curve::Folded(_) => None,
        }
    }

    /// The drum that it is, where it stands.
    pub(crate) const fn drum(&self) -> Option<&PlacedDrum> {
        match &self.curve {
            Curve::Turned(placed) => Some(placed),
            Curve::None | Curve::Rounded(_) | Curve::Folded(_) => None,
        }
    }

    /// The disc that a plane across a drum's axis cuts, in the coordinates of its plane; `None` for a
    /// body that is no drum.
    ///
    /// # Errors
    /// Nothing but that the plane is not across the axis, or not within the straight wall.
    pub(crate) fn disc_at(&self, across: Across, at: f64) -> Result<Option<([f64; 2], f64)>, ()> {
        let Curve::Turned(placed) = &self.curve else {
            return Ok(None);
        };
        let start = placed.start;
        let (from, centre) = match (placed.axis, across) {
            (Axis::Lying, Across::Length) => (start.x, [start.y, start.z]),
            (Axis::Upright, Across::Height) => (start.z, [start.x, start.y]),
            _ => return Err(()),
        };
        if at < from || at > from + placed.turned.length() {
            return Err(());
        }
        Ok(Some((centre, placed.turned.radius())))
    }

    /// The places of the two faces at an edge, without working out the edge.
    pub(crate) fn faces_of_edge(&self, place: usize) -> Option<[u8; 2]> {
        self.sides.get(place).map(|side| side.faces)
    }

    /// How many edges there are.
    pub(crate) fn edge_count(&self) -> usize {
        self.sides.len()
    }

    /// The edge at a place.
    pub(crate) fn edge_at(&self, place: usize) -> Option<Edge> {
        self.edge(self.sides.get(place)?)
    }

    /// The edge between two faces, named in either order.
    #[must_use]
    pub fn edge_between(&self, faces: [Face; 2]) -> Option<Edge> {
        self.edge(self.side_between(faces)?)
    }

    /// The edge between two faces, as one of [`Solid::sharp_edges`].
    pub(crate) fn sharp_edge_between(&self, faces: [Face; 2]) -> Option<Edge> {
        self.sharp(self.side_between(faces)?)
    }

    fn side_between(&self, [a, b]: [Face; 2]) -> Option<&Side> {
        let face = |place: u8| self.loops.get(usize::from(place)).map(|this| this.face);
        self.sides.iter().find(|side| {
            let [first, second] = side.faces.map(face);
            (first, second) == (Some(a), Some(b)) || (first, second) == (Some(b), Some(a))
        })
    }

    fn edge(&self, side: &Side) -> Option<Edge> {
        let mut edge = self.sharp(side)?;
        self.round(&mut edge);
        if let Curve::Folded(folded) = &self.curve {
            (folded.code.round)(folded, self, side, &mut edge);
        }
        Some(edge)
    }

    fn sharp(&self, side: &Side) -> Option<Edge> {
        let face = |place: u8| self.loops.get(usize::from(place)).map(|this| this.face);
        let end = |place: u8| self.vertices.get(usize::from(place)).copied();
        let ([f1, f2], [e1, e2]) = (side.faces.map(face), side.ends.map(end));
        let mut edge = Edge {
            faces: [f1?, f2?],
            ends: [e1?, e2?],
            dihedral: Angle::from_radians(side.dihedral),
            path: Path::Straight,
            radius: Length::default(),
        };
        match &self.curve {
            Curve::Rounded(rounded) => edge.radius = rounded.radius_of(&edge),
            Curve::Folded(folded) => {
                let radius = self.place_of(side).and_then(|place| folded.radius(place));
                edge.radius = Length::from_metres(radius.unwrap_or(0.0));
            }
            Curve::None | Curve::Turned(_) => {}
        }
        Some(edge)
    }

    /// Its volume, by the divergence theorem over its faces (Mirtich, "Fast and accurate computation
    /// of polyhedral mass properties", 1996, from memory).
    #[must_use]
    pub fn volume(&self) -> Volume {
        let mut more = 0.0;
        match &self.curve {
            Curve::None => {}
            Curve::Folded(folded) => more = (folded.code.whole)(folded, self).0,
            Curve::Rounded(rounded) => {
                return Volume::from_cubic_metres(rounded.section.area() * rounded.width);
            }
            Curve::Turned(placed) => {
                return Volume::from_cubic_metres(placed.turned.volume());
            }
        }
        let reference = self.vertices.first().copied().unwrap_or_default();
        let mut six = 0.0;
        for view in self.faces() {
            for [a, b, c] in triangles(view.outline()) {
                six += (a - reference).dot((b - reference).cross(c - reference));
            }
        }
        Volume::from_cubic_metres(six / 6.0 + more)
    }

    /// Its centre of volume; same source as [`Solid::volume`].
    #[must_use]
    pub fn centroid(&self) -> Vector {
        match &self.curve {
            Curve::None | Curve::Folded(_) => {}
            Curve::Rounded(rounded) => {
                let [x, z] = rounded.section.centroid();
                return Vector::new(x, rounded.front + 0.5 * rounded.width, z);
            }
            Curve::Turned(placed) => {
                return placed.start + placed.axis.along() * placed.turned.centroid_along();
            }
        }
        let reference = self.vertices.first().copied().unwrap_or_default();
        let mut six = 0.0;
        let mut moment = Vector::ZERO;
        for view in self.faces() {
            for [a, b, c] in triangles(view.outline()) {
                let (a, b, c) = (a - reference, b - reference, c - reference);
                let share = a.dot(b.cross(c));
                six += share;
                moment = moment + (a + b + c) * share;
            }
        }
        // Of four corners of each piece, and of a sixth of its volume: by 24 in all.
        if let Curve::Folded(folded) = &self.curve {
            let (more, about) = (folded.code.whole)(folded, self);
            six += 6.0 * more;
            moment = moment + (about - reference * more) * 24.0;
        }
        if six == 0.0 {
            reference
        } else {
            reference + moment * (0.25 / six)
        }
    }

    /// The lowest and the highest that it reaches along `up`, in metres from the origin.
    #[must_use]
    pub fn extent(&self, up: Vector) -> (f64, f64) {
        match &self.curve {
            Curve::None => {}
            Curve::Folded(folded) => {
                let reach = folded.code.reach;
                return (-reach(folded, self, -up), reach(folded, self, up));
            }
            Curve::Rounded(rounded) => return rounded.extent(up),
            Curve::Turned(placed) => return placed.extent(up),
        }
        self.vertices
            .iter()
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), vertex| {
                let height = up.dot(*vertex);
                (libm::fmin(low, height), libm::fmax(high, height))
            })
    }

    /// The volume (m³) of the part below the plane `up · p = level`, and the area (m²) that the plane
    /// cuts, for a unit `up` and a `level` in metres from the origin.
    ///
    /// Each face is clipped as it is walked and counted by the divergence theorem about a point of the
    /// plane itself: the cut surface then adds nothing to the volume, so it never needs to be found, and
    /// its area is what the other faces leave open. Right for bodies with inside corners too.
    #[must_use]
    pub fn below(&self, up: Vector, level: f64) -> (f64, f64) {
        let (mut volume, mut open) = (0.0, 0.0);
        match &self.curve {
            Curve::None => {}
            Curve::Folded(folded) => (volume, open) = (folded.code.below)(folded, self, up, level),
            Curve::Rounded(rounded) => return rounded.below(up, level),
            Curve::Turned(placed) => return placed.below(up, level),
        }
        let on_plane = up * level;
        volume *= 3.0;
        for view in self.faces() {
            let Some(point) = view.outline().next() else {
                continue;
            };
            let area = clipped_area_vector(view.outline(), up, level);
            volume += (point - on_plane).dot(area);
            open -= area.dot(up);
        }
        (volume / 3.0, open)
    }

    /// What folds add to the volume below a level, and to its first moment about the origin.
    pub(crate) fn folds_below(&self, up: Vector, level: f64) -> (f64, Vector) {
        match &self.curve {
            Curve::Folded(folded) => (folded.code.moment_below)(folded, self, up, level),
            _ => (0.0, Vector::ZERO),
        }
    }

    pub(super) fn corners_of(&self, this: &Loop) -> &[u8] {
        let start = usize::from(this.start);
        self.corners
            .get(start..start + usize::from(this.len))
            .unwrap_or_default()
    }
}
