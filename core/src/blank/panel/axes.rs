//! The axes in which a face is drawn: as someone sees it who stands outside and looks at it.

use crate::body::FaceView;
use crate::geom::Vector;

/// Right and up on a face seen from outside. On an upright face up is up; on a level one, to the back
/// as seen from above, to the front as seen from below.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Axes {
    /// Lower left corner of the box about the face's outline.
    pub origin: Vector,
    /// To the right, of unit length.
    pub right: Vector,
    /// Up, of unit length.
    pub up: Vector,
}

impl Axes {
    /// The axes of a face with this unit outward `normal` and this outline.
    #[must_use]
    pub fn of(normal: Vector, outline: impl Iterator<Item = Vector>) -> Self {
        // Nearer to level than about 0.6°, up on the drawing is the back or the front of the tank.
        const LEVEL: f64 = 0.9999;
        let reference = if libm::fabs(normal.z) > LEVEL {
            Vector::new(0.0, if normal.z > 0.0 { 1.0 } else { -1.0 }, 0.0)
        } else {
            Vector::new(0.0, 0.0, 1.0)
        };
        let up = (reference - normal * normal.dot(reference))
            .unit()
            .unwrap_or(reference);
        let right = up.cross(normal);
        let mut low = (f64::INFINITY, f64::INFINITY);
        let mut height = 0.0;
        for corner in outline {
            low.0 = libm::fmin(low.0, right.dot(corner));
            low.1 = libm::fmin(low.1, up.dot(corner));
            height = normal.dot(corner);
        }
        Self {
            origin: right * low.0 + up * low.1 + normal * height,
            right,
            up,
        }
    }

    /// The axes of a face of a body.
    pub(crate) fn of_face(view: &FaceView<'_>) -> Self {
        Self::of(view.normal(), view.outline())
    }

    /// A point of the face's plane in these axes, in metres.
    #[must_use]
    pub fn flat(&self, point: Vector) -> [f64; 2] {
        let from = point - self.origin;
        [self.right.dot(from), self.up.dot(from)]
    }

    /// A point given in these axes, in metres, in the tank.
    #[must_use]
    pub fn lift(&self, [right, up]: [f64; 2]) -> Vector {
        self.origin + self.right * right + self.up * up
    }
}
