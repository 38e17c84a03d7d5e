//! The inner end of a passage into the tank.

use crate::geom::Vector;

/// The round inner end of a passage into the tank, or a point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mouth {
    /// Its centre, in metres in tank axes.
    pub at: Vector,
    /// Unit direction of the passage.
    pub axis: Vector,
    /// Half of its bore, in metres; zero of a point.
    pub radius: f64,
}

impl Mouth {
    /// A point at which liquid is drawn.
    #[must_use]
    pub const fn point(at: Vector) -> Self {
        Self {
            at,
            axis: Vector::new(0.0, 0.0, 1.0),
            radius: 0.0,
        }
    }

    /// How far its rim reaches above its centre, along a unit `up`.
    fn reach(&self, up: Vector) -> f64 {
        let along = self.axis.dot(up);
        self.radius * libm::sqrt(libm::fmax(1.0 - along * along, 0.0))
    }

    /// The lowest point of its rim along up, in metres from the origin: where liquid begins to run out.
    #[must_use]
    pub fn low(&self, up: Vector) -> f64 {
        self.at.dot(up) - self.reach(up)
    }

    /// The highest point of its rim along up, in metres from the origin: below it no air goes out, and a pick-up sucks air
    /// once the surface is under it.
    #[must_use]
    pub fn high(&self, up: Vector) -> f64 {
        self.at.dot(up) + self.reach(up)
    }
}
