//! Whether a point lies within a solid.

use super::solid::{Curve, FaceView, Rounded, Solid};
use crate::geom::Vector;

/// A direction that is along no edge and in no face of a tank that anyone draws.
const RAY: Vector = Vector::new(0.513_724_1, 0.287_316_9, 0.808_420_3);

impl Solid {
    /// Whether a point lies within it, roundness and all; of one on its surface either may be said.
    #[must_use]
    pub fn holds(&self, point: Vector) -> bool {
        match &self.curve {
            Curve::None => self.is_between_planes(point),
            Curve::Folded(folded) => (folded.code.rounds)(folded, self, point)
                .unwrap_or_else(|| self.is_between_planes(point)),
            Curve::Rounded(rounded) => rounded.holds(point),
            Curve::Turned(placed) => {
                let from = point - placed.start;
                let axis = placed.axis.along();
                let along = axis.dot(from);
                let out = (from - axis * along).length();
                let radius = placed.turned.radius_at(along);
                radius.is_some_and(|radius| out <= radius)
            }
        }
    }

    /// Whether a ray from a point leaves through an odd number of plane faces.
    pub(super) fn is_between_planes(&self, point: Vector) -> bool {
        self.faces().filter(|view| view.is_met(point, RAY)).count() % 2 == 1
    }
}

impl FaceView<'_> {
    /// Whether a ray from a point meets its outline, as if all its corners were sharp.
    fn is_met(&self, from: Vector, ray: Vector) -> bool {
        let plane = self.plane();
        let rate = plane.normal.dot(ray);
        let away = -plane.distance(from);
        if !(away / rate >= 0.0) {
            return false;
        }
        self.is_over(from + ray * (away / rate))
    }

    /// Whether a point of its plane lies within its outline, as if all its corners were sharp: a line from
    /// there meets it an odd number of times.
    pub(crate) fn is_over(&self, point: Vector) -> bool {
        let normal = self.normal();
        let reference = if libm::fabs(normal.z) > 0.9 {
            Vector::new(0.0, 1.0, 0.0)
        } else {
            Vector::new(0.0, 0.0, 1.0)
        };
        let right = reference.cross(normal);
        let up = normal.cross(right);
        let flat = |p: Vector| [right.dot(p - point), up.dot(p - point)];
        let mut odd = false;
        let mut last = self.outline().last().map(flat);
        for corner in self.outline().map(flat) {
            if let Some(before) = last
                && (before[1] > 0.0) != (corner[1] > 0.0)
            {
                let share = before[1] / (before[1] - corner[1]);
                odd ^= before[0] + share * (corner[0] - before[0]) > 0.0;
            }
            last = Some(corner);
        }
        odd
    }
}

impl Rounded {
    fn holds(&self, point: Vector) -> bool {
        let along = point.y - self.front;
        along >= 0.0 && along <= self.width && self.section.holds([point.x, point.z])
    }
}
