//! Random tanks at random leans against the flood of small cubes.

use std::fmt::Write as _;

use fastrand::Rng;
use seamwright_core::capacity::Lean;
use seamwright_core::input::WallSet;
use seamwright_core::tank::{Plumbing, ReachError, Tank};
use seamwright_core::units::{Angle, AngleUnit};

use super::voxels::Voxels;

/// Sheet all over, in mm.
const SHEET: f64 = 2.0;
/// Edge of a cube, in mm.
const STEP: f64 = 4.0;
const TANKS: u64 = 24;

/// A baffle: its axis, where it stands, and holes in the two other axes with their radii; mm from the inside corner.
struct Plate {
    axis: usize,
    at: f64,
    holes: Vec<([f64; 2], f64)>,
}

/// A random tank, as a job and as what is open of it.
struct Random {
    size: [f64; 3],
    /// An outline in x and z; none for a box.
    outline: Option<Vec<[f64; 2]>>,
    /// A lying drum of that diameter.
    is_drum: bool,
    plates: Vec<Plate>,
    pick_up: [f64; 3],
    filler: [f64; 3],
}

fn whole(rng: &mut Rng, low: f64, high: f64) -> f64 {
    (low + (high - low) * rng.f64()).round()
}

/// Whether a polygon holds a point: a ray from there meets it an odd number of times.
fn within(outline: &[[f64; 2]], point: [f64; 2]) -> bool {
    let mut odd = false;
    let mut last = outline[outline.len() - 1];
    for next in outline {
        if (last[1] > point[1]) != (next[1] > point[1]) {
            let share = (point[1] - last[1]) / (next[1] - last[1]);
            odd ^= point[0] < last[0] + share * (next[0] - last[0]);
        }
        last = *next;
    }
    odd
}

impl Random {
    fn new(rng: &mut Rng) -> Self {
        let mut size = [0; 3].map(|_| whole(rng, 150.0, 320.0));
        let kind = rng.u8(..3);
        let outline = (kind == 1).then(|| concave(rng, size[0], size[2]));
        if kind == 2 {
            size[1] = size[2];
        }
        let mut random = Self {
            size,
            outline,
            is_drum: kind == 2,
            plates: Vec::new(),
            pick_up: [0.0; 3],
            filler: [0.0; 3],
        };
        let axes: &[usize] = match kind {
            0 => &[0, 1],
            1 => &[1],
            _ => &[0],
        };
        for axis in axes {
            let count = rng.u8(..3);
            for n in 0..count {
                let share = f64::from(n + 1) / f64::from(count + 1);
                let at = (size[*axis] * share + whole(rng, -15.0, 15.0)).round();
                random.plate(rng, *axis, at);
            }
        }
        random.pick_up = random.somewhere(rng, |z| z < 0.4);
        random.filler = random.somewhere(rng, |z| z > 0.6);
        random
    }

    /// A plate with one to three holes that lie wholly within it.
    fn plate(&mut self, rng: &mut Rng, axis: usize, at: f64) {
        let others = match axis {
            0 => [1, 2],
            _ => [0, 2],
        };
        let mut holes: Vec<([f64; 2], f64)> = Vec::new();
        let wanted = rng.usize(1..4);
        for _ in 0..200 {
            let radius = whole(rng, 12.0, 22.0);
            let centre = others.map(|other| whole(rng, radius, self.size[other] - radius));
            let mut point = [at; 3];
            let rim = (0..48).all(|n| {
                let (sine, cosine) = (f64::from(n) * std::f64::consts::TAU / 48.0).sin_cos();
                point[others[0]] = centre[0] + (radius + 1.0) * cosine;
                point[others[1]] = centre[1] + (radius + 1.0) * sine;
                self.is_within(point)
            });
            let apart = holes.iter().all(|(other, own)| {
                (other[0] - centre[0]).hypot(other[1] - centre[1]) > own + radius + 2.0
            });
            if rim && apart {
                holes.push((centre, radius));
            }
            if holes.len() == wanted {
                break;
            }
        }
        if !holes.is_empty() {
            self.plates.push(Plate { axis, at, holes });
        }
    }

    /// Within the walls, mm from the inside corner.
    fn is_within(&self, [x, y, z]: [f64; 3]) -> bool {
        let boxed = [x, y, z]
            .iter()
            .zip(self.size)
            .all(|(at, size)| *at > 0.0 && *at < size);
        let rounded =
            || (y - 0.5 * self.size[1]).hypot(z - 0.5 * self.size[2]) < 0.5 * self.size[1];
        boxed
            && self
                .outline
                .as_ref()
                .is_none_or(|outline| within(outline, [x, z]))
            && (!self.is_drum || rounded())
    }

    /// Within, and not in a plate's metal.
    fn is_open(&self, point: [f64; 3]) -> bool {
        let in_metal = |plate: &Plate| {
            let others = match plate.axis {
                0 => [1, 2],
                _ => [0, 2],
            };
            // A plate may fall between two layers of cubes: it is taken as thick as one.
            (point[plate.axis] - plate.at).abs() <= 0.5 * STEP
                && !plate.holes.iter().any(|(centre, radius)| {
                    let off = others.map(|other| point[other]);
                    (off[0] - centre[0]).hypot(off[1] - centre[1]) <= *radius
                })
        };
        self.is_within(point) && !self.plates.iter().any(in_metal)
    }

    /// A point that is open, and stays open a little around it.
    fn somewhere(&self, rng: &mut Rng, which: impl Fn(f64) -> bool) -> [f64; 3] {
        loop {
            let point = self.size.map(|size| whole(rng, 5.0, size - 5.0));
            let clear = (0..27).all(|n| {
                let step = [n % 3, n / 3 % 3, n / 9].map(|s| 2.0 * STEP * (f64::from(s) - 1.0));
                let near = [0, 1, 2].map(|axis| point[axis] + step[axis]);
                self.is_open(near)
            });
            if clear && which(point[2] / self.size[2]) {
                return point;
            }
        }
    }

    fn job(&self) -> String {
        let [x, y, z] = self.size;
        let mut job = "name = \"Random\"\n[shape]\nsized = \"inside\"\n".to_owned();
        let _ = match &self.outline {
            Some(outline) => {
                let points: Vec<String> = outline
                    .iter()
                    .map(|[x, z]| format!("[\"{x} mm\", \"{z} mm\"]"))
                    .collect();
                let points = points.join(", ");
                write!(
                    job,
                    "kind = \"profile\"\nwidth = \"{y} mm\"\noutline = [{points}]\n"
                )
            }
            None if self.is_drum => write!(
                job,
                "kind = \"drum\"\naxis = \"lying\"\ndiameter = \"{y} mm\"\nlength = \"{x} mm\"\n"
            ),
            None => write!(
                job,
                "kind = \"block\"\nlength = \"{x} mm\"\nwidth = \"{y} mm\"\nheight = \"{z} mm\"\n"
            ),
        };
        let _ = write!(
            job,
            "[stock]\nalloy = \"5754\"\nthickness = \"{SHEET} mm\"\n"
        );
        for Plate { axis, at, holes } in &self.plates {
            let across = ["length", "width"][*axis];
            let at = at + SHEET;
            let _ = write!(job, "[[baffle]]\nacross = \"{across}\"\nat = \"{at} mm\"\n");
            for ([a, b], radius) in holes {
                let _ = write!(
                    job,
                    "[[baffle.hole]]\nat = [\"{} mm\", \"{} mm\"]\ndiameter = \"{} mm\"\n",
                    a + SHEET,
                    b + SHEET,
                    2.0 * radius
                );
            }
        }
        let [px, py, pz] = self.pick_up;
        let _ = write!(
            job,
            "[fill]\nheadspace = \"0 %\"\npick_up = \"{pz} mm\"\npick_up_at = [\"{} mm\", \"{} mm\"]\n",
            px + SHEET,
            py + SHEET
        );
        job
    }
}

/// A saddle, a step, a tee, a trough with a ridge, or a notched box.
fn concave(rng: &mut Rng, x: f64, z: f64) -> Vec<[f64; 2]> {
    let mut at = |size: f64, low: f64, high: f64| (size * (low + (high - low) * rng.f64())).round();
    let (a, b) = (at(x, 0.25, 0.4), at(x, 0.6, 0.75));
    let (c, d) = (at(z, 0.3, 0.45), at(z, 0.5, 0.7));
    match rng.u8(..5) {
        0 => vec![
            [0.0, 0.0],
            [a, 0.0],
            [a, c],
            [b, c],
            [b, 0.0],
            [x, 0.0],
            [x, z],
            [0.0, z],
        ],
        1 => vec![[0.0, 0.0], [a, 0.0], [a, c], [x, c], [x, z], [0.0, z]],
        2 => vec![
            [0.0, 0.0],
            [x, 0.0],
            [x, c],
            [b, c],
            [b, z],
            [a, z],
            [a, d],
            [0.0, d],
        ],
        3 => vec![[0.0, 0.0], [a, c], [x, 0.0], [x, z], [0.0, z]],
        _ => vec![
            [0.0, 0.0],
            [x, 0.0],
            [x, z],
            [b, z],
            [b, d],
            [a, d],
            [a, z],
            [0.0, z],
        ],
    }
}

/// What stays at a lean, within what a cube's height of the whole surface makes of it; the same with up and down
/// exchanged, which is air's way.
#[test]
fn random_tanks_keep_what_the_flood_keeps() {
    let (mut off, mut pooled, mut shut) = (0.0, 0, 0);
    for seed in 0..TANKS {
        let mut rng = Rng::with_seed(20_261_130 + seed);
        let random = Random::new(&mut rng);
        let job = random.job();
        let mut draft = seamwright_tests::jobs::read(&job).draft;
        // The flood knows of no loose edge, whose play lets air by.
        for baffle in &mut draft.baffles {
            baffle.free = WallSet::NONE;
        }
        let tank = Tank::build(&draft).unwrap();
        let cubes = Voxels::of(random.size, STEP, |point| random.is_open(point));
        let is_one = cubes.is_one_space(random.pick_up);
        let reach = match tank.reach(&Plumbing::default()) {
            Ok(reach) => {
                assert!(is_one, "{seed}: a part that is shut in is let pass\n{job}");
                reach
            }
            Err(ReachError::ShutIn { .. }) => {
                assert!(!is_one, "{seed}: no part is shut in\n{job}");
                shut += 1;
                continue;
            }
            Err(error) => panic!("{seed}: {error}\n{job}"),
        };
        let volume: f64 = (0..reach.compartments().count())
            .filter_map(|room| reach.compartments().compartment(room))
            .map(|room| room.volume.si() * 1e9)
            .sum();
        // A cube more or less across each axis, and plates as thick as one cube more.
        let across: f64 = random.size.iter().map(|size| STEP / size).sum();
        let within = across * volume + random.plates.len() as f64 * 4.0 * STEP * 1e4;
        assert!(
            (volume - cubes.volume()).abs() < within,
            "{seed}: {volume}\n{job}"
        );
        for n in 0..4 {
            let lean = if n == 0 {
                Lean::LEVEL
            } else {
                let angle = |rng: &mut Rng| Angle::new(60.0 * rng.f64() - 30.0, AngleUnit::Degree);
                Lean::new(angle(&mut rng), angle(&mut rng)).unwrap()
            };
            let up = lean.up();
            let up = [up.x, up.y, up.z];
            let along = |p: [f64; 3]| p.iter().zip(up).map(|(a, b)| a * b).sum::<f64>();
            let mut own = 0.0;
            reach.each_kept_leaning(lean, |one| own += one.volume.si() * 1e9);
            let other = cubes.kept(up, random.pick_up, along(random.pick_up));
            // A level may be off by a cube either way, over all of the plan.
            let plan = random.size[0] * random.size[1] / up[2];
            // And a plate is up to a cube thicker than its two millimetres, half of it on each side.
            let wall = random.size[2] * random.size[0].max(random.size[1]);
            let plates = 0.5 * STEP * wall * random.plates.len() as f64;
            assert!(
                (own - other).abs() < 1.2 * STEP * plan + plates,
                "{seed} {n}: {} L, by cubes {} L, lean {:?}\n{job}",
                own / 1e6,
                other / 1e6,
                lean
            );
            off += (own - other) / plan / STEP;
            let below = tank
                .pool(lean)
                .at(tank.pool(lean).depth_of(tank.pick_up_point()));
            let below = below.map_or(0.0, |level| level.volume.si() * 1e9);
            pooled += usize::from(own > below + 0.01 * volume);
        }
    }
    assert!(
        (1..TANKS / 3).contains(&shut),
        "{shut} of {TANKS} had a part shut in"
    );
    let mean = off / (4 * (TANKS - shut)) as f64;
    assert!(mean.abs() < 0.5, "off by {mean} cubes on average");
    assert!(pooled > 20, "only {pooled} had a pool of their own");
}
