//! The way that an edge runs from its start to its end.

use crate::geom::Vector;

/// A turn about a centre.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct ArcPath {
    /// What it turns about.
    pub centre: Vector,
    /// Unit direction from the centre to where it starts.
    pub from: Vector,
    /// Unit direction in which it leaves from there, across `from`.
    pub towards: Vector,
    /// Its radius, in metres.
    pub radius: f64,
    /// How far it turns, in radians, above zero.
    pub sweep: f64,
}

impl ArcPath {
    /// Its length in metres.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.radius * self.sweep
    }

    /// The point after `angle` radians.
    #[must_use]
    pub fn at(&self, angle: f64) -> Vector {
        let (sine, cosine) = libm::sincos(angle);
        self.centre + (self.from * cosine + self.towards * sine) * self.radius
    }

    /// The same turn walked from its end to its start.
    #[must_use]
    pub fn reversed(&self) -> Self {
        let (sine, cosine) = libm::sincos(self.sweep);
        Self {
            from: self.from * cosine + self.towards * sine,
            towards: self.from * sine - self.towards * cosine,
            ..*self
        }
    }
}

/// How an edge runs.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum Path {
    /// Straight from end to end.
    Straight,
    /// Straight, with half of a rounded corner before and after it where the corner there is rounded.
    Rounded([Option<ArcPath>; 2]),
    /// All the way round a circle; both ends are the same point.
    Round(ArcPath),
}
