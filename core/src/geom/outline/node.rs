//! Points, nodes and rigid moves of the plane.

/// A point of the plane, or a step from one to another.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Point {
    /// To the right, in metres.
    pub x: f64,
    /// Up, in metres.
    pub y: f64,
}

impl Point {
    /// From its two coordinates, in metres.
    #[must_use]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The step from this point to `other`.
    #[must_use]
    pub fn to(self, other: Self) -> Self {
        Self::new(other.x - self.x, other.y - self.y)
    }

    /// This point moved by `factor` times `step`.
    #[must_use]
    pub fn moved(self, step: Self, factor: f64) -> Self {
        Self::new(self.x + factor * step.x, self.y + factor * step.y)
    }

    /// The scalar product of two steps.
    #[must_use]
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// The third component of the vector product of two steps: above zero where `other` lies to the left.
    #[must_use]
    pub fn cross(self, other: Self) -> f64 {
        self.x * other.y - self.y * other.x
    }

    /// The length of a step, in metres.
    #[must_use]
    pub fn length(self) -> f64 {
        libm::hypot(self.x, self.y)
    }

    /// Whether both points lie within [`TOUCH`](super::TOUCH) of each other.
    #[must_use]
    pub fn touches(self, other: Self) -> bool {
        self.to(other).length() <= super::TOUCH
    }
}

/// A corner of an outline and the side that leads from it to the next.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Node {
    /// To the right, in metres.
    pub x: f64,
    /// Up, in metres.
    pub y: f64,
    /// Tangent of a quarter of the angle that the side to the next node sweeps; 0 for a straight side,
    /// above 0 for an arc that turns left, 1 for a semicircle: the bulge of a DXF polyline (group code 42
    /// of the DXF reference, from memory).
    pub bulge: f64,
}

impl Node {
    /// From its coordinates in metres and the bulge of the side that follows.
    #[must_use]
    pub const fn new(x: f64, y: f64, bulge: f64) -> Self {
        Self { x, y, bulge }
    }

    /// A corner with a straight side after it.
    #[must_use]
    pub const fn corner(x: f64, y: f64) -> Self {
        Self::new(x, y, 0.0)
    }

    /// Where it is.
    #[must_use]
    pub const fn point(self) -> Point {
        Point::new(self.x, self.y)
    }
}

/// A rigid move of the plane: a turn about the origin, then a shift. Nothing is mirrored, so an outline
/// stays counter-clockwise and bulges stay as they are.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Placing {
    /// Cosine of the turn.
    pub cos: f64,
    /// Sine of the turn, which is to the left where above zero.
    pub sin: f64,
    /// Shift to the right, in metres.
    pub x: f64,
    /// Shift up, in metres.
    pub y: f64,
}

impl Placing {
    /// The move that leaves all as it is.
    pub const STAY: Self = Self {
        cos: 1.0,
        sin: 0.0,
        x: 0.0,
        y: 0.0,
    };

    /// The move that takes `from` to `to` and the direction of step `along` to that of `onto`. `None`
    /// where a step has no length.
    #[must_use]
    pub fn aligning(from: Point, along: Point, to: Point, onto: Point) -> Option<Self> {
        let (cos, sin) = (along.dot(onto), along.cross(onto));
        let length = libm::hypot(cos, sin);
        if !(length > 0.0) || !length.is_finite() {
            return None;
        }
        let turn = Self {
            cos: cos / length,
            sin: sin / length,
            x: 0.0,
            y: 0.0,
        };
        let shift = turn.point(from).to(to);
        Some(Self {
            x: shift.x,
            y: shift.y,
            ..turn
        })
    }

    /// Where a point comes to lie.
    #[must_use]
    pub fn point(self, point: Point) -> Point {
        Point::new(
            self.cos * point.x - self.sin * point.y + self.x,
            self.sin * point.x + self.cos * point.y + self.y,
        )
    }

    /// Where a node comes to lie.
    #[must_use]
    pub fn node(self, node: Node) -> Node {
        let Point { x, y } = self.point(node.point());
        Node { x, y, ..node }
    }
}
