//! Where the middle of a liquid lies that fills a body up to a level.

use crate::body::Solid;
use crate::geom::Vector;
use crate::geom::outline::section::Section;

/// Chords that stand for the arc of a rounded corner: they leave out 1e-4 of what it rounds.
const CHORDS: u32 = 16;
/// Layers, an even number, over which the liquid in a drum is summed by Simpson's rule.
const LAYERS: u32 = 128;

/// What a polygon below a line comes to: each piece is counted about a point of the line itself, so that
/// what the line closes adds nothing.
struct Below {
    level: f64,
    about: f64,
    area: f64,
    moment: [f64; 2],
    last: Option<[f64; 2]>,
}

impl Below {
    /// Takes the next corner of the outline.
    fn walk(&mut self, next: [f64; 2]) {
        if let Some(last) = self.last {
            self.side(last, next);
        }
        self.last = Some(next);
    }

    fn side(&mut self, a: [f64; 2], b: [f64; 2]) {
        let (ha, hb) = (a[1] - self.level, b[1] - self.level);
        let cut = || {
            let share = ha / (ha - hb);
            [a[0] + share * (b[0] - a[0]), self.level]
        };
        let (a, b) = match (ha > 0.0, hb > 0.0) {
            (true, true) => return,
            (true, false) => (cut(), b),
            (false, true) => (a, cut()),
            (false, false) => (a, b),
        };
        let [p, q] = [a, b].map(|point| [point[0] - self.about, point[1] - self.level]);
        let twice = p[0] * q[1] - q[0] * p[1];
        self.area += 0.5 * twice;
        for (sum, (p, q)) in self.moment.iter_mut().zip(p.into_iter().zip(q)) {
            *sum += twice * (p + q) / 6.0;
        }
    }

    fn centre(&self) -> Option<[f64; 2]> {
        let [x, z] = self.moment;
        (self.area > 0.0).then(|| [self.about + x / self.area, self.level + z / self.area])
    }
}

/// The middle of a section below a level.
fn of_section(section: &Section, level: f64) -> Option<[f64; 2]> {
    let [about, _] = section.at(0);
    let mut below = Below {
        level,
        about,
        area: 0.0,
        moment: [0.0; 2],
        last: None,
    };
    let mut first = None;
    for place in 0..section.len() {
        match section.arc(place) {
            None => below.walk(section.at(place)),
            Some(arc) => {
                for n in 0..=CHORDS {
                    below.walk(arc.at(arc.sweep * f64::from(n) / f64::from(CHORDS)));
                }
            }
        }
        if place == 0 {
            first = Some(
                section
                    .arc(0)
                    .map_or_else(|| section.at(0), |arc| arc.at(0.0)),
            );
        }
    }
    below.walk(first?);
    below.centre()
}

/// The middle of a body with plane faces below a level: its faces, clipped as they are walked, make
/// tetrahedra with a point of the level, so that the surface itself adds nothing.
fn of_planes(solid: &Solid, level: f64) -> Option<Vector> {
    let up = Vector::new(0.0, 0.0, 1.0);
    let reference = solid.vertices().first().copied()?;
    let apex = Vector::new(reference.x, reference.y, level);
    let (mut six, mut moment) = (0.0, Vector::ZERO);
    for view in solid.faces() {
        let mut first: Option<Vector> = None;
        let mut last = Vector::ZERO;
        let mut emit = |point: Vector| {
            let point = point - apex;
            match first {
                None => first = Some(point),
                Some(first) => {
                    let share = first.dot(last.cross(point));
                    six += share;
                    moment = moment + (first + last + point) * share;
                }
            }
            last = point;
        };
        let ahead = view.outline().skip(1).chain(view.outline().take(1));
        for (here, next) in view.outline().zip(ahead) {
            let (a, b) = (up.dot(here) - level, up.dot(next) - level);
            if a <= 0.0 {
                emit(here);
            }
            if (a < 0.0 && b > 0.0) || (a > 0.0 && b < 0.0) {
                emit(here + (next - here) * (a / (a - b)));
            }
        }
    }
    let (more, about) = solid.folds_below(up, level);
    six += 6.0 * more;
    moment = moment + (about - apex * more) * 24.0;
    (six > 0.0).then(|| apex + moment * (0.25 / six))
}

/// The middle of a drum's liquid: in its middle along and across, in height `h − ∫ V dz / V`.
fn of_drum(solid: &Solid, level: f64) -> Option<Vector> {
    let up = Vector::new(0.0, 0.0, 1.0);
    let (low, _) = solid.extent(up);
    let step = (level - low) / f64::from(LAYERS);
    let mut sum = 0.0;
    for n in 0..=LAYERS {
        let weight = match n {
            0 | LAYERS => 1.0,
            n if n % 2 == 1 => 4.0,
            _ => 2.0,
        };
        sum += weight * solid.below(up, low + step * f64::from(n)).0;
    }
    let (volume, _) = solid.below(up, level);
    let under = sum * step / 3.0;
    let middle = solid.centroid();
    (volume > 0.0).then(|| Vector::new(middle.x, middle.y, level - under / volume))
}

/// The middle of what lies below `level`, a height from the origin in metres, in a body that stands level;
/// `None` where nothing does.
pub(super) fn below(solid: &Solid, level: f64) -> Option<Vector> {
    // The ends of a drum are alike, so that its middle is that of all its layers.
    if solid.turned().is_some() {
        return of_drum(solid, level);
    }
    if let Some((section, front, back)) = solid.rounded() {
        let [x, z] = of_section(section, level)?;
        return Some(Vector::new(x, 0.5 * (front + back), z));
    }
    of_planes(solid, level)
}
