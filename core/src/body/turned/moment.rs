//! Where the middle of the part below a plane lies, of a body that turns about an axis.

use core::f64::consts::PI;

use heapless::Vec;

use super::{Head, MOST_CUTS, Turned, gauss, segment};
use crate::geom::sort;

/// Volume and first moments below a plane.
#[derive(Clone, Copy, Debug, Default)]
struct Sums {
    volume: f64,
    /// Along the axis, from where the stretch is measured.
    along: f64,
    /// Square to the axis, the way in which the plane's normal leans.
    across: f64,
}

/// A stretch of the axis between two places, of the radius that `radius` says: the plane stands `from + slope · at` over
/// the axis at a place.
fn stretch(
    sums: &mut Sums,
    [low, high]: [f64; 2],
    [from, slope]: [f64; 2],
    radius: impl Fn(f64) -> f64,
) {
    gauss::each(low, high, |at, weight| {
        let r = radius(at);
        if !(r > 0.0) {
            return;
        }
        let u = (from + slope * at) / r;
        let area = weight * r * r * segment(u);
        sums.volume += area;
        sums.along += area * at;
        // The first moment of a circular segment about the centre: −2/3 (1 − u²)^(3/2) in radii cubed.
        if u > -1.0 && u < 1.0 {
            let square = 1.0 - u * u;
            sums.across -= weight * r * r * r * square * libm::sqrt(square) * 2.0 / 3.0;
        }
    });
}

impl Turned {
    /// The volume (m³) below a plane, and its first moments (m⁴) along the axis and across it; the plane as in
    /// [`below`](Self::below).
    ///
    /// Each disc is a circular segment; along the axis they are summed by 24-point Gauss-Legendre over each stretch
    /// between the places where the plane meets the profile.
    #[must_use]
    pub fn moment_below(&self, along: f64, across: f64, level: f64) -> (f64, [f64; 2]) {
        let wall = self.wall_moment(along, across, level);
        let (mut volume, mut far, mut out) = (wall.volume, wall.along, wall.across);
        for (place, head) in self.heads.into_iter().enumerate() {
            // Seen from its own plane, outward.
            let (sense, begin) = if place == 0 {
                (-1.0, 0.0)
            } else {
                (1.0, self.length)
            };
            let sums = self.head_moment(head, sense * along, across, level - along * begin);
            volume += sums.volume;
            far += begin * sums.volume + sense * sums.along;
            out += sums.across;
        }
        (volume, [far, out])
    }

    fn wall_moment(&self, along: f64, across: f64, level: f64) -> Sums {
        let (radius, length) = (self.radius, self.length);
        let mut sums = Sums::default();
        // Standing upright the plane cuts a whole disc.
        if across * radius <= 1e-12 * libm::fabs(along) * length {
            let place = libm::fmin(libm::fmax(level / along, 0.0), length);
            let (low, high) = if along > 0.0 {
                (0.0, place)
            } else {
                (place, length)
            };
            sums.volume = PI * radius * radius * (high - low);
            sums.along = 0.5 * sums.volume * (high + low);
            return sums;
        }
        let line = [level / across, -along / across];
        let mut cuts: Vec<f64, 4> = Vec::new();
        let _ = cuts.push(0.0);
        for edge in [radius, -radius] {
            // Infinite, and no cut, where the plane runs along the axis.
            let at = (edge - line[0]) / line[1];
            if at > 0.0 && at < length {
                let _ = cuts.push(at);
            }
        }
        let _ = cuts.push(length);
        sort::insertion(&mut cuts, |a, b| a < b);
        for (from, to) in cuts.iter().zip(cuts.iter().skip(1)) {
            stretch(&mut sums, [*from, *to], line, |_| radius);
        }
        sums
    }

    fn head_moment(&self, head: Head, out: f64, across: f64, level: f64) -> Sums {
        let radius = self.radius;
        let depth = head.depth(radius);
        let mut sums = Sums::default();
        if depth <= 0.0 {
            return sums;
        }
        if across * radius <= 1e-12 * libm::fabs(out) * depth {
            let place = libm::fmin(libm::fmax(level / out, 0.0), depth);
            let (within, whole) = (head.within(radius, place), head.within(radius, depth));
            (sums.volume, sums.along) = if out > 0.0 {
                within
            } else {
                (whole.0 - within.0, whole.1 - within.1)
            };
            return sums;
        }
        let line = [level / across, -out / across];
        let mut cuts: Vec<f64, MOST_CUTS> = Vec::new();
        let _ = cuts.push(0.0);
        head.meets(radius, line[0], line[1], |at| {
            if at > 0.0 && at < depth {
                let _ = cuts.push(at);
            }
        });
        let _ = cuts.push(depth);
        sort::insertion(&mut cuts, |a, b| a < b);
        let tori = head.tori(radius);
        for (from, to) in cuts.iter().zip(cuts.iter().skip(1)) {
            let middle = 0.5 * (from + to);
            if line[0] + line[1] * middle <= -head.radius_at(radius, middle) {
                continue;
            }
            stretch(&mut sums, [*from, *to], line, |at| match &tori {
                Some(tori) => tori.radius_at(at),
                None => head.radius_at(radius, at),
            });
        }
        sums
    }
}
