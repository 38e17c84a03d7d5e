//! Flat sheets at the middle of their thickness, and those of a tank.

use std::fmt;

use seamwright_core::body::FlatForm;
use seamwright_core::fitting::Baffle;
use seamwright_core::geom::{Plane, Vector};
use seamwright_core::input::{Across, Face};
use seamwright_core::tank::Tank;

/// Points nearer than this are one, in m.
const SAME: f64 = 1e-7;

/// A flat sheet, or the part of one between two baffles.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// The wall or baffle that it is of.
    pub face: Face,
    /// Which part of it, from 1: along the axis that the baffles stand across.
    pub part: u8,
    /// How thick it is, in m.
    pub thickness: f64,
    /// Which way is outward; of a baffle, the axis that it stands across.
    pub normal: Vector,
    /// Its corners, counter-clockwise seen from where the normal points, in m.
    pub outline: Vec<Vector>,
    /// What it meets along the edge from each corner to the next.
    pub beside: Vec<Face>,
    /// Middles and radii of round holes, in m.
    pub holes: Vec<(Vector, f64)>,
    /// Whether it is pressed from one side; a baffle is alike from both.
    pub pressed: bool,
}

impl Sheet {
    /// A name for messages and tables: face and part.
    #[must_use]
    pub fn name(&self) -> String {
        format!("{} {}", Named(self.face), self.part)
    }

    /// Two directions in its plane; with the normal they are right-handed.
    #[must_use]
    pub fn axes(&self) -> [Vector; 2] {
        let right = (self.outline[1] - self.outline[0])
            .unit()
            .expect("a length");
        [right, self.normal.cross(right)]
    }

    /// Parts it along a plane; what lies below the plane comes first. Both meet `baffle` along the cut, whose ends come
    /// beside them.
    fn parted(self, plane: &Plane, baffle: Face) -> (Vec<Self>, Option<[Vector; 2]>) {
        let off: Vec<f64> = self.outline.iter().map(|at| plane.distance(*at)).collect();
        if off.iter().all(|off| *off < SAME) || off.iter().all(|off| *off > -SAME) {
            return (vec![self], None);
        }
        let count = off.len();
        let mut halves = [(Vec::new(), Vec::new()), (Vec::new(), Vec::new())];
        let mut ends = Vec::new();
        for n in 0..count {
            let next = (n + 1) % count;
            let (a, b) = (self.outline[n], self.outline[next]);
            assert!(off[n].abs() > SAME, "a baffle through a corner");
            let here = usize::from(off[n] > 0.0);
            halves[here].0.push(a);
            halves[here].1.push(self.beside[n]);
            if (off[n] > 0.0) != (off[next] > 0.0) {
                let at = a + (b - a) * (off[n] / (off[n] - off[next]));
                ends.push(at);
                halves[here].0.push(at);
                halves[here].1.push(baffle);
                halves[1 - here].0.push(at);
                halves[1 - here].1.push(self.beside[n]);
            }
        }
        let [a, b] = ends[..] else {
            panic!("a wall that a baffle parts in more than two");
        };
        let parts = halves.map(|(outline, beside)| Self {
            outline,
            beside,
            ..self.clone()
        });
        (parts.to_vec(), Some([a, b]))
    }
}

/// A face as one word.
#[derive(Clone, Copy, Debug)]
pub struct Named(pub Face);

impl fmt::Display for Named {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0.to_string().replace(' ', "-"))
    }
}

/// The sheets of a tank with flat walls and sharp edges, each at the middle of its thickness.
///
/// # Panics
/// Where the tank is round or rounded, or its baffles do not fill it.
#[must_use]
pub fn sheets(tank: &Tank) -> Vec<Sheet> {
    let mut walls = walls(tank);
    let mut baffles: Vec<(usize, &Baffle)> = tank.inner().baffles().iter().enumerate().collect();
    baffles.sort_by(|a, b| a.1.at().si().total_cmp(&b.1.at().si()));
    let mut plates = Vec::new();
    for (place, baffle) in baffles {
        let face = Face::Baffle(u8::try_from(place + 1).expect("few baffles"));
        let [axis, right, ahead] = axes(baffle.across());
        let plane = Plane {
            normal: axis,
            offset: baffle.at().si(),
        };
        let mut sides = Vec::new();
        let mut parts = Vec::new();
        for wall in walls {
            let meets = wall.face;
            let (halves, cut) = wall.parted(&plane, face);
            parts.extend(halves);
            sides.extend(cut.map(|ends| (ends, meets)));
        }
        walls = parts;
        let holes = baffle.holes().iter().map(|hole| {
            let [x, y] = hole.at;
            (axis * plane.offset + right * x + ahead * y, hole.radius)
        });
        assert!(
            matches!(baffle.plate(), FlatForm::Corners(_)),
            "a rounded baffle"
        );
        let (outline, beside) = chained(sides, axis);
        plates.push(Sheet {
            face,
            part: 1,
            thickness: baffle.thickness().si(),
            normal: axis,
            outline,
            beside,
            holes: holes.collect(),
            pressed: false,
        });
    }
    // Parts of a wall follow each other in the list, the lowest along the axis first.
    let mut last = None;
    for wall in &mut walls {
        wall.part = match last {
            Some((face, part)) if face == wall.face => part + 1,
            _ => 1,
        };
        last = Some((wall.face, wall.part));
    }
    walls.extend(plates);
    walls
}

/// The axis that a baffle stands across, and the two of its plane as its holes are given in.
fn axes(across: Across) -> [Vector; 3] {
    let (x, y, z) = (
        Vector::new(1.0, 0.0, 0.0),
        Vector::new(0.0, 1.0, 0.0),
        Vector::new(0.0, 0.0, 1.0),
    );
    match across {
        Across::Length => [x, y, z],
        Across::Width => [y, x, z],
        Across::Height => [z, x, y],
    }
}

/// Puts sides in a row, counter-clockwise about an axis.
fn chained(mut sides: Vec<([Vector; 2], Face)>, axis: Vector) -> (Vec<Vector>, Vec<Face>) {
    let ([start, mut end], meets) = sides.swap_remove(0);
    let (mut outline, mut beside) = (vec![start], vec![meets]);
    while !sides.is_empty() {
        let near = |at: Vector| (at - end).length() < SAME;
        let place = sides
            .iter()
            .position(|(ends, _)| ends.iter().any(|at| near(*at)));
        let ([a, b], meets) = sides.swap_remove(place.expect("a closed outline"));
        outline.push(end);
        beside.push(meets);
        end = if near(a) { b } else { a };
    }
    let mut twice = Vector::ZERO;
    for n in 0..outline.len() {
        twice = twice + outline[n].cross(outline[(n + 1) % outline.len()]);
    }
    if twice.dot(axis) < 0.0 {
        outline.reverse();
        // The side after a corner was before it.
        beside.reverse();
        beside.rotate_left(1);
    }
    (outline, beside)
}

/// The walls: corners are where the middle planes of the walls that meet there do.
fn walls(tank: &Tank) -> Vec<Sheet> {
    let solid = &tank.body().outside;
    assert!(
        solid.turned().is_none() && solid.rounded().is_none(),
        "a round tank"
    );
    let middles: Vec<(Face, Plane, Plane)> = solid
        .faces()
        .map(|view| {
            let half = 0.5 * tank.job().thickness_of(view.face()).si();
            (view.face(), view.plane(), view.plane().moved(-half))
        })
        .collect();
    let corner = |at: Vector| {
        let on = middles.iter().filter(|(face, outer, _)| {
            let view = solid.face(*face).expect("a face");
            outer.distance(at).abs() < SAME
                && view.outline().any(|other| (other - at).length() < SAME)
        });
        meeting(&on.map(|(_, _, middle)| *middle).collect::<Vec<_>>())
    };
    let runs: Vec<(Face, Vec<Vector>)> = solid
        .faces()
        .map(|view| (view.face(), view.outline().map(corner).collect()))
        .collect();
    let beside = |face: Face, a: Vector, b: Vector| {
        let near = |p: Vector, q: Vector| (p - q).length() < SAME;
        let found = runs.iter().find(|(other, run)| {
            let next = run.iter().cycle().skip(1);
            *other != face
                && run
                    .iter()
                    .zip(next)
                    .any(|(p, q)| near(*p, b) && near(*q, a))
        });
        found.expect("a wall beside").0
    };
    runs.iter()
        .zip(solid.faces())
        .map(|((face, outline), view)| Sheet {
            face: *face,
            part: 1,
            thickness: tank.job().thickness_of(*face).si(),
            normal: view.normal(),
            outline: outline.clone(),
            beside: (0..outline.len())
                .map(|n| beside(*face, outline[n], outline[(n + 1) % outline.len()]))
                .collect(),
            holes: Vec::new(),
            pressed: true,
        })
        .collect()
}

/// Where planes meet.
fn meeting(planes: &[Plane]) -> Vector {
    let [one, two, three] = planes else {
        panic!("a corner of {} walls", planes.len());
    };
    let across = two.normal.cross(three.normal);
    let whole = one.normal.dot(across);
    let sum = across * one.offset
        + three.normal.cross(one.normal) * two.offset
        + one.normal.cross(two.normal) * three.offset;
    sum * (1.0 / whole)
}
