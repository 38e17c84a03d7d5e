//! Lines and arcs between two nodes.

use std::f64::consts::{FRAC_PI_2, TAU};

use super::Node;

/// One line or arc of an outline, mm and radians.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Segment {
    /// A straight edge.
    Line {
        /// Where it starts.
        from: [f64; 2],
        /// Where it ends.
        to: [f64; 2],
    },
    /// A part of a circle.
    Arc {
        /// Where it starts.
        from: [f64; 2],
        /// Where it ends.
        to: [f64; 2],
        /// The circle's centre.
        centre: [f64; 2],
        /// The circle's radius.
        radius: f64,
        /// Direction from the centre to the start, anticlockwise from the right.
        start: f64,
        /// The angle gone through, positive anticlockwise.
        sweep: f64,
    },
}

impl Segment {
    /// The way from `node` to `to` with the node's bulge.
    ///
    /// With the chord c and the bulge b, the angle is 4 atan b, the radius c (1 + b²) / 4|b|, and the
    /// centre lies c (1 - b²) / 4b to the left of the chord's middle: the definition of group 42 of
    /// LWPOLYLINE in the DXF reference, and the geometry of a circle's segment.
    pub(super) fn between(node: Node, to: [f64; 2]) -> Self {
        let from = [node.x, node.y];
        let b = node.bulge;
        if b.abs() < 1e-9 {
            return Self::Line { from, to };
        }
        let [dx, dy] = [to[0] - from[0], to[1] - from[1]];
        let aside = (1.0 - b * b) / (4.0 * b);
        let centre = [
            f64::midpoint(from[0], to[0]) - dy * aside,
            f64::midpoint(from[1], to[1]) + dx * aside,
        ];
        Self::Arc {
            from,
            to,
            centre,
            radius: dx.hypot(dy) * (1.0 + b * b) / (4.0 * b.abs()),
            start: (from[1] - centre[1]).atan2(from[0] - centre[0]),
            sweep: 4.0 * b.atan(),
        }
    }

    /// Where it starts.
    pub const fn from(&self) -> [f64; 2] {
        match self {
            Self::Line { from, .. } | Self::Arc { from, .. } => *from,
        }
    }

    /// Where it ends.
    pub const fn to(&self) -> [f64; 2] {
        match self {
            Self::Line { to, .. } | Self::Arc { to, .. } => *to,
        }
    }

    /// Twice the area between it and the origin, positive when it turns anticlockwise round it.
    pub(super) fn doubled_area(&self) -> f64 {
        let ([ax, ay], [bx, by]) = (self.from(), self.to());
        let under_chord = ax * by - bx * ay;
        match self {
            Self::Line { .. } => under_chord,
            Self::Arc { radius, sweep, .. } => {
                under_chord + radius * radius * (sweep - sweep.sin())
            }
        }
    }

    /// Widens `found` until it holds the segment.
    pub(super) fn cover(&self, found: &mut Box2) {
        found.add(self.from());
        found.add(self.to());
        if let Self::Arc {
            centre,
            radius,
            start,
            sweep,
            ..
        } = self
        {
            let reach = [[1.0, 0.0], [0.0, 1.0], [-1.0, 0.0], [0.0, -1.0]];
            for (turn, [ux, uy]) in (0_u8..).zip(reach) {
                let direction = f64::from(turn) * FRAC_PI_2;
                let gone = if *sweep > 0.0 {
                    (direction - start).rem_euclid(TAU)
                } else {
                    (start - direction).rem_euclid(TAU)
                };
                if gone < sweep.abs() {
                    found.add([centre[0] + radius * ux, centre[1] + radius * uy]);
                }
            }
        }
    }
}

/// A box that grows.
pub(super) struct Box2 {
    pub(super) low: [f64; 2],
    pub(super) high: [f64; 2],
}

impl Box2 {
    pub(super) const EMPTY: Self = Self {
        low: [f64::INFINITY; 2],
        high: [f64::NEG_INFINITY; 2],
    };

    fn add(&mut self, [x, y]: [f64; 2]) {
        self.low = [self.low[0].min(x), self.low[1].min(y)];
        self.high = [self.high[0].max(x), self.high[1].max(y)];
    }
}
