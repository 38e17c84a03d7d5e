//! A blank folded up in space from nothing but its outline, its bend lines and their angles.
//!
//! The outline is parted along both tangent lines of each bend. What lies between the two is laid round the
//! inside radius of the bend, through its turn, in the sheet's thickness; what lies beyond is carried along.
//! The trigonometry of a bend is that of any textbook of sheet metal: the neutral line keeps its length, the
//! inside has the radius given, the outside that and a thickness.

use seamwright_core::blank::{Axes, CutBlank};
use seamwright_core::body::Body;
use seamwright_core::geom::Vector;

use super::solid::Convex;

pub(super) type P2 = [f64; 2];

/// An arc is taken as chords of so much, in radians.
pub(super) const STEP: f64 = 0.026;
/// Points nearer than this, in metres, are one.
const NEAR: f64 = 2e-7;

#[derive(Clone, Debug)]
pub(super) struct Bend {
    pub ends: [P2; 2],
    pub turn: f64,
    pub towards: bool,
    pub radius: f64,
    pub allowance: f64,
}

/// What is known of a blank.
#[derive(Clone, Debug)]
pub(super) struct Flat {
    pub outline: Vec<P2>,
    pub bends: Vec<Bend>,
    pub thickness: f64,
}

/// Where a flat piece lies in space: a point of its outer face, right, up, and out.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    pub origin: Vector,
    pub right: Vector,
    pub up: Vector,
}

impl Frame {
    pub(super) fn out(&self) -> Vector {
        self.right.cross(self.up)
    }

    pub(super) fn at(&self, [x, y]: P2) -> Vector {
        self.origin + self.right * x + self.up * y
    }
}

/// A panel folded up: its flat pieces with where they lie, and all of it as convex solids.
pub(super) struct Folded {
    pub pieces: Vec<(Vec<P2>, Frame)>,
    pub solids: Vec<Convex>,
}

fn sub(a: P2, b: P2) -> P2 {
    [a[0] - b[0], a[1] - b[1]]
}

fn cross(a: P2, b: P2) -> f64 {
    a[0] * b[1] - a[1] * b[0]
}

fn dot(a: P2, b: P2) -> f64 {
    a[0] * b[0] + a[1] * b[1]
}

fn along(a: P2, d: P2, by: f64) -> P2 {
    [a[0] + d[0] * by, a[1] + d[1] * by]
}

fn unit(a: P2) -> P2 {
    let long = a[0].hypot(a[1]);
    [a[0] / long, a[1] / long]
}

impl Flat {
    pub(super) fn of(blank: &CutBlank, thickness: f64) -> Self {
        let nodes: Vec<_> = blank.outline().collect();
        let mut outline = Vec::new();
        for (node, next) in nodes.iter().zip(nodes.iter().cycle().skip(1)) {
            let (a, b) = ([node.x, node.y], [next.x, next.y]);
            outline.push(a);
            if node.bulge == 0.0 {
                continue;
            }
            let sweep = 4.0 * node.bulge.atan();
            let chord = sub(b, a);
            let middle = [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])];
            // To the left of the chord by half of it over the tangent of half the sweep.
            let off = 0.5 / (0.5 * sweep).tan();
            let centre = [middle[0] - chord[1] * off, middle[1] + chord[0] * off];
            let from = sub(a, centre);
            let count = (sweep.abs() / STEP).ceil() as usize;
            for n in 1..count {
                let (s, c) = (sweep * n as f64 / count as f64).sin_cos();
                outline.push([
                    centre[0] + from[0] * c - from[1] * s,
                    centre[1] + from[0] * s + from[1] * c,
                ]);
            }
        }
        let bends = blank.bends().map(|bend| Bend {
            ends: bend.ends,
            turn: bend.turn.si(),
            towards: bend.towards,
            radius: bend.radius.si(),
            allowance: bend.allowance.si(),
        });
        Self {
            outline,
            bends: bends.collect(),
            thickness,
        }
    }

    /// Folds it up, the piece that holds `seat` lying as `frame` says.
    pub(super) fn fold(&self, seat: P2, frame: Frame) -> Result<Folded, String> {
        let mut rings = vec![self.outline.clone()];
        for bend in &self.bends {
            for side in [-0.5, 0.5] {
                let chord = bend.line(side);
                split(&mut rings, chord)
                    .ok_or_else(|| format!("no chord at {chord:?} of {bend:?}"))?;
            }
        }
        let at = |point: P2| rings.iter().position(|ring| holds(ring, point));
        let root = at(seat).ok_or_else(|| format!("nothing at {seat:?}"))?;
        let mut frames: Vec<Option<Frame>> = vec![None; rings.len()];
        frames[root] = Some(frame);
        let mut solids = Vec::new();
        let mut done = vec![false; self.bends.len()];
        let mut strips = Vec::new();
        loop {
            let mut moved = false;
            for (bend, done) in self.bends.iter().zip(&mut done) {
                if *done {
                    continue;
                }
                let [near, far] = [-1.0, 1.0].map(|way| at(bend.beside(way)));
                let (near, far) = near
                    .zip(far)
                    .ok_or_else(|| format!("nothing beside {bend:?}"))?;
                let (from, to, way) = match (frames[near], frames[far]) {
                    (Some(_), Some(_)) => return Err(format!("a ring at {bend:?}")),
                    (Some(_), None) => (near, far, 1.0),
                    (None, Some(_)) => (far, near, -1.0),
                    (None, None) => continue,
                };
                let known = frames[from].ok_or("no frame")?;
                frames[to] = Some(bend.round(&known, way, self.thickness, &mut solids));
                strips.push(at(bend.middle()).ok_or("no strip")?);
                *done = true;
                moved = true;
            }
            if !moved {
                break;
            }
        }
        if done.iter().any(|done| !done) {
            let lost: Vec<_> = self
                .bends
                .iter()
                .zip(&done)
                .filter(|(_, done)| !**done)
                .collect();
            return Err(format!(
                "nothing leads to {lost:?} of {} pieces, the first {root}",
                frames.len()
            ));
        }
        let mut pieces = Vec::new();
        for (place, (ring, frame)) in rings.into_iter().zip(frames).enumerate() {
            if strips.contains(&place) {
                continue;
            }
            let frame = frame.ok_or("a piece that nothing leads to")?;
            for triangle in triangles(&ring) {
                solids.push(Convex::prism(
                    triangle.map(|p| frame.at(p)),
                    frame.out(),
                    self.thickness,
                ));
            }
            pieces.push((ring, frame));
        }
        Ok(Folded { pieces, solids })
    }
}

impl Bend {
    fn way(&self) -> [P2; 2] {
        let d = unit(sub(self.ends[1], self.ends[0]));
        [d, [-d[1], d[0]]]
    }

    /// The line beside the middle by that share of the strip.
    fn line(&self, share: f64) -> [P2; 2] {
        let [_, q] = self.way();
        self.ends.map(|end| along(end, q, share * self.allowance))
    }

    /// Whether a place lies in its strip.
    fn holds(&self, at: P2) -> bool {
        let [_, q] = self.way();
        dot(sub(at, self.ends[0]), q).abs() < 0.5 * self.allowance + 1e-6
    }

    fn middle(&self) -> P2 {
        [
            0.5 * (self.ends[0][0] + self.ends[1][0]),
            0.5 * (self.ends[0][1] + self.ends[1][1]),
        ]
    }

    fn beside(&self, way: f64) -> P2 {
        let [_, q] = self.way();
        along(self.middle(), q, way * (0.5 * self.allowance + 1e-5))
    }

    /// Lays the strip round the bend, and tells how what lies beyond it lies.
    fn round(&self, from: &Frame, way: f64, thickness: f64, solids: &mut Vec<Convex>) -> Frame {
        let [d, q] = self.way();
        let q = [way * q[0], way * q[1]];
        let space = |v: P2| from.right * v[0] + from.up * v[1];
        let (along_bend, over, out) = (space(d), space(q), from.out());
        let near = self
            .ends
            .map(|end| from.at(along(end, q, -0.5 * self.allowance)));
        let sign = if self.towards { -1.0 } else { 1.0 };
        // From the axis to the outer face, and to the inner.
        let (outer, inner) = if self.towards {
            (self.radius, self.radius + thickness)
        } else {
            (self.radius + thickness, self.radius)
        };
        let spoke = |angle: f64| out * (sign * angle.cos()) + over * angle.sin();
        let axis = near.map(|point| point - out * (sign * outer));
        let count = (self.turn / STEP).ceil().max(1.0) as usize;
        for n in 0..count {
            let [a, b] = [n, n + 1].map(|n| spoke(self.turn * n as f64 / count as f64));
            let section = [a * outer, b * outer, b * inner, a * inner];
            solids.push(Convex::bar(section.map(|p| axis[0] + p), axis[1] - axis[0]));
        }
        let last = spoke(self.turn);
        let new_out = last * sign;
        let new_over = over * self.turn.cos() - out * (sign * self.turn.sin());
        // Right and up of the flat in terms of along and over.
        let to = |v: P2| along_bend * dot(v, d) + new_over * dot(v, q);
        let (right, up) = (to([1.0, 0.0]), to([0.0, 1.0]));
        let there = axis[0] + last * outer;
        let flat = along(self.ends[0], q, 0.5 * self.allowance);
        let frame = Frame {
            origin: there - right * flat[0] - up * flat[1],
            right,
            up,
        };
        debug_assert!((frame.out() - new_out).length() < 1e-9);
        frame
    }
}

/// Parts the ring on whose edge both ends of a line lie, and between which the line runs within it.
fn split(rings: &mut Vec<Vec<P2>>, [a, b]: [P2; 2]) -> Option<()> {
    let middle = [0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])];
    let d = unit(sub(b, a));
    let q = [-d[1], d[0]];
    let place = rings.iter().position(|ring| {
        holds(ring, along(middle, q, 1e-6)) && holds(ring, along(middle, q, -1e-6))
    })?;
    let mut ring = rings[place].clone();
    let first = insert(&mut ring, a, b)?;
    let a = ring[first];
    let second = insert(&mut ring, b, a)?;
    let first = ring
        .iter()
        .position(|p| p.iter().zip(a).all(|(p, a)| p.total_cmp(&a).is_eq()))?;
    let (low, high) = (first.min(second), first.max(second));
    let one: Vec<P2> = ring[low..=high].to_vec();
    let other: Vec<P2> = ring[high..].iter().chain(&ring[..=low]).copied().collect();
    if one.len() < 3 || other.len() < 3 {
        return None;
    }
    rings[place] = one;
    rings.push(other);
    Some(())
}

/// The place of a point on a ring's edge, put in where it is no corner. Where the edge runs twice, along a slit
/// without width, the run from which the way to the other end leads into the ring.
fn insert(ring: &mut Vec<P2>, point: P2, to: P2) -> Option<usize> {
    if let Some(place) = ring
        .iter()
        .position(|p| (p[0] - point[0]).hypot(p[1] - point[1]) < NEAR)
    {
        return Some(place);
    }
    let count = ring.len();
    for n in 0..count {
        let (a, b) = (ring[n], ring[(n + 1) % count]);
        let d = sub(b, a);
        let long = d[0].hypot(d[1]);
        let p = sub(point, a);
        let share = dot(p, d) / (long * long);
        let into = cross(d, sub(to, point)) > 0.0;
        if (cross(d, p) / long).abs() < NEAR && share > 0.0 && share < 1.0 && into {
            ring.insert(n + 1, point);
            return Some(n + 1);
        }
    }
    None
}

/// Whether a point lies within a ring: by the number of its sides above it.
pub(super) fn holds(ring: &[P2], [x, y]: P2) -> bool {
    let mut inside = false;
    for (a, b) in ring.iter().zip(ring.iter().cycle().skip(1)) {
        if (a[0] > x) != (b[0] > x) {
            let at = a[1] + (b[1] - a[1]) * (x - a[0]) / (b[0] - a[0]);
            if at > y {
                inside = !inside;
            }
        }
    }
    inside
}

/// The triangles of a ring, by cutting off ears (Meisters, "Polygons have ears", 1975, from memory).
fn triangles(ring: &[P2]) -> Vec<[P2; 3]> {
    let mut left: Vec<P2> = ring.to_vec();
    let mut all = Vec::new();
    while left.len() > 3 {
        let count = left.len();
        let mut best: Option<(usize, f64)> = None;
        for n in 0..count {
            let [a, b, c] = [
                left[(n + count - 1) % count],
                left[n],
                left[(n + 1) % count],
            ];
            let twice = cross(sub(b, a), sub(c, b));
            let longest = sub(c, a);
            let flat = twice / longest[0].hypot(longest[1]).max(1e-12);
            if twice <= 0.0 {
                // A corner on a line, or of no width, goes without a triangle.
                if flat.abs() < 1e-10 && best.is_none_or(|(_, q)| q < 1e9) {
                    best = Some((n, 1e9));
                }
                continue;
            }
            let blocked = left.iter().any(|p| {
                [a, b, c]
                    .iter()
                    .all(|q| q.iter().zip(p).any(|(q, p)| q.total_cmp(p).is_ne()))
                    && cross(sub(b, a), sub(*p, a)) > 1e-15
                    && cross(sub(c, b), sub(*p, b)) > 1e-15
                    && cross(sub(a, c), sub(*p, c)) > 1e-15
            });
            if !blocked && best.is_none_or(|(_, q)| q < flat) {
                best = Some((n, flat));
            }
        }
        let Some((n, quality)) = best else { break };
        if quality < 1e9 {
            all.push([
                left[(n + count - 1) % count],
                left[n],
                left[(n + 1) % count],
            ]);
        }
        left.remove(n);
    }
    if let [a, b, c] = left[..]
        && cross(sub(b, a), sub(c, b)) > 0.0
    {
        all.push([a, b, c]);
    }
    all
}

/// How the blank lies on a face of the body, and a place on that face's piece.
pub(super) fn seat(blank: &CutBlank, body: &Body, flat: &Flat) -> Result<(P2, Frame), String> {
    let faces: Vec<_> = blank.faces().collect();
    let once = |face| faces.iter().filter(|other| **other == face).count() == 1;
    let face = *faces
        .iter()
        .find(|face| once(**face))
        .or(faces.first())
        .ok_or("a blank of no face")?;
    let view = body.outside.face(face).ok_or("no such face")?;
    let axes = Axes::of(view.normal(), view.outline());
    let at = |p: P2| blank.place(body, face, axes.lift(p));
    // Within the face, however crooked it is.
    let ring: Vec<P2> = view.outline().map(|p| axes.flat(p)).collect();
    let mut within: Vec<P2> = triangles(&ring)
        .iter()
        .map(|[a, b, c]| [(a[0] + b[0] + c[0]) / 3.0, (a[1] + b[1] + c[1]) / 3.0])
        .collect();
    for a in &ring {
        for b in &ring {
            within.push([0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1])]);
        }
    }
    let here = within
        .into_iter()
        .find_map(|p| {
            let on = at(p)?;
            let bent = flat.bends.iter().any(|bend| bend.holds(on));
            (holds(&flat.outline, on) && !bent).then_some((p, on))
        })
        .ok_or("no place within the face")?;
    let (p, on) = here;
    // A hair's step, so that of a parted face it stays on the same half.
    const HAIR: f64 = 1e-4;
    let right_on = at([p[0] + HAIR, p[1]]).ok_or("not placed")?;
    let r = sub(right_on, on);
    let r = unit(r);
    // Flat x and y in terms of the face's right and up.
    let right = axes.right * r[0] - axes.up * r[1];
    let up = axes.right * r[1] + axes.up * r[0];
    let frame = Frame {
        origin: axes.lift(p) - right * on[0] - up * on[1],
        right,
        up,
    };
    Ok((on, frame))
}
