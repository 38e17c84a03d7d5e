//! The thermal network against a fine grid of its own: how warm the metal is where each stitch starts.

mod fine;
mod held;

use fine::{Fine, Metal, Run};
use seamwright_core::body::{Body, Edge, SheetPlan};
use seamwright_core::heat::Melting;
use seamwright_core::heat::shell::{Fineness, Material, Mesh, Shell, ShellInput};
use seamwright_core::input::Block;
use seamwright_core::input::Face;
use seamwright_core::input::Shape;
use seamwright_core::input::Sized;
use seamwright_core::tables::Family;
use seamwright_core::units::Length;
use seamwright_tests::amounts::mm;

const SIZE: [f64; 3] = [0.32, 0.18, 0.16];
const THICKNESS: f64 = 0.002;
const AMBIENT: f64 = 293.15;

/// 5052 and 304, nominal.
const ALUMINIUM: Metal = Metal {
    conductivity: 138.0,
    capacity: 2_680.0 * 880.0,
    emissivity: 0.1,
    melting: Melting::of(Family::Aluminium, 922.15, 880.0),
};
const STAINLESS: Metal = Metal {
    conductivity: 15.0,
    capacity: 7_900.0 * 500.0,
    emissivity: 0.3,
    melting: Melting::of(Family::Stainless, 1_723.15, 500.0),
};

fn tank() -> (Body, SheetPlan) {
    made(SIZE, THICKNESS)
}

fn made(size: [f64; 3], thickness: f64) -> (Body, SheetPlan) {
    let [length, width, height] = size.map(Length::from_metres);
    let sheet = SheetPlan::uniform(Length::from_metres(thickness));
    let shape = Shape::Block(Block {
        sized: Sized::Outside,
        length,
        width,
        height,
        cuts: [].into(),
    });
    (shape.body(&sheet).unwrap(), sheet)
}

/// A stitch: the edge of two faces, from and to along it in mm, and the wait before it in s.
type Stitch = ([Face; 2], f64, f64, f64);

/// Edges in the order in which they are welded alternate round the tank.
const OPPOSED: [[Face; 2]; 12] = [
    [Face::Bottom, Face::Front],
    [Face::Top, Face::Back],
    [Face::Bottom, Face::Back],
    [Face::Top, Face::Front],
    [Face::Left, Face::Bottom],
    [Face::Right, Face::Top],
    [Face::Right, Face::Bottom],
    [Face::Left, Face::Top],
    [Face::Left, Face::Front],
    [Face::Right, Face::Back],
    [Face::Right, Face::Front],
    [Face::Left, Face::Back],
];

fn edge_of(body: &Body, faces: [Face; 2]) -> Edge {
    let [a, b] = faces;
    let solid = &body.outside;
    solid
        .edge_between([a, b])
        .or_else(|| solid.edge_between([b, a]))
        .unwrap()
}

/// Each edge in stitches of about `reach` mm; every second round backwards.
fn alternating(body: &Body, reach: f64, wait: f64, most: usize) -> Vec<Stitch> {
    let mut all = Vec::new();
    for round in 0..8 {
        for faces in OPPOSED {
            let length = edge_of(body, faces).length().si() * 1e3;
            let count = (length / reach).ceil();
            // First, last, second …
            let place = if round % 2 == 0 {
                round / 2
            } else {
                count as i32 - 1 - round / 2
            };
            if round >= count as i32 {
                continue;
            }
            let from = length / count * f64::from(place);
            let to = from + length / count;
            all.push(if round % 2 == 0 {
                (faces, from, to, wait)
            } else {
                (faces, to, from, wait)
            });
        }
    }
    all.truncate(most);
    all
}

struct Case {
    size: [f64; 3],
    thickness: f64,
    metal: Metal,
    power: f64,
    speed: f64,
    stitches: Vec<Stitch>,
}

struct Found {
    network: Vec<f64>,
    runs: Vec<Run>,
    cells: usize,
    links: usize,
    step: f64,
}

/// Runs a case through the network. Waits last a whole number of its steps.
fn through<const C: usize, const L: usize>(
    case: &Case,
    rim: f64,
    body: &(Body, SheetPlan),
) -> Found {
    let mut shell = Box::new(Shell::<C, L>::new());
    let mut mesh = Mesh::default();
    let ware = ShellInput {
        body: &body.0,
        sheet: &body.1,
        baffles: &[],
        joined: &[],
        material: Material {
            conductivity: case.metal.conductivity,
            capacity: case.metal.capacity,
            emissivity: case.metal.emissivity,
            melting: case.metal.melting,
        },
        ambient: AMBIENT,
    };
    mesh.build(&ware, &Fineness::with_rim(rim), &mut shell)
        .unwrap();
    let step = shell.step_length();
    let mut time = 0_u32;
    let (mut network, mut runs) = (Vec::new(), Vec::<Run>::new());
    for (faces, from, to, wait) in &case.stitches {
        let edge = edge_of(&body.0, *faces);
        if !runs.is_empty() {
            for _ in 0..(wait / step).round() as u32 {
                shell.pass(None);
                time += 1;
            }
        }
        let place = |mm_along: f64| {
            let at = edge.at(mm(mm_along));
            [at.x, at.y, at.z]
        };
        let lasts = (to - from).abs() * 1e-3 / case.speed;
        let start = f64::from(time) * step;
        let spot = |share: f64| {
            let at = 1e-3 * (from + share * (to - from));
            mesh.spot(&edge, at, &shell).unwrap()
        };
        network.push(shell.warmth_at(spot(0.0)));
        let count = (lasts / step).ceil() as u32;
        let spots: Vec<_> = (0..count)
            .map(|n| {
                let begin = f64::from(n) * step;
                let burns = (lasts - begin).min(step);
                (spot((begin + 0.5 * burns) / lasts), case.power * burns)
            })
            .collect();
        for (spot, heat) in spots {
            shell.pass(Some((spot, heat)));
            time += 1;
        }
        runs.push(Run {
            start,
            lasts,
            power: case.power,
            from: place(*from),
            to: place(*to),
        });
    }
    Found {
        network,
        runs,
        cells: shell.cells(),
        links: shell.links(),
        step,
    }
}

fn reference(case: &Case, runs: &[Run], cell: f64) -> Vec<f64> {
    let fine = Fine {
        size: case.size,
        thickness: case.thickness,
        metal: case.metal,
        cell,
        ambient: AMBIENT,
    };
    let (found, [heat, kept, lost]) = fine.starts(runs);
    assert!(((kept + lost) / heat - 1.0).abs() < 1e-9);
    found
}

/// Largest and mean share by which the network is off where the metal is warmer than 5 K.
fn compare(what: &str, found: &Found, wanted: &[f64]) -> (f64, f64) {
    let (mut worst, mut sum, mut count) = (0.0_f64, 0.0, 0.0);
    for (n, (got, wanted)) in found.network.iter().zip(wanted).enumerate() {
        let off = got / wanted - 1.0;
        if std::env::var_os("SHOW").is_some() {
            println!(
                "{n:3} {:7.1} s {:?} {got:8.2} {wanted:8.2} {:6.1} %",
                found.runs[n].start,
                found.runs[n].from,
                100.0 * off
            );
        }
        if *wanted > 5.0 {
            worst = worst.max(off.abs());
            sum += off.abs();
            count += 1.0;
        }
    }
    println!(
        "{what}: {} cells, {} links, step {:.2} s: worst {:.1} %, mean {:.1} % of {count}",
        found.cells,
        found.links,
        found.step,
        100.0 * worst,
        100.0 * sum / count
    );
    assert!(count >= 9.0);
    (worst, sum / count)
}

fn aluminium() -> Case {
    let body = tank();
    Case {
        size: SIZE,
        thickness: THICKNESS,
        metal: ALUMINIUM,
        power: 700.0,
        speed: 3.3e-3,
        stitches: alternating(&body.0, 80.0, 60.0, 30),
    }
}

fn stainless() -> Case {
    let body = tank();
    let mut stitches = alternating(&body.0, 50.0, 90.0, 24);
    for (n, stitch) in stitches.iter_mut().enumerate() {
        stitch.3 = [60.0, 90.0, 120.0][n % 3];
    }
    // Neighbours soon after each other: along a seam, back to the end of the last, and round a corner.
    let seam = [Face::Top, Face::Front];
    let [left, right] = [[Face::Left, Face::Top], [Face::Right, Face::Front]];
    stitches.extend([
        (seam, 100.0, 150.0, 60.0),
        (seam, 150.0, 200.0, 60.0),
        (seam, 250.0, 200.0, 60.0),
        (left, 60.0, 20.0, 60.0),
        (left, 60.0, 110.0, 60.0),
        (right, 160.0, 110.0, 60.0),
        (right, 60.0, 110.0, 60.0),
        (right, 60.0, 10.0, 60.0),
        ([Face::Right, Face::Bottom], 0.0, 50.0, 60.0),
        ([Face::Bottom, Face::Front], 320.0, 270.0, 60.0),
    ]);
    Case {
        size: SIZE,
        thickness: THICKNESS,
        metal: STAINLESS,
        power: 500.0,
        speed: 4.2e-3,
        stitches,
    }
}

/// Halving the cells of the reference moves it by less than a fifth of what the network may be off. What is left
/// in stainless steel is mostly the radiation of the metal under the arc, which has no end as cells shrink.
#[test]
fn the_reference_converges() {
    let body = tank();
    for (case, cells) in [(aluminium(), [0.01, 0.005]), (stainless(), [0.005, 0.0025])] {
        let found = through::<224, 520>(&case, 0.005, &body);
        let [coarse, fine] = cells.map(|cell| reference(&case, &found.runs, cell));
        let mut worst = 0.0_f64;
        for (a, b) in coarse.iter().zip(&fine).filter(|(_, b)| **b > 5.0) {
            worst = worst.max((a / b - 1.0).abs());
        }
        println!("reference {cells:?}: {:.2} %", 100.0 * worst);
        assert!(worst < 0.02, "{cells:?}: {worst}");
    }
}

fn within<const C: usize, const L: usize>(what: &str, case: &Case, rim: f64, cell: f64) {
    let body = tank();
    let found = through::<C, L>(case, rim, &body);
    let wanted = reference(case, &found.runs, cell);
    let (worst, _) = compare(what, &found, &wanted);
    assert!(worst < 0.1, "{what}: {worst}");
}

#[test]
fn aluminium_on_the_host() {
    within::<2_000, 6_000>("aluminium, host", &aluminium(), 0.012, 0.005);
}

#[test]
fn aluminium_on_the_device() {
    within::<224, 520>("aluminium, device", &aluminium(), 0.005, 0.005);
}

#[test]
fn stainless_on_the_host() {
    within::<2_000, 6_000>("stainless, host", &stainless(), 0.012, 0.0025);
}

#[test]
fn stainless_on_the_device() {
    within::<224, 520>("stainless, device", &stainless(), 0.005, 0.0025);
}

/// Tanks on which stitches are laid anywhere: sizes and thickness in m, and the shortest wait in s.
const ANYWHERE: [([f64; 3], f64, f64); 7] = [
    (SIZE, 0.002, 60.0),
    (SIZE, 0.002, 60.0),
    (SIZE, 0.002, 10.0),
    (SIZE, 0.001, 60.0),
    (SIZE, 0.004, 60.0),
    ([0.4, 0.12, 0.1], 0.002, 60.0),
    ([0.3, 0.3, 0.08], 0.0015, 60.0),
];

/// Stitches anywhere, one after another: seams, places, directions, lengths and waits at random. The arc goes as
/// fast on any thickness, with power by it.
fn anywhere(metal: Metal, seed: u64, (size, thickness, wait): ([f64; 3], f64, f64)) -> Case {
    let body = made(size, thickness);
    let mut rng = fastrand::Rng::with_seed(seed);
    let (reach, power, speed) = if metal.emissivity > 0.2 {
        (50.0, 500.0, 4.2e-3)
    } else {
        (80.0, 700.0, 3.3e-3)
    };
    let stitches = (0..24)
        .map(|_| {
            let faces = OPPOSED[rng.usize(..12)];
            let length = edge_of(&body.0, faces).length().si() * 1e3;
            let lasts = reach * (0.5 + 0.5 * rng.f64());
            let from = (length - lasts) * rng.f64();
            let wait = wait + (120.0 - wait) * rng.f64();
            if rng.bool() {
                (faces, from, from + lasts, wait)
            } else {
                (faces, from + lasts, from, wait)
            }
        })
        .collect();
    Case {
        size,
        thickness,
        metal,
        power: power * thickness / THICKNESS,
        speed,
        stitches,
    }
}

/// Harder than what a plan does: beads across a corner from each other, many of them within minutes, and places
/// two cells from a hot end. Of 2 000 starts tried on stainless steel with a minute or more between stitches none was
/// off by more than 10 % on the mesh of a gauge, nor any of 1 100 on the finer one; of 540 with half the waits
/// 10 s, one was, by 12 %. On aluminium none of 5 000 was, by more than 8.1 %.
#[test]
fn stitches_anywhere() {
    for (tank, seed) in ANYWHERE.into_iter().zip(0..) {
        let body = made(tank.0, tank.1);
        for (metal, cell) in [(ALUMINIUM, 0.005), (STAINLESS, 0.0025)] {
            let case = anywhere(metal, seed, tank);
            let host = through::<2_000, 6_000>(&case, 0.012, &body);
            let device = through::<224, 520>(&case, 0.005, &body);
            for (what, found) in [("host", host), ("device", device)] {
                let wanted = reference(&case, &found.runs, cell);
                let (worst, mean) = compare(what, &found, &wanted);
                assert!(
                    worst < 0.1 && mean < 0.03,
                    "{what} {tank:?} {seed}: {worst} {mean}"
                );
            }
        }
    }
}

/// Settings that melt a band of twenty thicknesses of the sheet, and half of them. A fifth of the heat leaves as glow
/// within seconds; what stays is what cells and beads must agree with the fine grid about, which converges here, for metal
/// is no hotter than it boils: halving its cells once more moves it by 0.2 %.
#[test]
fn settings_far_too_hot() {
    let size = [0.202, 0.102, 0.102];
    let body = made(size, 0.001);
    for (speed, most) in [(2.17e-3, [0.1, 0.12]), (4.17e-3, [0.1, 0.1])] {
        let mut stitches = alternating(&body.0, 50.0, 40.0, 16);
        for (n, stitch) in stitches.iter_mut().enumerate() {
            stitch.3 = [30.0, 60.0, 120.0][n % 3];
        }
        let case = Case {
            size,
            thickness: 0.001,
            metal: STAINLESS,
            power: 498.0,
            speed,
            stitches,
        };
        let device = through::<224, 520>(&case, 0.005, &body);
        let host = through::<2_000, 6_000>(&case, 0.006, &body);
        for (found, most) in [device, host].iter().zip(most) {
            let wanted = reference(&case, &found.runs, 0.002);
            let (worst, _) = compare("too hot", found, &wanted);
            assert!(worst < most, "{speed}: {worst}");
        }
    }
}
