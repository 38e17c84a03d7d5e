//! From a space with its baffles to pieces and doors.

use heapless::Vec;

use super::door::{Door, DoorKind, Region};
use super::piece::Piece;
use super::section::{Flat, each_convex_part, tangents};
use super::{Compartments, Range, TooManyPieces, gathered};
use crate::body::Solid;
use crate::fitting::{Baffle, Inner, Opening, Openings, axes};
use crate::geom::outline::polygon;
use crate::geom::{Plane, Vector};
use crate::input::limits::MAX_BAFFLES;
use crate::input::{Across, Face};

/// Two planes, points or sides nearer than this, in metres, are one.
const SAME: f64 = 1e-9;
/// A polygon of less, in square metres, is none.
const LEAST_AREA: f64 = 1e-12;

/// Stretches along one axis between the surfaces of baffles.
type Gaps = Vec<[f64; 2], { MAX_BAFFLES + 1 }>;

fn unit(axis: usize) -> Vector {
    match axis {
        0 => Vector::new(1.0, 0.0, 0.0),
        1 => Vector::new(0.0, 1.0, 0.0),
        _ => Vector::new(0.0, 0.0, 1.0),
    }
}

const fn axis_of(across: Across) -> usize {
    match across {
        Across::Length => 0,
        Across::Width => 1,
        Across::Height => 2,
    }
}

/// Where a baffle begins and ends along its axis.
fn surfaces(baffle: &Baffle) -> [f64; 2] {
    let half = 0.5 * baffle.thickness().si();
    [baffle.at().si() - half, baffle.at().si() + half]
}

/// The stretches that the baffles across an axis leave of it.
fn gaps(inner: &Inner, axis: usize) -> Gaps {
    let mut all = Gaps::new();
    let mut from = f64::NEG_INFINITY;
    loop {
        let next = inner
            .baffles()
            .iter()
            .filter(|baffle| axis_of(baffle.across()) == axis)
            .map(surfaces)
            .filter(|[low, _]| *low > from)
            .reduce(|a, b| if b[0] < a[0] { b } else { a });
        // As many as there may be baffles, and one.
        let _ = all.push([from, next.map_or(f64::INFINITY, |[low, _]| low)]);
        match next {
            Some([_, high]) => from = high,
            None => return all,
        }
    }
}

impl Compartments {
    /// Parts the inside of a tank.
    ///
    /// # Errors
    /// [`TooManyPieces`] where there is no room for all of them.
    pub fn of(inside: &Solid, inner: &Inner) -> Result<Self, TooManyPieces> {
        // Small radii are taken as sharp corners where their sides would be too many.
        Self::parted(inside, inner, false).or_else(|_| Self::parted(inside, inner, true))
    }

    fn parted(inside: &Solid, inner: &Inner, coarse: bool) -> Result<Self, TooManyPieces> {
        let mut all = Self::EMPTY;
        let gaps = [0, 1, 2].map(|axis| gaps(inner, axis));
        let in_sheet = |baffle: &Baffle| {
            let [axis, ..] = axes(baffle.across());
            let [low, high] = surfaces(baffle);
            inside.below(axis, high).0 - inside.below(axis, low).0
        };
        all.exact = inside.volume().si() - inner.baffles().iter().map(in_sheet).sum::<f64>();
        if let Some(drum) = inside.drum() {
            let along = if drum.axis.along().x > 0.5 { 0 } else { 2 };
            all.take_drum(drum, gaps.get(along).map_or(&[], |gaps| gaps))?;
        } else if let Some((section, front, back)) = inside.rounded() {
            all.take_profile(tangents(section, coarse), [front, back], &gaps)?;
        } else if let Some(front) = inside.face(Face::Front)
            && inside.face(Face::Side(1)).is_some()
        {
            let outline = gathered(front.outline().map(|p| [p.x, p.z]))?;
            let (low, high) = inside.extent(unit(1));
            all.take_profile(outline, [low, high], &gaps)?;
        } else {
            all.take_block(inside, &gaps)?;
        }
        for (baffle, number) in inner.baffles().iter().zip(1_u8..) {
            all.open(baffle, number, inside)?;
        }
        all.set_rooms();
        Ok(all)
    }

    /// The pieces of a profile, and the open faces between them.
    fn take_profile(
        &mut self,
        outline: Flat,
        ends: [f64; 2],
        gaps: &[Gaps; 3],
    ) -> Result<(), TooManyPieces> {
        let [along, across, high] = gaps;
        let mut sections: Vec<Range, { super::MAX_PIECES }> = Vec::new();
        let flat = &mut self.flat;
        each_convex_part(outline, |part| {
            for [left, right] in along {
                for [low, top] in high {
                    let mut own = part.clone();
                    for (axis, sense, limit) in [
                        (0, -1.0, left),
                        (0, 1.0, right),
                        (1, -1.0, low),
                        (1, 1.0, top),
                    ] {
                        if limit.is_finite() {
                            let inside =
                                |p: [f64; 2]| sense * (limit - p.get(axis).copied().unwrap_or(0.0));
                            own = polygon::kept(&own, inside);
                        }
                    }
                    if polygon::area(&own) <= LEAST_AREA {
                        continue;
                    }
                    let range = Range {
                        start: u16::try_from(flat.len()).map_err(|_| TooManyPieces)?,
                        len: u16::try_from(own.len()).map_err(|_| TooManyPieces)?,
                    };
                    flat.extend_from_slice(&own).map_err(|_| TooManyPieces)?;
                    sections.push(range).map_err(|_| TooManyPieces)?;
                }
            }
            Ok(())
        })?;
        let slabs = across
            .iter()
            .map(|[from, to]| [libm::fmax(*from, ends[0]), libm::fmin(*to, ends[1])]);
        for y in slabs.filter(|[from, to]| to > from) {
            let first = self.pieces.len();
            for section in &sections {
                let piece = Piece::Prism {
                    section: *section,
                    y,
                };
                self.pieces.push(piece).map_err(|_| TooManyPieces)?;
            }
            for (n, one) in sections.iter().enumerate() {
                for (m, other) in sections.iter().enumerate().skip(n + 1) {
                    self.join(*one, *other, [first + n, first + m], y)?;
                }
            }
        }
        Ok(())
    }

    /// The open faces between two prisms whose sections share a side or a part of one.
    fn join(
        &mut self,
        one: Range,
        other: Range,
        between: [usize; 2],
        [front, back]: [f64; 2],
    ) -> Result<(), TooManyPieces> {
        let mut found: Vec<[[f64; 2]; 2], 16> = Vec::new();
        let sides = |range: Range| {
            let points = range.of(&self.flat);
            let next = points.iter().skip(1).chain(points.first());
            points.iter().copied().zip(next.copied())
        };
        for (a, b) in sides(one) {
            let length = libm::hypot(b[0] - a[0], b[1] - a[1]);
            if length <= SAME {
                continue;
            }
            let run = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
            let seen = |p: [f64; 2]| {
                let off = [p[0] - a[0], p[1] - a[1]];
                [
                    off[0] * run[0] + off[1] * run[1],
                    off[0] * run[1] - off[1] * run[0],
                ]
            };
            for (c, d) in sides(other) {
                let ([from, off], [to, other_off]) = (seen(d), seen(c));
                let (from, to) = (libm::fmax(from, 0.0), libm::fmin(to, length));
                if libm::fabs(off) > SAME || libm::fabs(other_off) > SAME || to - from <= SAME {
                    continue;
                }
                let at = |way: f64| [a[0] + run[0] * way, a[1] + run[1] * way];
                found.push([at(from), at(to)]).map_err(|_| TooManyPieces)?;
            }
        }
        for [[ax, az], [bx, bz]] in found {
            let corners = [
                Vector::new(ax, front, az),
                Vector::new(ax, back, az),
                Vector::new(bx, back, bz),
                Vector::new(bx, front, bz),
            ];
            let region = Region::Polygon(self.keep_points(corners)?);
            self.add_door(between, DoorKind::Open, region, Vector::ZERO)?;
        }
        Ok(())
    }

    fn add_door(
        &mut self,
        [a, b]: [usize; 2],
        kind: DoorKind,
        region: Region,
        half: Vector,
    ) -> Result<(), TooManyPieces> {
        let number = |place: usize| u8::try_from(place).map_err(|_| TooManyPieces);
        let between = [number(a)?, number(b)?];
        let door = Door {
            between,
            kind,
            region,
            half,
        };
        self.doors.push(door).map_err(|_| TooManyPieces)
    }

    /// The pieces of a convex body with plane faces.
    fn take_block(&mut self, inside: &Solid, gaps: &[Gaps; 3]) -> Result<(), TooManyPieces> {
        let [along, across, high] = gaps;
        for x in along {
            for y in across {
                for z in high {
                    self.take_box(inside, [*x, *y, *z])?;
                }
            }
        }
        Ok(())
    }

    /// What of a convex body with plane faces lies within a box.
    fn take_box(&mut self, inside: &Solid, sides: [[f64; 2]; 3]) -> Result<(), TooManyPieces> {
        let mut planes: Vec<Plane, 6> = Vec::new();
        for (axis, [low, high]) in sides.into_iter().enumerate() {
            for (sense, limit) in [(-1.0, low), (1.0, high)] {
                if limit.is_finite() {
                    // As many as a box has sides.
                    let _ = planes.push(Plane {
                        normal: unit(axis) * sense,
                        offset: sense * limit,
                    });
                }
            }
        }
        let start = u16::try_from(self.faces.len()).map_err(|_| TooManyPieces)?;
        for view in inside.faces() {
            let mut corners: Corners = gathered(view.outline())?;
            for plane in &planes {
                corners = cut(&corners, plane)?;
            }
            self.add_face(&corners)?;
        }
        for (own, plane) in planes.iter().enumerate() {
            let mut corners = square(inside, plane)?;
            for view in inside.faces() {
                corners = cut(&corners, &view.plane())?;
            }
            for (_, other) in planes.iter().enumerate().filter(|(n, _)| *n != own) {
                corners = cut(&corners, other)?;
            }
            self.add_face(&corners)?;
        }
        let end = u16::try_from(self.faces.len()).map_err(|_| TooManyPieces)?;
        let len = end.saturating_sub(start);
        // Fewer faces enclose nothing: the body does not reach into this box.
        if len < 4 {
            self.faces.truncate(usize::from(start));
            return Ok(());
        }
        self.pieces
            .push(Piece::Faces(Range { start, len }))
            .map_err(|_| TooManyPieces)
    }

    /// Keeps a face that is not empty.
    fn add_face(&mut self, corners: &[Vector]) -> Result<(), TooManyPieces> {
        let Some(first) = corners.first() else {
            return Ok(());
        };
        let mut area = Vector::ZERO;
        super::door::each_side(corners, |a, b| {
            area = area + (a - *first).cross(b - *first);
        });
        if 0.5 * area.length() <= LEAST_AREA {
            return Ok(());
        }
        let range = self.keep_points(corners.iter().copied())?;
        self.faces.push(range).map_err(|_| TooManyPieces)
    }

    /// The doors of a baffle: each of its openings, between every two pieces that face each other there. A slit between
    /// its rim and the walls is taken to be welded.
    fn open(&mut self, baffle: &Baffle, number: u8, inside: &Solid) -> Result<(), TooManyPieces> {
        let plane = axes(baffle.across());
        let [axis, ..] = plane;
        let [low, high] = surfaces(baffle);
        let openings = baffle.openings(inside);
        if let Some(drum) = self.stretches_at(axis, [low, high]) {
            let round = inside.disc_at(baffle.across(), baffle.at().si());
            if let Ok(Some((centre, radius))) = round {
                self.faced
                    .push((
                        number,
                        drum.map(|piece| u8::try_from(piece).unwrap_or_default()),
                    ))
                    .map_err(|_| TooManyPieces)?;
                return self.open_between(baffle, number, drum, &disc(centre, radius), &openings);
            }
            return Ok(());
        }
        for one in 0..self.pieces.len() {
            let Some(wall) = self.wall_at(one, plane, low, 1.0) else {
                continue;
            };
            for other in 0..self.pieces.len() {
                let Some(facing) = self.wall_at(other, plane, high, -1.0) else {
                    continue;
                };
                let shared = both(wall.clone(), &facing);
                if polygon::area(&shared) <= LEAST_AREA {
                    continue;
                }
                let pair = [one, other].map(|piece| u8::try_from(piece).unwrap_or_default());
                self.faced.push((number, pair)).map_err(|_| TooManyPieces)?;
                self.open_between(baffle, number, [one, other], &shared, &openings)?;
            }
        }
        Ok(())
    }

    /// The doors of a baffle between two pieces that share a part of its plane.
    fn open_between(
        &mut self,
        baffle: &Baffle,
        number: u8,
        between: [usize; 2],
        shared: &Flat,
        openings: &Openings,
    ) -> Result<(), TooManyPieces> {
        let [axis, first, second] = axes(baffle.across());
        let lift =
            |[right, ahead]: [f64; 2]| axis * baffle.at().si() + first * right + second * ahead;
        let half = axis * (0.5 * baffle.thickness().si());
        for opening in openings {
            let region = match opening {
                Opening::Round(hole) => {
                    let spare = spare(shared, hole.at);
                    if spare <= SAME - hole.radius {
                        continue;
                    }
                    let within = if spare >= hole.radius - SAME {
                        Range::default()
                    } else {
                        self.keep_points(shared.iter().copied().map(lift))?
                    };
                    Region::Disc {
                        centre: lift(hole.at),
                        radius: hole.radius,
                        axis,
                        within,
                    }
                }
                // Only its lowest and its highest corner matter, so it need not be convex.
                Opening::Rim(corners) => {
                    let part = both(gathered(corners.iter().copied())?, shared);
                    if polygon::area(&part) <= LEAST_AREA {
                        continue;
                    }
                    Region::Polygon(self.keep_points(part.iter().copied().map(lift))?)
                }
                Opening::Slit(_) => continue,
            };
            self.add_door(between, DoorKind::Baffle(number), region, half)?;
        }
        Ok(())
    }

    /// The two stretches of a drum that end at the surfaces of a baffle.
    fn stretches_at(&self, axis: Vector, [low, high]: [f64; 2]) -> Option<[usize; 2]> {
        let ends = |place: usize| match self.pieces.get(place) {
            Some(Piece::Turned(drum)) => {
                let start = axis.dot(drum.start);
                Some([start, start + drum.turned.length()])
            }
            _ => None,
        };
        let find = |which: usize, at: f64| {
            (0..self.pieces.len()).find(|place| {
                ends(*place)
                    .and_then(|ends| ends.get(which).copied())
                    .is_some_and(|end| libm::fabs(end - at) <= SAME)
            })
        };
        Some([find(1, low)?, find(0, high)?])
    }

    /// The face of a piece that lies in the plane across an axis at a place, on the side that `sense` tells, in the plane's
    /// own two coordinates, counter-clockwise.
    fn wall_at(
        &self,
        place: usize,
        [axis, first, second]: [Vector; 3],
        at: f64,
        sense: f64,
    ) -> Option<Flat> {
        let [low, high] = self.extent(place, axis);
        let end = if sense > 0.0 { high } else { low };
        if libm::fabs(end - at) > SAME {
            return None;
        }
        let on = |point: &Vector| libm::fabs(axis.dot(*point) - at) <= SAME;
        let mut wall = Flat::new();
        let mut keep = |point: Vector| {
            // A face of a piece has fewer corners than there is room for.
            let _ = wall.push([first.dot(point), second.dot(point)]);
        };
        match self.pieces.get(place)? {
            Piece::Faces(faces) => {
                let mut all = faces.of(&self.faces).iter();
                let face = all.find(|face| self.face(**face).iter().all(on))?;
                self.face(*face).iter().copied().for_each(&mut keep);
            }
            Piece::Prism { section, y } => {
                let section = section.of(&self.flat);
                let lift = |[x, z]: [f64; 2], y: f64| Vector::new(x, y, z);
                if axis.y > 0.5 {
                    section.iter().for_each(|p| keep(lift(*p, at)));
                } else {
                    let next = section.iter().skip(1).chain(section.first());
                    let mut sides = section.iter().zip(next);
                    let (a, b) = sides.find(|(a, b)| {
                        on(&lift(**a, y[0]))
                            && on(&lift(**b, y[0]))
                            && libm::hypot(a[0] - b[0], a[1] - b[1]) > SAME
                    })?;
                    for (p, y) in [(*a, y[0]), (*a, y[1]), (*b, y[1]), (*b, y[0])] {
                        keep(lift(p, y));
                    }
                }
            }
            Piece::Turned(_) => return None,
        }
        if polygon::area(&wall) < 0.0 {
            wall.reverse();
        }
        Some(wall)
    }
}

/// Corners of one face.
type Corners = Vec<Vector, 48>;

/// What of a convex outline lies within a half-space.
fn cut(corners: &Corners, plane: &Plane) -> Result<Corners, TooManyPieces> {
    let mut kept = Corners::new();
    let next = corners.iter().skip(1).chain(corners.first());
    for (from, to) in corners.iter().zip(next) {
        let (a, b) = (plane.distance(*from), plane.distance(*to));
        if a <= 0.0 {
            kept.push(*from).map_err(|_| TooManyPieces)?;
        }
        if (a < 0.0 && b > 0.0) || (a > 0.0 && b < 0.0) {
            let point = *from + (*to - *from) * (a / (a - b));
            kept.push(point).map_err(|_| TooManyPieces)?;
        }
    }
    Ok(kept)
}

/// A square in a plane, counter-clockwise as seen from outside, that reaches past a body.
fn square(inside: &Solid, plane: &Plane) -> Result<Corners, TooManyPieces> {
    let mut reach = 0.0;
    for vertex in inside.vertices() {
        reach = libm::fmax(reach, vertex.length());
    }
    let normal = plane.normal;
    let first = if libm::fabs(normal.z) > 0.5 {
        unit(0)
    } else {
        unit(2)
    };
    let second = normal.cross(first);
    let middle = normal * plane.offset;
    let (u, v) = (first * (4.0 * reach), second * (4.0 * reach));
    gathered([
        middle + u + v,
        middle - u + v,
        middle - u - v,
        middle + u - v,
    ])
}

/// A disc as a polygon within it: what is left open at the rim of a round baffle ends no higher than it does.
fn disc([u, w]: [f64; 2], radius: f64) -> Flat {
    let mut corners = Flat::new();
    for n in 0..96_u8 {
        let (sine, cosine) = libm::sincos(f64::from(n) * core::f64::consts::PI / 48.0);
        // Fewer than there is room for.
        let _ = corners.push([u + radius * cosine, w + radius * sine]);
    }
    corners
}

/// What of an outline lies within a convex one, both counter-clockwise.
fn both(one: Flat, other: &Flat) -> Flat {
    let mut shared = one;
    let next = other.iter().skip(1).chain(other.first());
    for (a, b) in other.iter().zip(next) {
        let run = [b[0] - a[0], b[1] - a[1]];
        shared = polygon::kept(&shared, |p| run[0] * (p[1] - a[1]) - run[1] * (p[0] - a[0]));
    }
    shared
}

/// How far a point lies inside the nearest side of a convex outline that runs counter-clockwise; of a point outside, how far
/// it is from the outline, below zero.
fn spare(outline: &Flat, point: [f64; 2]) -> f64 {
    let (mut within, mut off) = (f64::INFINITY, f64::INFINITY);
    let next = outline.iter().skip(1).chain(outline.first());
    for (a, b) in outline.iter().zip(next) {
        let run = [b[0] - a[0], b[1] - a[1]];
        let length = libm::hypot(run[0], run[1]);
        if length <= SAME {
            continue;
        }
        let from = [point[0] - a[0], point[1] - a[1]];
        within = libm::fmin(within, (run[0] * from[1] - run[1] * from[0]) / length);
        let along = (run[0] * from[0] + run[1] * from[1]) / length;
        let foot = libm::fmin(libm::fmax(along, 0.0), length) / length;
        let away = [from[0] - run[0] * foot, from[1] - run[1] * foot];
        off = libm::fmin(off, libm::hypot(away[0], away[1]));
    }
    if within >= 0.0 { within } else { -off }
}
