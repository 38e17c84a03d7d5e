//! What rounding a corner takes: the plane between its two tangents and the arc.

use super::super::dot;
use super::CornerArc;
use super::piece::{Level, Piece};

/// The corner between two tangents of equal length and the arc that they touch. The sharp corner is the
/// origin; the first tangent runs along u, and the arc's centre lies over its end, along w.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Strip {
    radius: f64,
    turn: f64,
    tangent: f64,
}

impl Strip {
    /// Of an arc of that radius (m) that turns by `turn` radians, above 0 and below π.
    pub(crate) fn new(radius: f64, turn: f64) -> Self {
        Self {
            radius,
            turn,
            tangent: radius * libm::tan(0.5 * turn),
        }
    }

    /// Length of each tangent, in metres.
    pub(crate) const fn tangent(&self) -> f64 {
        self.tangent
    }

    /// By how much each tangent is longer than half of the arc.
    pub(crate) fn saved(&self) -> f64 {
        self.tangent - 0.5 * self.radius * self.turn
    }

    /// Its area, in square metres: two right-angled triangles less the arc's sector.
    pub(crate) fn area(&self) -> f64 {
        self.radius * self.saved()
    }

    /// The point of the arc at an angle from its start.
    fn on_arc(&self, angle: f64) -> [f64; 2] {
        let (sine, cosine) = libm::sincos(angle);
        [
            self.tangent - self.radius * sine,
            self.radius * (1.0 - cosine),
        ]
    }

    /// The middle of the arc.
    pub(crate) fn half_way(&self) -> [f64; 2] {
        self.on_arc(0.5 * self.turn)
    }

    /// Its centre of area: of the two triangles, less that of the sector (CRC Standard Mathematical Tables,
    /// from memory).
    pub(crate) fn middle(&self) -> [f64; 2] {
        let (r, t) = (self.radius, self.tangent);
        let area = self.area();
        let reach = libm::hypot(r, t);
        if !(area > 0.0 && reach > 0.0) {
            return [0.0; 2];
        }
        let triangles = r * t * (t * t / reach + reach) / 3.0;
        let half = 0.5 * self.turn;
        let sector = r * r * half * (reach - 2.0 * r * libm::sin(half) / (3.0 * half));
        let out = (triangles - sector) / (area * reach);
        [t * out, r * out]
    }

    /// The most of `slope · p` on its arc.
    pub(crate) fn reach(&self, slope: [f64; 2]) -> f64 {
        let at = |angle: f64| dot(slope, self.on_arc(angle));
        let steepest = libm::atan2(-slope[0], -slope[1]);
        let ends = libm::fmax(at(0.0), at(self.turn));
        if steepest > 0.0 && steepest < self.turn {
            libm::fmax(ends, at(steepest))
        } else {
            ends
        }
    }

    /// Whether a point lies within it.
    pub(crate) fn holds(&self, point: [f64; 2]) -> bool {
        let [u, w] = point;
        let second = self.on_arc(self.turn);
        // Between the tangents, and short of the arc: nearer to the corner than both its ends.
        let between = w >= 0.0 && second[0] * w - second[1] * u <= 0.0;
        let out = [second[0] - self.tangent, second[1] - self.radius];
        let off = [u - self.tangent, w - self.radius];
        let short = off[1] * -self.radius <= self.radius * self.radius
            && u <= self.tangent
            && dot(off, out) <= self.radius * self.radius;
        let along = second[0] * u + second[1] * w <= self.tangent * self.tangent;
        between && short && along && libm::hypot(off[0], off[1]) > self.radius
    }

    /// The integral of `depth − slope · p` over the part of it where that is above zero, and the area of
    /// that part.
    pub(crate) fn under(&self, depth: f64, slope: [f64; 2]) -> [f64; 2] {
        let steep = libm::hypot(slope[0], slope[1]);
        // No point of it is further from the corner than a tangent is long.
        let most = steep * self.tangent;
        if depth <= -most {
            return [0.0; 2];
        }
        if depth >= most {
            let area = self.area();
            return [area * (depth - dot(slope, self.middle())), area];
        }
        let line = Level {
            up: slope.map(|c| c / steep),
            height: depth / steep,
            slack: 4.0 * f64::EPSILON * self.tangent,
        };
        let corner = [0.0; 2];
        let arc = CornerArc {
            centre: [self.tangent, self.radius],
            from: [0.0, -1.0],
            towards: [-1.0, 0.0],
            radius: self.radius,
            sweep: self.turn,
            left: false,
        };
        let mut sums = [0.0; 2];
        for piece in [
            Piece::Line([corner, self.on_arc(0.0)]),
            Piece::Arc(arc),
            Piece::Line([self.on_arc(self.turn), corner]),
        ] {
            for part in piece.parts(&line, 0.0) {
                if part.middle < -line.slack {
                    sums[0] += steep * part.sums.second;
                    sums[1] += part.sums.area;
                }
            }
        }
        sums
    }
}
