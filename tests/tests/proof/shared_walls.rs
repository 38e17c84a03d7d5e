//! Walls that bear together, against finite elements of the whole tank.

use seamwright_core::strength::Trial;
use seamwright_core::units::Pressure;
use seamwright_tests::jobs;

#[test]
fn trial_compare() {
    let text = std::fs::read_to_string("/tmp/fine.out").unwrap();
    let mut tank = None;
    let mut load = "";
    let mut name = "";
    let mut worst: Vec<(String, f64, f64)> = Vec::new();
    let mut all = Vec::new();
    for line in text.lines().chain(["tank end even 0"]) {
        let words: Vec<&str> = line.split_whitespace().collect();
        if words.first() == Some(&"tank") || words.first() == Some(&"end") {
            if let Some(tank) = tank.take() {
                let tank: seamwright_core::tank::Tank = tank;
                let trial = if load == "even" {
                    Trial::Test(Pressure::from_pascals(1000.0))
                } else {
                    Trial::Use
                };
                for (face, bearing) in tank.bearings(trial) {
                    let key = face.to_string().replace(' ', "-");
                    if let Some((_, fe, inside)) = worst.iter().find(|(a, ..)| *a == key) {
                        match bearing {
                            Ok(b) => {
                                let ours = b.joined.map(|p| p.si() * 1e-6);
                                let alone = b.stress_range()[1].si() * 1e-6;
                                let ratio = ours.unwrap_or(alone) / fe;
                                all.push(ratio);
                                let mark = if !(0.95..=1.25).contains(&ratio) {
                                    "****"
                                } else {
                                    ""
                                };
                                println!(
                                    "{name:36} {load:5} {key:10} fe {fe:8.3} in {inside:8.3} ours {ours:?} alone {alone:.3} ratio {ratio:.3} {mark}"
                                );
                            }
                            Err(e) => println!("{name} {key} {e}"),
                        }
                    }
                }
            }
            worst.clear();
            if words.len() > 3 && words[1] != "end" {
                name = words[1];
                load = words[2];
                let toml = std::fs::read_to_string(format!(
                    "/work/h1/tests/data/strength/tanks/{name}.toml"
                ))
                .unwrap();
                tank = Some(jobs::tank(&toml));
            }
        } else if words.first() == Some(&"wall") {
            let fe: f64 = words[4].parse().unwrap();
            let inside: f64 = words[5].parse().unwrap();
            match worst.iter_mut().find(|(a, ..)| a == words[1]) {
                Some(old) => {
                    old.1 = old.1.max(fe);
                    old.2 = old.2.max(inside);
                }
                None => worst.push((words[1].to_owned(), fe, inside)),
            }
        }
    }
    all.sort_by(f64::total_cmp);
    let inside = all.iter().filter(|r| (0.95..=1.25).contains(*r)).count();
    println!(
        "{} walls, {inside} inside, least {} most {}",
        all.len(),
        all[0],
        all[all.len() - 1]
    );
}
