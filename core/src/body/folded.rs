//! Folds of a body with plane faces: the inside of a bend is round.
//!
//! A fold takes the strip between its sharp edge and the round surface that touches both faces away from
//! the space (at an inside corner of the body it adds one). Across the fold that strip is a corner bounded
//! by two tangents and an arc; along it, it ends at the faces beyond, or, where another fold of the same
//! panel meets it, at the mitre on which the lines where the two begin meet. So it is a cylinder between
//! two planes, and what of it lies below a third has a closed form: with h₀ and h₁ the heights of the two
//! end planes over the corner's plane and α the rise along the fold,
//! `V = 1/α (∫ (level − h₀)⁺ dA − ∫ (level − h₁)⁺ dA)`, each a sum over the corner's outline.

use core::f64::consts::PI;

use super::edge::Edge;
use super::solid::{Code, Fold, Folded, Side, Solid};
use super::{ArcPath, Path};
use crate::geom::Vector;
use crate::geom::outline::section::Strip;

/// A fold that rises less than this along itself is taken tilted by as much both ways, and the mean between
/// the two: past 1e-9 of a tank below, and past its rounding above.
const LEVEL: f64 = 1e-8;

impl PartialEq for Code {
    /// There is one.
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl Code {
    pub(super) const ALL: Self = Self {
        below: Folded::below,
        moment_below: Folded::moment_below,
        whole: Folded::whole,
        area: Folded::area,
        reach: Folded::reach,
        round: Folded::round,
        rounds: Folded::rounds,
    };
}

/// A fold as it lies in the tank.
struct Laid {
    /// The ends of its sharp edge.
    ends: [Vector; 2],
    /// Along it, along its first face away from it, and across that face to where the arc's centre lies.
    axes: [Vector; 3],
    /// How much further along it the two end planes lie for each metre of the other two axes.
    slants: [[f64; 2]; 2],
    strip: Strip,
    /// −1 where it takes from the space, 1 where it adds to it.
    sense: f64,
}

impl Laid {
    /// The point of an end plane over a point of the corner's plane.
    fn at(&self, end: usize, [u, v]: [f64; 2]) -> Vector {
        let [along, right, up] = self.axes;
        let [a, b] = self.slant(end);
        self.end(end) + along * (a * u + b * v) + right * u + up * v
    }

    fn end(&self, end: usize) -> Vector {
        self.ends.get(end).copied().unwrap_or_default()
    }

    fn slant(&self, end: usize) -> [f64; 2] {
        self.slants.get(end).copied().unwrap_or_default()
    }

    /// The height of an end plane over the corner's plane: at the sharp edge, and its rise along the two
    /// axes of that plane.
    fn height(&self, end: usize, up: Vector) -> (f64, [f64; 2]) {
        let [along, right, across] = self.axes;
        let rise = up.dot(along);
        let [a, b] = self.slant(end);
        (
            up.dot(self.end(end)),
            [up.dot(right) + rise * a, up.dot(across) + rise * b],
        )
    }

    /// Volume below a level, and its growth with the level.
    fn below(&self, up: Vector, level: f64) -> (f64, f64) {
        let [along, ..] = self.axes;
        let rise = up.dot(along);
        if libm::fabs(rise) >= LEVEL {
            return self.between(up, level, rise);
        }
        // Tilted about the middle of the fold, so that both see it at the same height.
        let middle = (self.end(0) + self.end(1)) * 0.5;
        let tilted = |to: f64| {
            let tilt = along * (to - rise);
            self.between(up + tilt, level + tilt.dot(middle), to)
        };
        let ((v0, s0), (v1, s1)) = (tilted(LEVEL), tilted(-LEVEL));
        let share = 0.5 * (1.0 + rise / LEVEL);
        (v1 + (v0 - v1) * share, s1 + (s0 - s1) * share)
    }

    fn between(&self, up: Vector, level: f64, rise: f64) -> (f64, f64) {
        let over = |end: usize| {
            let (height, slope) = self.height(end, up);
            self.strip.under(level - height, slope)
        };
        let (near, far) = (over(0), over(1));
        ((near[0] - far[0]) / rise, (near[1] - far[1]) / rise)
    }

    /// Whether a point lies in what it takes or adds.
    fn holds(&self, point: Vector) -> bool {
        let [along, right, across] = self.axes;
        let from = point - self.end(0);
        let flat = [from.dot(right), from.dot(across)];
        let past = |end: usize| along.dot(point - self.at(end, flat));
        self.strip.holds(flat) && past(0) >= 0.0 && past(1) <= 0.0
    }

    /// The furthest that the round end at one of its ends reaches along `up`.
    fn reach(&self, end: usize, up: Vector) -> f64 {
        let (height, slope) = self.height(end, up);
        height + self.strip.reach(slope)
    }
}

impl Folded {
    /// Whether a side is folded, and at which radius.
    pub(super) fn radius(&self, side: u8) -> Option<f64> {
        let found = self.folds.iter().find(|fold| fold.side == side);
        found.map(|fold| fold.radius)
    }

    fn side<'s>(&self, solid: &'s Solid, fold: &Fold) -> Option<&'s Side> {
        solid.sides.get(usize::from(fold.side))
    }

    /// The other folds that meet a side at one of its ends and share a face with it.
    fn beside<'f>(
        &'f self,
        solid: &'f Solid,
        side: &'f Side,
        end: usize,
    ) -> impl Iterator<Item = (&'f Fold, &'f Side)> {
        let vertex = side.ends.get(end).copied();
        self.folds.iter().filter_map(move |fold| {
            let other = self.side(solid, fold)?;
            let meets = other != side
                && vertex.is_some_and(|vertex| other.ends.contains(&vertex))
                && other.faces.iter().any(|face| side.faces.contains(face));
            meets.then_some((fold, other))
        })
    }

    /// A fold as it lies in the tank.
    fn laid(&self, solid: &Solid, fold: &Fold) -> Option<Laid> {
        let side = self.side(solid, fold)?;
        let normal = |face: u8| Some(solid.loops.get(usize::from(face))?.plane.normal);
        let [n0, n1] = [normal(side.faces[0])?, normal(side.faces[1])?];
        let vertex = |place: u8| solid.vertices.get(usize::from(place)).copied();
        let ends = [vertex(side.ends[0])?, vertex(side.ends[1])?];
        let along = (ends[1] - ends[0]).unit()?;
        let turn = libm::fabs(PI - side.dihedral);
        let adds = side.dihedral > PI;
        // Away from the edge in the first face: the other face lies behind it, or before it at an inside
        // corner.
        let inward = n1 - n0 * n0.dot(n1);
        let right = if adds { inward } else { -inward }.unit()?;
        let across = if adds { n0 } else { -n0 };
        let mut slants = [[0.0; 2]; 2];
        for (end, slot) in slants.iter_mut().enumerate() {
            let plane = self.end_plane(solid, fold, side, end, along)?;
            let rate = plane.dot(along);
            *slot = [-plane.dot(right) / rate, -plane.dot(across) / rate];
        }
        Some(Laid {
            ends,
            axes: [along, right, across],
            slants,
            strip: Strip::new(fold.radius, turn),
            sense: if adds { 1.0 } else { -1.0 },
        })
    }

    /// The normal of the plane in which a fold ends.
    fn end_plane(
        &self,
        solid: &Solid,
        fold: &Fold,
        side: &Side,
        end: usize,
        along: Vector,
    ) -> Option<Vector> {
        let normal = |face: u8| Some(solid.loops.get(usize::from(face))?.plane.normal);
        let point = |place: u8| solid.vertices.get(usize::from(place)).copied();
        let here = side.ends.get(end).copied()?;
        let tangent = |fold: &Fold, side: &Side| {
            let turn = libm::fabs(PI - side.dihedral);
            fold.radius * libm::tan(0.5 * turn)
        };
        if let Some((other, own)) = self.beside(solid, side, end).next() {
            let shared = own.faces.iter().find(|face| side.faces.contains(face))?;
            let far = own.ends.iter().find(|place| **place != here)?;
            let out = (point(*far)? - point(here)?).unit()?;
            let own_way = if end == 0 { along } else { -along };
            let mitre = own_way * tangent(other, own) + out * tangent(fold, side);
            return mitre.cross(normal(*shared)?).unit();
        }
        let beyond = solid.sides.iter().find(|other| {
            *other != side
                && other.ends.contains(&here)
                && other.faces.iter().any(|face| side.faces.contains(face))
        })?;
        let face = beyond
            .faces
            .iter()
            .find(|face| !side.faces.contains(face))?;
        normal(*face)
    }

    fn each<'f>(&'f self, solid: &'f Solid) -> impl Iterator<Item = Laid> + 'f {
        self.folds
            .iter()
            .filter_map(move |fold| self.laid(solid, fold))
    }

    /// What the folds add to the volume below a level, and to the surface there; mostly less than nothing.
    fn below(&self, solid: &Solid, up: Vector, level: f64) -> (f64, f64) {
        let (mut volume, mut surface) = (0.0, 0.0);
        for laid in self.each(solid) {
            let (more, wider) = laid.below(up, level);
            volume += laid.sense * more;
            surface += laid.sense * wider;
        }
        (volume, surface)
    }

    /// What they add to the whole volume, and its first moment about the origin, each strip taken at the
    /// middle of its length.
    fn whole(&self, solid: &Solid) -> (f64, Vector) {
        let (mut volume, mut moment) = (0.0, Vector::ZERO);
        for laid in self.each(solid) {
            let middle = laid.strip.middle();
            let (near, far) = (laid.at(0, middle), laid.at(1, middle));
            // An even slope across the strip leaves its length in the middle the mean of all.
            let more = laid.sense * laid.strip.area() * (far - near).length();
            volume += more;
            moment = moment + (near + far) * (0.5 * more);
        }
        (volume, moment)
    }

    /// What they add below a level, and its first moment about the origin: of each, the part below is taken
    /// to fill the strip from its lower end, or to lie in its middle where it rises less than it is wide.
    fn moment_below(&self, solid: &Solid, up: Vector, level: f64) -> (f64, Vector) {
        let (mut volume, mut moment) = (0.0, Vector::ZERO);
        for laid in self.each(solid) {
            let middle = laid.strip.middle();
            let (mut low, mut high) = (laid.at(0, middle), laid.at(1, middle));
            if up.dot(high) < up.dot(low) {
                core::mem::swap(&mut low, &mut high);
            }
            let (part, _) = laid.below(up, level);
            let all = laid.strip.area() * (high - low).length();
            let steep = up.dot(high - low) > laid.strip.tangent();
            let share = if steep && all > 0.0 { part / all } else { 1.0 };
            let more = laid.sense * part;
            volume += more;
            moment = moment + (low + (high - low) * (0.5 * share)) * more;
        }
        (volume, moment)
    }

    /// Whether a point that one of them rounds is in the space; `None` of a point that none does.
    fn rounds(&self, solid: &Solid, point: Vector) -> Option<bool> {
        let found = self.each(solid).find(|laid| laid.holds(point))?;
        Some(found.sense > 0.0)
    }

    /// What they add to the area of a face.
    fn area(&self, solid: &Solid, face: u8) -> f64 {
        let mut sum = 0.0;
        for fold in &self.folds {
            let (Some(side), Some(laid)) = (self.side(solid, fold), self.laid(solid, fold)) else {
                continue;
            };
            if side.faces.contains(&face) {
                let reach = [0.5 * laid.strip.tangent(), 0.0];
                let length = (laid.at(1, reach) - laid.at(0, reach)).length();
                sum -= length * laid.strip.saved();
                continue;
            }
            for (end, place) in side.ends.iter().enumerate() {
                let ends_here = self.beside(solid, side, end).next().is_none()
                    && solid
                        .loops
                        .get(usize::from(face))
                        .is_some_and(|this| solid.corners_of(this).contains(place));
                if ends_here {
                    let [a, b] = laid.slant(end);
                    let slanting = libm::sqrt(1.0 + a * a + b * b);
                    sum += laid.sense * laid.strip.area() * slanting;
                }
            }
        }
        sum
    }

    /// The highest that the solid reaches along `up`.
    fn reach(&self, solid: &Solid, up: Vector) -> f64 {
        let mut high = f64::NEG_INFINITY;
        for (vertex, place) in solid.vertices.iter().zip(0_u8..) {
            let folded = self
                .folds
                .iter()
                .filter_map(|fold| self.side(solid, fold))
                .any(|side| side.ends.contains(&place));
            if !folded {
                high = libm::fmax(high, up.dot(*vertex));
            }
        }
        for fold in &self.folds {
            let Some(side) = self.side(solid, fold) else {
                continue;
            };
            let sharp = side.ends.map(|place| {
                let vertex = solid.vertices.get(usize::from(place)).copied();
                vertex.map_or(f64::NEG_INFINITY, |vertex| up.dot(vertex))
            });
            // No round end reaches further than the sharp one.
            if libm::fmax(sharp[0], sharp[1]) <= high {
                continue;
            }
            if let Some(laid) = self.laid(solid, fold) {
                high = libm::fmax(high, libm::fmax(laid.reach(0, up), laid.reach(1, up)));
            }
        }
        high
    }

    /// Gives an edge of the sharp body what the folds at its ends make of it: half of the turn of a fold that
    /// it runs out of, or less of its length where it runs down to the corner between two.
    ///
    /// Where a face stands aslant to a fold its turn there is an ellipse, and the arc of the same ends
    /// and the same start is taken.
    fn round(&self, solid: &Solid, side: &Side, edge: &mut Edge) {
        if edge.radius.si() > 0.0 {
            return;
        }
        let ends = edge.ends;
        let mut turns = [None; 2];
        for (end, turn) in turns.iter_mut().enumerate() {
            let (Some(here), Some(there)) = (ends.get(end), ends.get(1 - end)) else {
                continue;
            };
            let Some(out) = (*here - *there).unit() else {
                continue;
            };
            let mut met = self.beside(solid, side, end);
            let Some((fold, own)) = met.next() else {
                continue;
            };
            let cut = |fold: &Fold, own: &Side| -> Option<f64> {
                let run = (*solid.vertices.get(usize::from(own.ends[1]))?
                    - *solid.vertices.get(usize::from(own.ends[0]))?)
                .unit()?;
                let turn = libm::fabs(PI - own.dihedral);
                Some(fold.radius * libm::tan(0.5 * turn) / run.cross(out).length())
            };
            let first = cut(fold, own).unwrap_or(0.0);
            let slot = edge.ends.get_mut(end);
            if let Some((second, own)) = met.next() {
                let more = cut(second, own).unwrap_or(0.0);
                if let Some(slot) = slot {
                    *slot = *here - out * libm::fmax(first, more);
                }
                continue;
            }
            let at = own
                .ends
                .iter()
                .position(|place| Some(place) == side.ends.get(end));
            let (Some(laid), Some(at)) = (self.laid(solid, fold), at) else {
                continue;
            };
            let start = *here - out * first;
            let middle = laid.at(at, laid.strip.half_way());
            let chord = middle - start;
            let ahead = chord.dot(out);
            let aside = chord - out * ahead;
            let by = aside.length();
            let Some(side_way) = aside.unit() else {
                continue;
            };
            let radius = (ahead * ahead + by * by) / (2.0 * by);
            *turn = Some(ArcPath {
                centre: start + side_way * radius,
                from: -side_way,
                towards: out,
                radius,
                sweep: 2.0 * libm::atan2(by, ahead),
            });
            if let Some(slot) = slot {
                *slot = middle;
            }
        }
        if let [None, None] = turns {
            return;
        }
        let [before, after] = turns;
        edge.path = Path::Rounded([before.map(|turn: ArcPath| turn.reversed()), after]);
    }
}
