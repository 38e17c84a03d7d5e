//! What of a section, or of a prism over it, lies below a level.

use super::super::dot;
use super::Section;
use super::piece::{Level, Sums};
use crate::geom::Vector;

/// What of a section lies below a level.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SectionBelow {
    /// Its area, in square metres.
    pub area: f64,
    /// Its first moment: the integral of the height (`dir · p`) over it, in cubic metres.
    pub moment: f64,
    /// Length of the level's line inside the outline, all its pieces together, in metres. Where the line
    /// lies along a side it is what lies just below the line.
    pub chord: f64,
}

/// The mean over levels from `height - drop` to `height` of the area below, and of the cut.
struct Mean {
    area: f64,
    chord: f64,
}

impl Section {
    /// The level through the first corner: near the outline, so that its sums lose nothing.
    fn own_level(&self, up: [f64; 2]) -> Level {
        Level {
            up,
            height: dot(up, self.at(0)),
            slack: 0.0,
        }
    }

    /// A level for a cut.
    fn level(&self, up: [f64; 2], height: f64) -> Level {
        let farthest = self.corners().iter().fold(0.0, |most, corner| {
            let [u, w] = corner.at;
            libm::fmax(most, libm::fmax(libm::fabs(u), libm::fabs(w)))
        });
        Level {
            up,
            height,
            slack: 4.0 * f64::EPSILON * farthest,
        }
    }

    fn total(&self, level: &Level) -> Sums {
        let mut sums = Sums::default();
        for (_, piece) in self.pieces() {
            sums.add(piece.whole(level));
        }
        sums
    }

    /// Its area, negative where it runs clockwise.
    pub(super) fn signed_area(&self) -> f64 {
        self.total(&self.own_level([0.0, 1.0])).area
    }

    /// Its area in square metres, arcs included (Green's theorem).
    #[must_use]
    pub fn area(&self) -> f64 {
        self.signed_area()
    }

    /// Its centre of area, in metres (Green's theorem).
    #[must_use]
    pub fn centroid(&self) -> [f64; 2] {
        let along = |up: [f64; 2]| {
            let level = self.own_level(up);
            let sums = self.total(&level);
            level.height - sums.second / sums.area
        };
        [along([1.0, 0.0]), along([0.0, 1.0])]
    }

    /// The lowest and the highest that it reaches along `dir` (of any length), arcs included:
    /// the least and the most of `dir · p`.
    #[must_use]
    pub fn extent(&self, dir: [f64; 2]) -> (f64, f64) {
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        let mut reach = |point: [f64; 2]| {
            low = libm::fmin(low, dot(dir, point));
            high = libm::fmax(high, dot(dir, point));
        };
        for place in 0..self.len() {
            let Some(arc) = self.arc(place) else {
                reach(self.at(place));
                continue;
            };
            let [start, end] = arc.ends();
            reach(start);
            reach(end);
            // The arc's point farthest along the direction, and the one farthest against it.
            let steepest = libm::atan2(dot(dir, arc.towards), dot(dir, arc.from));
            let opposite = steepest - libm::copysign(core::f64::consts::PI, steepest);
            for angle in [steepest, opposite] {
                if angle > 0.0 && angle < arc.sweep {
                    reach(arc.at(angle));
                }
            }
        }
        (low, high)
    }

    /// What lies below the line `dir · p = level`, `dir` a unit direction and `level` in metres.
    ///
    /// Exact for straight sides and arcs, whatever the outline: Green's theorem, with arcs as circular
    /// segments.
    #[must_use]
    pub fn below(&self, dir: [f64; 2], level: f64) -> SectionBelow {
        let line = self.level(dir, level);
        let mut sums = Sums::default();
        for (_, piece) in self.pieces() {
            for part in piece.parts(&line, 0.0) {
                if part.middle < -line.slack {
                    sums.add(part.sums);
                }
            }
        }
        SectionBelow {
            area: sums.area,
            moment: level * sums.area - sums.second,
            chord: sums.run,
        }
    }

    /// Means over the levels between `level` and `drop` below it. Exact for any `drop` from zero: what
    /// lies below both levels is summed in closed form, so that no difference of two near values is ever
    /// divided by a small drop.
    fn mean(&self, up: [f64; 2], level: f64, drop: f64) -> Mean {
        let line = self.level(up, level);
        let slack = line.slack;
        let drop = if drop > slack { drop } else { 0.0 };
        let mut mean = Mean {
            area: 0.0,
            chord: 0.0,
        };
        for (_, piece) in self.pieces() {
            for part in piece.parts(&line, drop) {
                let sums = part.sums;
                if part.middle < -(drop + slack) {
                    mean.area += sums.area - 0.5 * drop * sums.run;
                    mean.chord += sums.run;
                } else if part.middle < -slack {
                    mean.area += sums.second / drop;
                    mean.chord += sums.area / drop;
                }
            }
        }
        mean
    }

    /// The volume (m³) of that part of a prism which lies below the plane `up · p = level`, and the area
    /// (m²) that the plane cuts. The prism carries the section, u along x and w along z, from y = 0 to
    /// y = `width`; `up` is a unit vector, `level` and `width` are in metres, `width` above zero.
    ///
    /// With s the height in the section's plane, the volume is an integral over y of the area below a
    /// line that sinks evenly as y grows, so it is the width times a mean of that area over levels, and
    /// that mean has a closed form. Exact at any lean, from level along y to standing on end; the area is
    /// the volume's slope.
    #[must_use]
    pub fn prism_below(&self, width: f64, up: Vector, level: f64) -> (f64, f64) {
        // Along y the prism is the same both ways, so up.y may be taken as positive.
        let (lean, level) = if up.y < 0.0 {
            (-up.y, level - up.y * width)
        } else {
            (up.y, level)
        };
        let across = libm::hypot(up.x, up.z);
        let dir = if across > 0.0 {
            [up.x / across, up.z / across]
        } else {
            [1.0, 0.0]
        };
        let (low, high) = self.extent(dir);
        let (bottom, top) = (across * low, across * high);
        // Levels, across the section, at the near end and at the far end.
        let (near, far) = (level, level - lean * width);
        if near <= bottom {
            return (0.0, 0.0);
        }
        // At the brim itself the cut is what lies just below it.
        let slack = 8.0 * f64::EPSILON * libm::fmax(libm::fabs(top), libm::fabs(level));
        if far > top + slack {
            return (self.area() * width, 0.0);
        }
        // From y = 0 the section is full for a length, then cut for a length, then empty.
        let (full, from) = if near > top {
            ((near - top) / lean, high)
        } else {
            (0.0, libm::fmin(near / across, high))
        };
        let emptied = far <= bottom + slack;
        let (drop, stretch) = if near > top || emptied {
            let to = if emptied { low } else { far / across };
            let drop = libm::fmax(from - to, 0.0);
            (drop, drop / lean)
        } else {
            (lean * width / across, width / across)
        };
        let mean = self.mean(dir, from, drop);
        let volume = self.area() * full + mean.area * (across * stretch);
        (volume, mean.chord * stretch)
    }
}
