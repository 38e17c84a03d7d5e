//! Making solids: a box, and what a plane leaves of one.
//!
//! Solids are made in place, and the steps that hold a working copy are never inlined into each other:
//! a microcontroller's stack has room for one copy at a time.

use heapless::Vec;

use super::solid::{Loop, MAX_CORNERS, MAX_EDGES, MAX_VERTICES, SAME_POINT, Side, Solid};
use crate::geom::outline::section::Section;
use crate::geom::{Plane, Vector};
use crate::input::Face;
use crate::input::limits::MAX_FACES;

/// Vertices held while a clip is under way: those of the body and one for each edge that is cut.
const WORK_VERTICES: usize = MAX_VERTICES + MAX_EDGES;

/// What a plane leaves of a body.
#[derive(Debug)]
pub(super) enum Clipped {
    /// The plane misses the body by this much (m).
    Nothing { clearance: f64 },
    /// Nothing is left.
    All,
    /// Some is left, and stands in the solid's place.
    Left,
    /// What is left has more faces, vertices or edges than a body may have.
    TooComplex,
}

/// The body under construction: a solid without its edges.
#[derive(Default)]
struct Draft {
    vertices: Vec<Vector, WORK_VERTICES>,
    loops: Vec<Loop, MAX_FACES>,
    corners: Vec<u8, MAX_CORNERS>,
}

/// Marks that a bound of the representation was met.
struct Full;

impl Draft {
    fn vertex(&mut self, point: Vector) -> Result<u8, Full> {
        let index = u8::try_from(self.vertices.len()).map_err(|_| Full)?;
        self.vertices.push(point).map_err(|_| Full)?;
        Ok(index)
    }

    fn face(&mut self, face: Face, plane: Plane, corners: &[u8]) -> Result<(), Full> {
        let start = u8::try_from(self.corners.len()).map_err(|_| Full)?;
        let len = u8::try_from(corners.len()).map_err(|_| Full)?;
        self.corners.extend_from_slice(corners).map_err(|_| Full)?;
        self.loops
            .push(Loop {
                face,
                plane,
                start,
                len,
            })
            .map_err(|_| Full)
    }

    /// Drops the vertices that no face uses and finds the edges.
    #[inline(never)]
    fn finish(&self, solid: &mut Solid) -> Result<(), Full> {
        let mut moved = [None; WORK_VERTICES];
        solid.clear();
        solid.loops.clone_from(&self.loops);
        solid.corners.clone_from(&self.corners);
        for corner in &mut solid.corners {
            let Some(slot) = moved.get_mut(usize::from(*corner)) else {
                return Err(Full);
            };
            let index = match *slot {
                Some(index) => index,
                None => {
                    let index = u8::try_from(solid.vertices.len()).map_err(|_| Full)?;
                    let point = self
                        .vertices
                        .get(usize::from(*corner))
                        .copied()
                        .ok_or(Full)?;
                    solid.vertices.push(point).map_err(|_| Full)?;
                    *slot = Some(index);
                    index
                }
            };
            *corner = index;
        }
        sides(solid)
    }
}

/// The box between two opposite corners; `None` where `high` is not beyond `low` on every axis.
#[inline(never)]
pub(super) fn cuboid(solid: &mut Solid, low: Vector, high: Vector) -> Option<()> {
    if !(high.x > low.x && high.y > low.y && high.z > low.z) {
        return None;
    }
    let corners = core::array::from_fn(|index| {
        let pick = |bit: usize, low: f64, high: f64| if index & bit == 0 { low } else { high };
        Vector::new(
            pick(1, low.x, high.x),
            pick(2, low.y, high.y),
            pick(4, low.z, high.z),
        )
    });
    let plane = |x: f64, y: f64, z: f64, offset: f64| Plane {
        normal: Vector::new(x, y, z),
        offset,
    };
    let planes = [
        plane(0.0, -1.0, 0.0, -low.y),
        plane(0.0, 1.0, 0.0, high.y),
        plane(-1.0, 0.0, 0.0, -low.x),
        plane(1.0, 0.0, 0.0, high.x),
        plane(0.0, 0.0, -1.0, -low.z),
        plane(0.0, 0.0, 1.0, high.z),
    ];
    hexahedron(solid, corners, planes)
}

/// The body of eight corners and six plane faces that a box has, in the order of a [`cuboid`]'s, its
/// corners and planes wherever they lie.
#[inline(never)]
pub(super) fn hexahedron(
    solid: &mut Solid,
    corners: [Vector; 8],
    planes: [Plane; 6],
) -> Option<()> {
    let mut draft = Draft::default();
    for corner in corners {
        draft.vertex(corner).ok()?;
    }
    for ((face, corners), plane) in Face::BOX.into_iter().zip(BOX_CORNERS).zip(planes) {
        draft.face(face, plane, &corners).ok()?;
    }
    draft.finish(solid).ok()
}

/// The body between `front` and `back` over an outline in x and z, its corners as if they were sharp.
#[inline(never)]
pub(super) fn prism(solid: &mut Solid, section: &Section, front: f64, back: f64) -> Option<()> {
    let mut draft = Draft::default();
    let count = u8::try_from(section.len()).ok()?;
    for y in [front, back] {
        for place in 0..section.len() {
            let [x, z] = section.at(place);
            draft.vertex(Vector::new(x, y, z)).ok()?;
        }
    }
    // x to the right and z up, the front is seen with its outline counter-clockwise.
    let mut ring: Vec<u8, MAX_CORNERS> = Vec::new();
    for place in 0..count {
        ring.push(place).ok()?;
    }
    let front_plane = Plane {
        normal: Vector::new(0.0, -1.0, 0.0),
        offset: -front,
    };
    draft.face(Face::Front, front_plane, &ring).ok()?;
    for (slot, place) in ring.iter_mut().zip((0..count).rev()) {
        *slot = place + count;
    }
    let back_plane = Plane {
        normal: Vector::new(0.0, 1.0, 0.0),
        offset: back,
    };
    draft.face(Face::Back, back_plane, &ring).ok()?;
    // Sides stand in the maker's order, whichever way round the outline was given.
    for number in 1..=count {
        let place = section.side_place(number)?;
        let here = u8::try_from(place).ok()?;
        let next = if here + 1 < count { here + 1 } else { 0 };
        let [nx, nz] = section.normal(place);
        let normal = Vector::new(nx, 0.0, nz);
        let [x, z] = section.at(place);
        let plane = Plane {
            normal,
            offset: nx * x + nz * z,
        };
        draft
            .face(
                Face::Side(number),
                plane,
                &[here, here + count, next + count, next],
            )
            .ok()?;
    }
    draft.finish(solid).ok()
}

/// The corners of each face of a box, counter-clockwise from outside, numbered by x, y and z in turn.
const BOX_CORNERS: [[u8; 4]; 6] = [
    [0, 1, 5, 4],
    [3, 2, 6, 7],
    [2, 0, 4, 6],
    [1, 3, 7, 5],
    [2, 3, 1, 0],
    [4, 5, 7, 6],
];

/// Slices off all of a convex `solid` that lies outside `plane`; the new face is called `name`. The solid
/// is untouched unless the outcome is [`Clipped::Left`] or [`Clipped::TooComplex`].
pub(super) fn clip(solid: &mut Solid, plane: Plane, name: Face) -> Clipped {
    let same = SAME_POINT * size(solid);
    let mut nearest = f64::NEG_INFINITY;
    let mut deepest = f64::INFINITY;
    for vertex in solid.vertices() {
        let distance = plane.distance(*vertex);
        nearest = libm::fmax(nearest, distance);
        deepest = libm::fmin(deepest, distance);
    }
    if nearest <= same {
        return Clipped::Nothing {
            clearance: -libm::fmin(nearest, 0.0),
        };
    }
    if deepest >= -same {
        return Clipped::All;
    }
    match sliced(solid, plane, name, same) {
        Ok(()) => Clipped::Left,
        Err(Full) => Clipped::TooComplex,
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Where {
    In,
    On,
    Out,
}

#[inline(never)]
fn sliced(solid: &mut Solid, plane: Plane, name: Face, same: f64) -> Result<(), Full> {
    let mut draft = Draft::default();
    let mut sides: Vec<Where, WORK_VERTICES> = Vec::new();
    for vertex in solid.vertices() {
        draft.vertex(*vertex)?;
        let distance = plane.distance(*vertex);
        let side = if distance > same {
            Where::Out
        } else if distance < -same {
            Where::In
        } else {
            Where::On
        };
        sides.push(side).map_err(|_| Full)?;
    }
    // Each edge that crosses is cut once, though two faces meet the cut.
    let mut crossings: Vec<([u8; 2], u8), MAX_EDGES> = Vec::new();
    // The sides of the new face, each walked against the face that it borders.
    let mut rim: Vec<[u8; 2], MAX_EDGES> = Vec::new();
    for view in &solid.loops {
        let old = solid.corners_of(view);
        let mut new: Vec<u8, MAX_CORNERS> = Vec::new();
        for (here, next) in around(old) {
            let (here_side, next_side) = (side_of(&sides, here), side_of(&sides, next));
            if here_side != Where::Out {
                new.push(here).map_err(|_| Full)?;
            }
            let (inner, outer) = match (here_side, next_side) {
                (Where::In, Where::Out) => (here, next),
                (Where::Out, Where::In) => (next, here),
                _ => continue,
            };
            let known = crossings
                .iter()
                .find(|(key, _)| *key == [inner, outer])
                .map(|(_, index)| *index);
            let index = match known {
                Some(index) => index,
                None => {
                    let (a, b) = (point(solid, inner)?, point(solid, outer)?);
                    let (in_by, out_by) = (plane.distance(a), plane.distance(b));
                    let index = draft.vertex(a + (b - a) * (in_by / (in_by - out_by)))?;
                    sides.push(Where::On).map_err(|_| Full)?;
                    crossings.push(([inner, outer], index)).map_err(|_| Full)?;
                    index
                }
            };
            new.push(index).map_err(|_| Full)?;
        }
        // A face left with nothing inside the plane touches it at most along an edge: it is gone.
        if new.len() < 3
            || new
                .iter()
                .all(|corner| side_of(&sides, *corner) == Where::On)
        {
            continue;
        }
        for (here, next) in around(&new) {
            if side_of(&sides, here) == Where::On && side_of(&sides, next) == Where::On {
                rim.push([next, here]).map_err(|_| Full)?;
            }
        }
        draft.face(view.face, view.plane, &new)?;
    }
    draft.face(name, plane, &linked(&rim)?)?;
    draft.finish(solid)
}

/// Sides joined end to start into one closed outline.
fn linked(rim: &[[u8; 2]]) -> Result<Vec<u8, MAX_CORNERS>, Full> {
    let mut outline = Vec::new();
    let Some([first, mut next]) = rim.first().copied() else {
        return Err(Full);
    };
    outline.push(first).map_err(|_| Full)?;
    while next != first {
        if outline.len() >= rim.len() {
            return Err(Full);
        }
        outline.push(next).map_err(|_| Full)?;
        next = rim
            .iter()
            .find(|[from, _]| *from == next)
            .map(|[_, to]| *to)
            .ok_or(Full)?;
    }
    Ok(outline)
}

fn side_of(sides: &[Where], corner: u8) -> Where {
    sides
        .get(usize::from(corner))
        .copied()
        .unwrap_or(Where::Out)
}

fn point(solid: &Solid, corner: u8) -> Result<Vector, Full> {
    solid
        .vertices()
        .get(usize::from(corner))
        .copied()
        .ok_or(Full)
}

/// Each corner of a closed outline with the one that follows it.
fn around(corners: &[u8]) -> impl Iterator<Item = (u8, u8)> {
    corners.iter().copied().zip(
        corners
            .iter()
            .copied()
            .skip(1)
            .chain(corners.first().copied()),
    )
}

/// The largest distance along an axis within the body.
pub(super) fn size(solid: &Solid) -> f64 {
    let span = |axis: Vector| {
        let (low, high) = solid.extent(axis);
        high - low
    };
    let (x, y, z) = (
        span(Vector::new(1.0, 0.0, 0.0)),
        span(Vector::new(0.0, 1.0, 0.0)),
        span(Vector::new(0.0, 0.0, 1.0)),
    );
    libm::fmax(x, libm::fmax(y, z))
}

/// Every edge once, with the two faces that walk it in opposite senses.
fn sides(solid: &mut Solid) -> Result<(), Full> {
    let mut found = core::mem::take(&mut solid.sides);
    for (place, first) in (0_u8..).zip(&solid.loops) {
        for (other, second) in (0_u8..).zip(&solid.loops).skip(usize::from(place) + 1) {
            for (start, end) in around(solid.corners_of(first)) {
                if around(solid.corners_of(second)).any(|pair| pair == (end, start)) {
                    let along = point(solid, end)? - point(solid, start)?;
                    let ends = if runs_forward(along) {
                        [start, end]
                    } else {
                        [end, start]
                    };
                    let dihedral = dihedral(first.plane.normal, second.plane.normal, along);
                    found
                        .push(Side {
                            faces: [place, other],
                            ends,
                            dihedral,
                        })
                        .map_err(|_| Full)?;
                }
            }
        }
    }
    solid.sides = found;
    Ok(())
}

/// The angle inside the body between two faces with outward normals `n1` and `n2`, for an edge that
/// runs `along` as the first face walks it counter-clockwise.
fn dihedral(n1: Vector, n2: Vector, along: Vector) -> f64 {
    // The normals' vector product points ahead where the body bulges and behind at an inside corner.
    let across = n1.cross(n2);
    let sine = if across.dot(along) < 0.0 {
        -across.length()
    } else {
        across.length()
    };
    core::f64::consts::PI - libm::atan2(sine, n1.dot(n2))
}

/// Whether a direction has the positive sense of the axis that it follows most.
fn runs_forward(along: Vector) -> bool {
    // At 45° two axes tie; the margin keeps rounding from deciding which of them counts.
    const TIE: f64 = 1.0 - 1e-9;
    let (x, y, z) = (
        libm::fabs(along.x),
        libm::fabs(along.y),
        libm::fabs(along.z),
    );
    if x >= y * TIE && x >= z * TIE {
        along.x > 0.0
    } else if y >= z * TIE {
        along.y > 0.0
    } else {
        along.z > 0.0
    }
}
