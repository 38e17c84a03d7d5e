//! What roundness does to a solid's edges, reach and filling.

use super::edge::Edge;
use super::placed::PlacedDrum;
use super::solid::Rounded;
use super::{ArcPath, Path};
use crate::geom::Vector;
use crate::geom::outline::section::Section;
use crate::input::Face;
use crate::units::Length;

/// A side of an outline in the tank, half of the turn at each of its ends with it where that is rounded:
/// its ends, and how it runs. `lift` places a point of the outline's plane.
pub(crate) fn half_turned(
    section: &Section,
    side: usize,
    lift: &dyn Fn([f64; 2]) -> Vector,
) -> ([Vector; 2], Path) {
    let origin = lift([0.0; 2]);
    let half = |corner: usize| {
        let arc = section.arc(corner)?;
        let way = |v: [f64; 2]| lift(v) - origin;
        Some(ArcPath {
            centre: lift(arc.centre),
            from: way(arc.from),
            towards: way(arc.towards),
            radius: arc.radius,
            sweep: 0.5 * arc.sweep,
        })
    };
    // Along the outline: the latter half of the corner before, the first half of the one after.
    let before = half(side).map(|turn| {
        let rest = ArcPath {
            sweep: 2.0 * turn.sweep,
            ..turn
        }
        .reversed();
        ArcPath {
            sweep: turn.sweep,
            ..rest
        }
        .reversed()
    });
    let after = half(side + 1);
    let start = before.map_or(lift(section.at(side)), |turn| turn.at(0.0));
    let end = after.map_or(lift(section.at(side + 1)), |turn| turn.at(turn.sweep));
    let path = if before.is_none() && after.is_none() {
        Path::Straight
    } else {
        Path::Rounded([before, after])
    };
    ([start, end], path)
}

impl Rounded {
    /// A point of the section's plane, at `y`.
    fn lift([x, z]: [f64; 2], y: f64) -> Vector {
        Vector::new(x, y, z)
    }

    /// Radius of the corner that an edge runs along; zero where it is sharp, or between a side and an end.
    pub(super) fn radius_of(&self, edge: &Edge) -> Length {
        let section = &self.section;
        let [Face::Side(a), Face::Side(b)] = edge.faces else {
            return Length::default();
        };
        let (Some(a), Some(b)) = (section.side_place(a), section.side_place(b)) else {
            return Length::default();
        };
        // Two sides meet at the corner where the later one starts.
        let corner = if (a + 1) % section.len().max(1) == b {
            b
        } else {
            a
        };
        Length::from_metres(section.radius(corner))
    }

    /// Gives an edge of the sharp body what the rounded corners make of it.
    pub(super) fn round(&self, edge: &mut Edge) {
        let [first, second] = edge.faces;
        match (first, second) {
            (Face::Side(_), Face::Side(_)) => edge.radius = self.radius_of(edge),
            (_, Face::Side(number)) | (Face::Side(number), _) => {
                let y = edge.ends[0].y;
                let section = &self.section;
                let Some(side) = section.side_place(number) else {
                    return;
                };
                let start = Self::lift(section.at(side), y);
                // Edges run along the positive sense of their axis, as on the sharp body.
                let forward = (edge.ends[0] - start).length() <= (edge.ends[1] - start).length();
                let (ends, path) = half_turned(section, side, &|at| Self::lift(at, y));
                let Path::Rounded(turns) = path else {
                    return;
                };
                let ([start, end], [before, after]) = (ends, turns);
                if forward {
                    edge.ends = ends;
                    edge.path = path;
                } else {
                    edge.ends = [end, start];
                    edge.path = Path::Rounded([
                        after.map(|turn| turn.reversed()),
                        before.map(|turn| turn.reversed()),
                    ]);
                }
            }
            _ => {}
        }
    }

    pub(super) fn extent(&self, up: Vector) -> (f64, f64) {
        let (low, high) = self.section.extent([up.x, up.z]);
        let (front, back) = (up.y * self.front, up.y * (self.front + self.width));
        (
            low + libm::fmin(front, back),
            high + libm::fmax(front, back),
        )
    }

    pub(super) fn below(&self, up: Vector, level: f64) -> (f64, f64) {
        self.section
            .prism_below(self.width, up, level - up.y * self.front)
    }
}

impl PlacedDrum {
    /// How far a point lies outside, in metres, or less where an end is dished; zero or less within.
    pub(crate) fn outside(&self, point: Vector) -> f64 {
        let off = point - self.start;
        let along = self.axis.along();
        let place = along.dot(off);
        let out = (off - along * place).length();
        let ends = [-place, place - self.turned.length()];
        let past = ends
            .iter()
            .enumerate()
            .map(|(end, past)| past - self.turned.head_depth(end))
            .fold(f64::NEG_INFINITY, libm::fmax);
        match self.turned.radius_at(place) {
            Some(radius) => libm::fmax(past, out - radius),
            None => past,
        }
    }

    pub(crate) fn round(&self, edge: &mut Edge) {
        if edge.faces[0] == Face::Shell {
            return;
        }
        let along = self.axis.along();
        let centre = if edge.faces[0] == self.axis.heads()[0] {
            self.start
        } else {
            self.start + along * self.turned.length()
        };
        edge.path = Path::Round(ArcPath {
            centre,
            from: self.axis.to_seam(),
            towards: along.cross(self.axis.to_seam()),
            radius: self.turned.radius(),
            sweep: 2.0 * core::f64::consts::PI,
        });
    }

    /// `up` as it lies to the axis: the share along it and the share across.
    fn lean(&self, up: Vector) -> (f64, f64) {
        let along = self.axis.along();
        let share = up.dot(along);
        (share, (up - along * share).length())
    }

    pub(crate) fn extent(&self, up: Vector) -> (f64, f64) {
        let (along, across) = self.lean(up);
        let (low, high) = self.turned.extent(along, across);
        let start = up.dot(self.start);
        (start + low, start + high)
    }

    pub(crate) fn below(&self, up: Vector, level: f64) -> (f64, f64) {
        let (along, across) = self.lean(up);
        self.turned.below(along, across, level - up.dot(self.start))
    }
}
