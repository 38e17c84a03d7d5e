//! One side of an outline: a straight line or an arc.

use core::f64::consts::{FRAC_PI_2, PI};

use super::TOUCH;
use super::extents::Extents;
use super::node::Point;

/// A side: from one node to the next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Side {
    /// Where it starts.
    pub from: Point,
    /// Where it ends.
    pub to: Point,
    /// See [`Node::bulge`](super::Node::bulge).
    pub bulge: f64,
}

/// The circle under an arc, and the part of it, counter-clockwise whichever way the side runs.
#[derive(Clone, Copy)]
pub(super) struct Arc {
    pub(super) centre: Point,
    pub(super) radius: f64,
    /// Direction from the centre to the first point, in radians.
    start: f64,
    /// In radians, above zero.
    sweep: f64,
}

impl Arc {
    fn at(&self, angle: f64) -> Point {
        Point::new(
            self.centre.x + self.radius * libm::cos(angle),
            self.centre.y + self.radius * libm::sin(angle),
        )
    }

    /// How far round from the start, in radians within a full turn, the direction to `point` lies.
    fn angle_to(&self, point: Point) -> f64 {
        let step = self.centre.to(point);
        let angle = libm::atan2(step.y, step.x) - self.start;
        if angle < 0.0 { angle + 2.0 * PI } else { angle }
    }

    /// The multiples of `step` radians, moved by `offset`, that the arc passes inside its ends.
    fn marks(&self, offset: f64, step: f64) -> impl Iterator<Item = f64> + use<> {
        let (start, end) = (self.start, self.start + self.sweep);
        let first = libm::floor((start - offset) / step) + 1.0;
        (0..4_u8)
            .map(move |n| offset + step * (first + f64::from(n)))
            .take_while(move |angle| *angle < end)
    }
}

impl Side {
    /// The step from its start to its end.
    #[must_use]
    pub fn chord(&self) -> Point {
        self.from.to(self.to)
    }

    /// Whether it bows by so little that it is as good as straight.
    #[must_use]
    pub fn is_straight(&self) -> bool {
        // The height of an arc over its chord is half the chord times the bulge.
        self.bulge == 0.0 || 0.5 * libm::fabs(self.bulge) * self.chord().length() <= 0.01 * TOUCH
    }

    /// Its length, in metres: of an arc `c (1 + b²) atan(b) / b`, with the chord `c` and the bulge `b`.
    #[must_use]
    pub fn length(&self) -> f64 {
        let (chord, b) = (self.chord().length(), self.bulge);
        if b == 0.0 {
            chord
        } else {
            chord * (1.0 + b * b) * libm::atan(b) / b
        }
    }

    /// Area between the arc and its chord, in square metres; below zero where the arc turns right.
    ///
    /// The circular segment `R²/2 (θ − sin θ)` with `R = c (1 + b²) / 4b` and `θ = 4 atan b`.
    #[must_use]
    pub fn segment_area(&self) -> f64 {
        let (chord, b) = (self.chord(), self.bulge);
        let square = b * b;
        let share = if square < 4e-4 {
            // The closed form loses its figures here: its Taylor series.
            b * (1.0 / 3.0 + square * (1.0 / 15.0 - square / 105.0))
        } else {
            let whole = 1.0 + square;
            (whole * whole * libm::atan(b) - b * (1.0 - square)) / (8.0 * square)
        };
        chord.dot(chord) * share
    }

    /// The smallest upright rectangle around it.
    #[must_use]
    pub fn extents(&self) -> Extents {
        let mut least = Point::new(
            libm::fmin(self.from.x, self.to.x),
            libm::fmin(self.from.y, self.to.y),
        );
        let mut most = Point::new(
            libm::fmax(self.from.x, self.to.x),
            libm::fmax(self.from.y, self.to.y),
        );
        if let Some(arc) = self.arc() {
            for point in arc.marks(0.0, FRAC_PI_2).map(|angle| arc.at(angle)) {
                least = Point::new(libm::fmin(least.x, point.x), libm::fmin(least.y, point.y));
                most = Point::new(libm::fmax(most.x, point.x), libm::fmax(most.y, point.y));
            }
        }
        Extents { least, most }
    }

    /// An upright rectangle that holds it and is had at once: an arc of at most half a circle stays within
    /// its height of the chord, and no chord is longer than the sum of its steps.
    pub(super) fn about(&self) -> Extents {
        let bulge = libm::fabs(self.bulge);
        if bulge > 1.0 {
            return self.extents();
        }
        let chord = self.chord();
        let most = 0.5 * bulge * (libm::fabs(chord.x) + libm::fabs(chord.y));
        let (a, b) = (self.from, self.to);
        Extents {
            least: Point::new(libm::fmin(a.x, b.x) - most, libm::fmin(a.y, b.y) - most),
            most: Point::new(libm::fmax(a.x, b.x) + most, libm::fmax(a.y, b.y) + most),
        }
    }

    /// How far `point` is from it, in metres.
    #[must_use]
    pub fn distance(&self, point: Point) -> f64 {
        if let Some(arc) = self.arc() {
            if arc.angle_to(point) <= arc.sweep {
                return libm::fabs(arc.centre.to(point).length() - arc.radius);
            }
            return libm::fmin(self.from.to(point).length(), self.to.to(point).length());
        }
        let chord = self.chord();
        let square = chord.dot(chord);
        let share = if square > 0.0 {
            (self.from.to(point).dot(chord) / square).clamp(0.0, 1.0)
        } else {
            0.0
        };
        self.from.moved(chord, share).to(point).length()
    }

    /// The point that lies this share of the way along.
    pub(super) fn at(&self, share: f64) -> Point {
        match self.arc() {
            None => self.from.moved(self.chord(), share),
            Some(arc) => arc.at(arc.start + arc.sweep * self.forward(share)),
        }
    }

    /// The share of the way along at which `point`, which lies on it, lies; 0 to 1.
    pub(super) fn share_of(&self, point: Point) -> f64 {
        if point.touches(self.from) {
            return 0.0;
        }
        if point.touches(self.to) {
            return 1.0;
        }
        let share = match self.arc() {
            None => self.from.to(point).dot(self.chord()) / self.chord().dot(self.chord()),
            Some(arc) => self.forward(arc.angle_to(point) / arc.sweep),
        };
        share.clamp(0.0, 1.0)
    }

    /// The direction in which it runs there, of unit length.
    pub(crate) fn direction(&self, share: f64) -> Point {
        let step = match self.arc() {
            None => self.chord(),
            Some(arc) => {
                let out = arc.centre.to(self.at(share));
                if self.bulge > 0.0 {
                    Point::new(-out.y, out.x)
                } else {
                    Point::new(out.y, -out.x)
                }
            }
        };
        let length = step.length();
        if length > 0.0 {
            Point::new(step.x / length, step.y / length)
        } else {
            Point::default()
        }
    }

    /// Its circle; `None` where it is straight.
    pub(super) fn arc(&self) -> Option<Arc> {
        if self.is_straight() {
            return None;
        }
        let (chord, b) = (self.chord(), self.bulge);
        let length = chord.length();
        // The centre lies on the left of the chord for a bulge between 0 and 1.
        let left = Point::new(-chord.y, chord.x);
        let centre = self
            .from
            .moved(chord, 0.5)
            .moved(left, (1.0 - b * b) / (4.0 * b));
        let first = if b > 0.0 { self.from } else { self.to };
        let out = centre.to(first);
        Some(Arc {
            centre,
            radius: length * (1.0 + b * b) / (4.0 * libm::fabs(b)),
            start: libm::atan2(out.y, out.x),
            sweep: 4.0 * libm::atan(libm::fabs(b)),
        })
    }

    /// How often a ray from `point` to the right crosses it. An end counts as above the ray or not by its
    /// height alone, so that the counts of two sides that meet on the ray fit together.
    pub(super) fn ray_crossings(&self, point: Point) -> u32 {
        let Some(arc) = self.arc() else {
            let (a, b) = (self.from, self.to);
            if (a.y > point.y) == (b.y > point.y) {
                return 0;
            }
            let x = a.x + (point.y - a.y) / (b.y - a.y) * (b.x - a.x);
            return u32::from(x > point.x);
        };
        // Pieces between the highest and lowest points of the circle rise or fall all the way.
        let (first, last) = if self.bulge > 0.0 {
            (self.from, self.to)
        } else {
            (self.to, self.from)
        };
        let end = arc.start + arc.sweep;
        let rise = point.y - arc.centre.y;
        let half = libm::sqrt(libm::fmax(arc.radius * arc.radius - rise * rise, 0.0));
        let mut crossings = 0;
        let mut piece = |from: (f64, f64), to: (f64, f64)| {
            if (from.1 > point.y) != (to.1 > point.y) {
                let right = libm::cos(0.5 * (from.0 + to.0)) > 0.0;
                let x = arc.centre.x + if right { half } else { -half };
                crossings += u32::from(x > point.x);
            }
        };
        let mut from = (arc.start, first.y);
        for angle in arc.marks(FRAC_PI_2, PI) {
            let to = (angle, arc.at(angle).y);
            piece(from, to);
            from = to;
        }
        piece(from, (end, last.y));
        crossings
    }

    /// A share along the arc in the direction of the side, from or to one counted counter-clockwise.
    fn forward(&self, share: f64) -> f64 {
        if self.bulge > 0.0 { share } else { 1.0 - share }
    }
}
