//! Walls that bear together, against finite elements of the whole tank (tests/data/strength/fine.txt): 25 tanks, each
//! under an even pressure and full of water.

use seamwright_core::strength::{Trial, WallForm};
use seamwright_core::tank::Tank;
use seamwright_core::units::Pressure;
use seamwright_tests::plate_shell::table::read;
use seamwright_tests::{Outcome, jobs};

const FINE: &str = include_str!("../../data/strength/fine.txt");
const TANKS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/data/strength/tanks");
/// Past this the two meshes of the finite elements do not agree: the head of the file says where.
const UNSURE: f64 = 6.0;
/// Least and most of ours over von Mises' stress by finite elements.
const LEAST: f64 = 0.95;
const MOST: f64 = 1.25;

/// The highest stress of a wall in a tank under a load, in N/mm².
struct Wall {
    tank: String,
    load: String,
    face: String,
    stress: f64,
}

/// The walls of the file; of parts between baffles the higher. Where the finite elements are unsure of the highest stress
/// of a wall, it is what they have at its other edges, or inside.
fn walls() -> Vec<Wall> {
    let mut all: Vec<Wall> = Vec::new();
    for entry in read(FINE) {
        for line in &entry.walls {
            let [off, ..] = line.off;
            let edges = line.edges.iter();
            let sure = edges.filter(|edge| edge.off.abs() <= UNSURE);
            let least = if off.abs() <= UNSURE {
                line.stress
            } else {
                line.inside
            };
            let stress = sure.map(|edge| edge.stress).fold(least, f64::max);
            let same = |wall: &&mut Wall| {
                wall.tank == entry.tank && wall.load == entry.load && wall.face == line.face
            };
            match all.iter_mut().find(same) {
                Some(wall) => wall.stress = wall.stress.max(stress),
                None => all.push(Wall {
                    tank: entry.tank.clone(),
                    load: entry.load.clone(),
                    face: line.face.clone(),
                    stress,
                }),
            }
        }
    }
    all
}

fn tank(name: &str) -> Tank {
    jobs::tank(&std::fs::read_to_string(format!("{TANKS}/{name}.toml")).unwrap())
}

fn trial(load: &str) -> Trial {
    match load {
        "even" => Trial::Test(Pressure::from_pascals(1_000.0)),
        _ => Trial::Use,
    }
}

/// Ours over the finite elements', of every flat wall, and whether ours is told as a most.
fn ratios() -> Outcome<Vec<(Wall, f64, bool)>> {
    let mut all = Vec::new();
    let mut known: Option<(String, Tank)> = None;
    for wall in walls() {
        if known.as_ref().is_none_or(|(name, _)| *name != wall.tank) {
            known = Some((wall.tank.clone(), tank(&wall.tank)));
        }
        let tank = &known.as_ref().unwrap().1;
        for (face, bearing) in tank.bearings(trial(&wall.load)) {
            if face.to_string().replace(' ', "-") != wall.face {
                continue;
            }
            let bearing = bearing?;
            if bearing.form == WallForm::Plate {
                let ours = 1e-6 * bearing.joined.unwrap().si();
                all.push((wall, ours, bearing.at_most));
                break;
            }
        }
    }
    let ratio = |(wall, ours, most): (Wall, f64, bool)| {
        let ratio = ours / wall.stress;
        (wall, ratio, most)
    };
    Ok(all.into_iter().map(ratio).collect())
}

/// Where all walls are rectangles each is within 0.95 and 1.25; elsewhere it is told as a most, and is never less.
#[test]
fn flat_walls_against_finite_elements() -> Outcome {
    let (mut boxes, mut others) = (Vec::new(), Vec::new());
    for (wall, ratio, most) in ratios()? {
        let told = format!("{} {} {}: {ratio:.3}", wall.tank, wall.load, wall.face);
        assert!(ratio >= LEAST, "{told}");
        assert!(most || ratio <= MOST, "{told}");
        if most { &mut others } else { &mut boxes }.push(ratio);
    }
    // Every wall of every file was looked at.
    assert!(
        boxes.len() >= 190 && others.len() >= 100,
        "{} {}",
        boxes.len(),
        others.len()
    );
    for all in [&mut boxes, &mut others] {
        all.sort_by(f64::total_cmp);
        println!(
            "{} walls: {:.3}, {:.3}, {:.3}",
            all.len(),
            all[0],
            all[all.len() / 2],
            all[all.len() - 1]
        );
    }
    Ok(())
}

/// A wall by itself is often wrong: that its edges are held, or turn freely, says less than its neighbours.
#[test]
fn single_walls_would_not_do() -> Outcome {
    let mut below = 0;
    for wall in walls() {
        let tank = tank(&wall.tank);
        for (face, bearing) in tank.bearings(trial(&wall.load)) {
            let bearing = bearing?;
            let same = face.to_string().replace(' ', "-") == wall.face;
            let [_, alone] = bearing.stress_range();
            if same && bearing.form == WallForm::Plate && 1e-6 * alone.si() < LEAST * wall.stress {
                below += 1;
            }
        }
    }
    assert!(below > 50, "{below}");
    Ok(())
}
