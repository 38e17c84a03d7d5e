//! Whether a point lies within a section, and how far from its rim.

use super::super::dot;
use super::Section;

/// Whether a level line from a point to the right meets a straight run, told by the way from the run's start
/// to the point.
pub(crate) fn crosses(from: [f64; 2], run: [f64; 2]) -> bool {
    let under = from[1] < 0.0;
    under != (from[1] < run[1]) && run[1] != 0.0 && from[0] < run[0] * (from[1] / run[1])
}

/// How far a point lies from a straight run, told by the way from the run's start to the point.
pub(crate) fn off(from: [f64; 2], run: [f64; 2]) -> f64 {
    let square = dot(run, run);
    let share = if square > 0.0 {
        libm::fmin(libm::fmax(dot(from, run) / square, 0.0), 1.0)
    } else {
        0.0
    };
    libm::hypot(from[0] - run[0] * share, from[1] - run[1] * share)
}

impl Section {
    /// How far a point lies inside its rim, its corners rounded as they are; below zero outside.
    #[must_use]
    pub fn inside(&self, point: [f64; 2]) -> f64 {
        let (mut odd, mut least) = (false, f64::INFINITY);
        let mut beyond = false;
        for place in 0..self.len() {
            let (a, b) = (self.at(place), self.at(place + 1));
            odd ^= crosses(
                [point[0] - a[0], point[1] - a[1]],
                [b[0] - a[0], b[1] - a[1]],
            );
            let [start, end] = self.straight(place);
            let run = [end[0] - start[0], end[1] - start[1]];
            least = libm::fmin(least, off([point[0] - start[0], point[1] - start[1]], run));
            let Some(arc) = self.arc(place) else { continue };
            let from = [point[0] - arc.centre[0], point[1] - arc.centre[1]];
            let out = libm::hypot(from[0], from[1]);
            // Seen from its centre a point is before the arc where it lies ahead of both of its ends.
            let half = 0.5 * arc.sweep;
            let middle = arc.at(half);
            let axis = [middle[0] - arc.centre[0], middle[1] - arc.centre[1]];
            let before = dot(from, axis) >= libm::cos(half) * arc.radius * out;
            if before {
                least = libm::fmin(least, libm::fabs(out - arc.radius));
            }
            // What the arc rounds: past it, and within the triangle of its two tangents.
            let corner = [a[0] - arc.centre[0], a[1] - arc.centre[1]];
            let short = arc.ends().iter().all(|end| {
                let end = [end[0] - arc.centre[0], end[1] - arc.centre[1]];
                dot(from, end) <= arc.radius * arc.radius
            });
            if before && short && out > arc.radius && dot(from, corner) > 0.0 {
                beyond = true;
            }
        }
        if odd != beyond { least } else { -least }
    }

    /// Whether a point lies within it, its corners rounded as they are.
    #[must_use]
    pub fn holds(&self, point: [f64; 2]) -> bool {
        self.inside(point) >= 0.0
    }
}
