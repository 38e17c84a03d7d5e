//! How much of a solid lies below a plane, and where the middle of that is.

use super::placed::PlacedDrum;
use super::solid::{Curve, Rounded, Solid};
use crate::geom::Vector;
use crate::geom::outline::section::Section;

/// Chords that stand for the arc of a rounded corner: they leave out 1e-4 of what it rounds.
const CHORDS: u32 = 16;

/// The sums over faces, clipped as they are walked: each makes tetrahedra with a point of the plane, so that the cut
/// itself adds nothing. Right for bodies with inside corners too.
struct Below {
    up: Vector,
    level: f64,
    apex: Vector,
    /// Six times the volume.
    six: f64,
    /// Twenty-four times its first moment about the apex.
    moment: Vector,
}

impl Below {
    fn new(up: Vector, level: f64, near: Vector) -> Self {
        Self {
            up,
            level,
            apex: near + up * (level - up.dot(near)),
            six: 0.0,
            moment: Vector::ZERO,
        }
    }

    /// Adds a face whose outline runs anticlockwise seen from outside; `sense` is −1 where it runs the other way.
    fn face(&mut self, outline: impl Iterator<Item = Vector> + Clone, sense: f64) {
        let mut first: Option<Vector> = None;
        let mut last = Vector::ZERO;
        let ahead = outline.clone().skip(1).chain(outline.clone().take(1));
        for (here, next) in outline.zip(ahead) {
            let a = self.up.dot(here) - self.level;
            let b = self.up.dot(next) - self.level;
            if a <= 0.0 {
                self.corner(&mut first, &mut last, here, sense);
            }
            if (a < 0.0 && b > 0.0) || (a > 0.0 && b < 0.0) {
                let cut = here + (next - here) * (a / (a - b));
                self.corner(&mut first, &mut last, cut, sense);
            }
        }
    }

    fn corner(&mut self, first: &mut Option<Vector>, last: &mut Vector, at: Vector, sense: f64) {
        let at = at - self.apex;
        match *first {
            None => *first = Some(at),
            Some(first) => {
                let share = sense * first.dot(last.cross(at));
                self.six += share;
                self.moment = self.moment + (first + *last + at) * share;
            }
        }
        *last = at;
    }

    /// The volume and its first moment about the origin.
    fn sums(&self) -> (f64, Vector) {
        let volume = self.six / 6.0;
        (volume, self.moment * (1.0 / 24.0) + self.apex * volume)
    }
}

/// The corners of a section, its arcs by chords, in its own order.
fn chords(section: &Section) -> impl Iterator<Item = [f64; 2]> + Clone {
    (0..section.len()).flat_map(move |place| {
        let arc = section.arc(place);
        let count = if arc.is_some() { CHORDS } else { 0 };
        (0..=count).map(move |n| match arc {
            Some(arc) => arc.at(arc.sweep * f64::from(n) / f64::from(CHORDS)),
            None => section.at(place),
        })
    })
}

impl Rounded {
    fn moment_below(&self, up: Vector, level: f64) -> (f64, Vector) {
        let (front, back) = (self.front, self.front + self.width);
        let lift = |[x, z]: [f64; 2], y: f64| Vector::new(x, y, z);
        let points = chords(&self.section);
        let mut below = Below::new(up, level, lift(self.section.at(0), front));
        below.face(points.clone().map(|at| lift(at, front)), 1.0);
        below.face(points.clone().map(|at| lift(at, back)), -1.0);
        let ahead = points.clone().skip(1).chain(points.clone().take(1));
        for (a, b) in points.zip(ahead) {
            let side = [lift(b, front), lift(a, front), lift(a, back), lift(b, back)];
            below.face(side.into_iter(), 1.0);
        }
        below.sums()
    }
}

impl PlacedDrum {
    fn moment_below(&self, up: Vector, level: f64) -> (f64, Vector) {
        let axis = self.axis.along();
        let along = up.dot(axis);
        let rest = up - axis * along;
        let across = rest.length();
        let level = level - up.dot(self.start);
        let (volume, [far, out]) = self.turned.moment_below(along, across, level);
        // Standing along its axis it has no other direction, and nothing lies to one side.
        let direction = rest.unit().unwrap_or(Vector::ZERO);
        let moment = self.start * volume + axis * far + direction * out;
        (volume, moment)
    }
}

impl Solid {
    /// The volume (m³) of the part below the plane `up · p = level`, and its first moment (m⁴) about the origin, for a
    /// unit `up` and a `level` in metres from the origin.
    ///
    /// Plane faces by the divergence theorem, exactly (Mirtich, as for [`volume`](Self::volume)); rounded corners of a
    /// profile by chords, which leave out 1e-4 of what is rounded; drums by quadrature along their axis; of a fold the
    /// part below is taken to fill its strip from the lower end.
    #[must_use]
    pub fn moment_below(&self, up: Vector, level: f64) -> (f64, Vector) {
        match &self.curve {
            Curve::None | Curve::Folded(_) => {}
            Curve::Rounded(rounded) => return rounded.moment_below(up, level),
            Curve::Turned(placed) => return placed.moment_below(up, level),
        }
        let near = self.vertices.first().copied().unwrap_or_default();
        let mut below = Below::new(up, level, near);
        for view in self.faces() {
            below.face(view.outline(), 1.0);
        }
        let (volume, moment) = below.sums();
        let (more, about) = self.folds_below(up, level);
        (volume + more, moment + about)
    }
}
