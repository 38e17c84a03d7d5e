//! Walls that stretch as they bulge, each as one of a whole welded tank, against finite elements that stretch too
//! (`tests/src/plate_shell/large.rs`; the table and how it was made: `tests/data/strength/large.txt`).

use std::collections::BTreeMap;

use seamwright_core::strength::Trial;
use seamwright_core::tank::Tank;
use seamwright_core::units::Pressure;
use seamwright_tests::cases::data;
use seamwright_tests::jobs;
use seamwright_tests::plate_shell::large_table::{Stretched, read};

use seamwright_tests::Outcome;

/// What is told may be no less than this share of von Mises' stress, and no more than that.
const LEAST: f64 = 0.98;
const MOST: f64 = 1.27;

fn rows() -> Vec<Stretched> {
    read(&std::fs::read_to_string(data("strength/large.txt")).unwrap())
}

fn tank(name: &str) -> Tank {
    jobs::tank(&std::fs::read_to_string(data(&format!("strength/thin/{name}.toml"))).unwrap())
}

/// The worst part of each wall under each pressure that the tank is said to take, or a little more.
fn walls() -> BTreeMap<(String, u64, String), Stretched> {
    let mut all: BTreeMap<(String, u64, String), Stretched> = BTreeMap::new();
    for row in rows() {
        let key = (row.tank.clone(), row.pressure as u64, row.face.clone());
        match all.get(&key) {
            Some(old) if old.stress >= row.stress => {}
            _ => {
                all.insert(key, row);
            }
        }
    }
    all
}

/// The stress that rules, up to the pressure that yields the welded sheet.
#[test]
fn stretched_walls_against_finite_elements() -> Outcome {
    let (mut ratios, mut eased) = (Vec::new(), 0);
    let mut known: Option<(String, Tank)> = None;
    for ((name, pressure, face), row) in walls() {
        if known.as_ref().is_none_or(|(old, _)| *old != name) {
            known = Some((name.clone(), tank(&name)));
        }
        let tank = &known.as_ref().unwrap().1;
        let (_, takes) = tank.weakest_wall()?;
        if row.pressure > 1.25 * takes.si() {
            continue;
        }
        let joined = tank.joined_walls(Trial::Test(Pressure::from_pascals(row.pressure)))?;
        let faces = tank.body().outside.faces().map(|view| view.face());
        for place in faces {
            if place.to_string().replace(' ', "-") != face {
                continue;
            }
            let bearing = tank.bearing_by(place, &joined).unwrap()?;
            let ours = bearing.joined.unwrap();
            let ratio = 1e-6 * ours.si() / row.stress;
            let told = format!("{name} {pressure} Pa {face}: {ratio:.3}");
            assert!((LEAST..=MOST).contains(&ratio), "{told}");
            // By bending alone it would be so much.
            let gentle = tank.joined_walls(Trial::Test(Pressure::from_pascals(1.0)))?;
            let straight = tank.bearing_by(place, &gentle).unwrap()?.joined.unwrap();
            let linear = straight.si() * row.pressure;
            eased += u32::from(ours.si() < 0.85 * linear);
            ratios.push(ratio);
        }
    }
    ratios.sort_by(f64::total_cmp);
    println!(
        "{} walls, {eased} eased: {:.3}, {:.3}, {:.3}",
        ratios.len(),
        ratios[0],
        ratios[ratios.len() / 2],
        ratios[ratios.len() - 1]
    );
    assert!(
        ratios.len() >= 80 && eased >= 20,
        "{} {eased}",
        ratios.len()
    );
    Ok(())
}

/// What the inside grows by, and what each pascal more adds, lies between what is told of the compliance.
#[test]
fn tanks_grow_as_they_are_said_to() -> Outcome {
    let mut grown: BTreeMap<String, Vec<(f64, f64)>> = BTreeMap::new();
    for row in rows() {
        let all = grown
            .entry(row.tank.clone())
            .or_insert_with(|| vec![(0.0, 0.0)]);
        if all.last().unwrap().0 < row.pressure {
            all.push((row.pressure, 1e-6 * row.swept));
        }
    }
    let mut looked = 0;
    for (name, all) in grown {
        let tank = tank(&name);
        let joined = tank.joined_walls(Trial::Test(Pressure::default()))?;
        let (_, takes) = tank.weakest_wall_by(&joined)?;
        let told = joined.compliance();
        assert!(
            told.least() > 0.0 && told.most() < 6.0 * told.least(),
            "{name} {told:?}"
        );
        for pair in all.windows(2) {
            let [(low, less), (high, more)] = [pair[0], pair[1]];
            if 0.5 * (low + high) > takes.si() {
                continue;
            }
            looked += 1;
            for found in [more / high, (more - less) / (high - low)] {
                let said = format!("{name} to {high} Pa: {found:.3e} of {told:?}");
                assert!(found >= told.least() && found <= told.most(), "{said}");
            }
        }
    }
    assert!(looked >= 16, "{looked}");
    Ok(())
}
