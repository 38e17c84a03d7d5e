//! The order of tacking, on the demonstration tanks and on tanks made at random: every tack once, ends of a seam
//! before its middle, the longest open stretches halved, stage by stage of building, and less lopsided than seam by seam. The pull is summed here anew from the ways of the seams.

use std::collections::{BTreeMap, BTreeSet};

use seamwright_core::body::Path;
use seamwright_core::build::MAX_STAGES;
use seamwright_core::geom::Vector;
use seamwright_core::input::Face;
use seamwright_core::seam::{MAX_SEAMS, Seam};
use seamwright_core::tank::Tank;
use seamwright_core::weld::{Tack, Tacking};
use seamwright_tests::jobs;
use seamwright_tests::random_jobs::{Jobs, settled};

fn examples() -> impl Iterator<Item = (String, Tank)> {
    let tank = |name: &str| (name.to_owned(), jobs::example_tank(name));
    jobs::EXAMPLES.into_iter().map(tank)
}

fn random(seed: u64, most: usize) -> impl Iterator<Item = (String, Tank)> {
    Jobs::new(seed)
        .filter_map(|draft| Some((draft.name.to_string(), settled(draft)?)))
        .take(most)
}

fn ordered(tank: &Tank) -> (Vec<Tack>, f64) {
    let mut tacking = Box::new(Tacking::new());
    let mut order = tank.tack_order(&mut tacking);
    let all: Vec<Tack> = order.by_ref().collect();
    (all, order.pull())
}

/// Every tack as the tank has it, by the place of its seam, with its middle and its length.
fn wanted(tank: &Tank) -> BTreeMap<(u8, u16), (Vector, f64)> {
    let mut all = BTreeMap::new();
    for (seam, place) in tank.seams().zip(0_u8..) {
        let Some(tacks) = tank.tacks(&seam) else {
            continue;
        };
        let edge = tank.edge_of_seam(usize::from(place)).unwrap();
        for (at, number) in tacks.centres().zip(0_u16..) {
            all.insert((place, number), (edge.at(at), tacks.length.si()));
        }
    }
    all
}

/// The largest first moment on the way, over the sum of all lengths by their distances from their middle.
fn pull_of(all: &BTreeMap<(u8, u16), (Vector, f64)>, order: &[(u8, u16)]) -> f64 {
    let length: f64 = all.values().map(|(_, length)| length).sum();
    let sum = all
        .values()
        .fold(Vector::ZERO, |sum, (at, length)| sum + *at * *length);
    let middle = sum * (1.0 / length);
    let arm = |key: &(u8, u16)| (all[key].0 - middle) * all[key].1;
    let whole: f64 = all.keys().map(|key| arm(key).length()).sum();
    let (mut moment, mut most) = (Vector::ZERO, 0.0_f64);
    for key in order {
        moment = moment + arm(key);
        most = most.max(moment.length() / whole);
    }
    most
}

/// The same stage by stage, the largest of all.
fn pull(all: &BTreeMap<(u8, u16), (Vector, f64)>, order: &[(u8, (u8, u16))]) -> f64 {
    let of = |stage: u8| {
        let own = order.iter().filter(|(one, _)| *one == stage);
        let own: Vec<(u8, u16)> = own.map(|(_, key)| *key).collect();
        let known = own.iter().map(|key| (*key, all[key])).collect();
        pull_of(&known, &own)
    };
    let stages: BTreeSet<u8> = order.iter().map(|(stage, _)| *stage).collect();
    assert!(stages.iter().all(|stage| usize::from(*stage) <= MAX_STAGES));
    stages.into_iter().map(of).fold(0.0, f64::max)
}

/// The seams of fittings.
fn rings(tank: &Tank) -> BTreeSet<u8> {
    let seams = tank.seams().zip(0_u8..);
    let round = seams.filter(|(seam, _)| matches!(seam.faces, [_, Face::Fitting(_)]));
    round.map(|(_, place)| place).collect()
}

fn is_round(tank: &Tank, seam: u8) -> bool {
    let edge = tank.edge_of_seam(usize::from(seam)).unwrap();
    matches!(edge.path, Path::Round(_))
}

#[test]
fn every_tack_once_where_the_tank_has_it() {
    for (name, tank) in examples().chain(random(11, 300)) {
        let (order, _) = ordered(&tank);
        let wanted = wanted(&tank);
        let made: BTreeSet<(u8, u16)> = order.iter().map(|one| (one.seam, one.number)).collect();
        assert_eq!(made.len(), order.len(), "{name}");
        assert!(made.iter().eq(wanted.keys()), "{name}");
        let seams: Vec<Seam> = tank.seams().collect();
        for one in &order {
            let tacks = tank.tacks(&seams[usize::from(one.seam)]).unwrap();
            let at = tacks.centres().nth(usize::from(one.number)).unwrap();
            assert!((one.at.si() - at.si()).abs() < 1e-12, "{name}: {one:?}");
        }
        assert_eq!(order.len(), usize::try_from(tank.totals().tacks).unwrap());
    }
}

/// The tacks beside a place that is still open. On a ring the last tack, beside the first, stands for its far end.
fn beside(made: &BTreeSet<u16>, last: u16, number: u16) -> (u16, u16) {
    let before = made.range(..number).next_back().copied().unwrap();
    let after = made.range(number..).next().copied().unwrap_or(last);
    (before, after)
}

#[test]
fn ends_come_before_what_lies_between_and_the_longest_first() {
    let mut rings = 0;
    for (name, tank) in examples().chain(random(12, 300)) {
        let (order, _) = ordered(&tank);
        let seams: Vec<Seam> = tank.seams().collect();
        let spacing = |seam: u8| tank.tacks(&seams[usize::from(seam)]).unwrap();
        let last_of = |seam: u8| spacing(seam).count - 1;
        let is_end = |one: &Tack| {
            one.number == 0 || (one.number == last_of(one.seam) && !is_round(&tank, one.seam))
        };
        let mut made: BTreeMap<u8, BTreeSet<u16>> = BTreeMap::new();
        for (place, one) in order.iter().enumerate() {
            let (tacks, last) = (spacing(one.seam), last_of(one.seam));
            if is_end(one) {
                assert!(one.open.si() == 0.0, "{name}: {one:?}");
                made.entry(one.seam).or_default().insert(one.number);
                continue;
            }
            let own = &made[&one.seam];
            let round = is_round(&tank, one.seam);
            assert!(
                own.contains(&0) && (round || own.contains(&last)),
                "{name}: {one:?}"
            );
            let left = order[place..]
                .iter()
                .filter(|other| other.stage == one.stage);
            // All ends of the stage are held by now.
            assert!(left.clone().all(|other| !is_end(other)), "{name}: {one:?}");
            if round && one.number == last {
                // Beside the first, when the rest of the ring is done.
                assert_eq!(own.len(), usize::from(last), "{name}: {one:?}");
                rings += 1;
            } else {
                let (before, after) = beside(own, last, one.number);
                let open = f64::from(after - before) * tacks.pitch.si();
                assert!((open - one.open.si()).abs() < 1e-12, "{name}: {one:?}");
                assert!(
                    (one.number - before).abs_diff(after - one.number) <= 1,
                    "{name}"
                );
            }
            let longest = left
                .filter(|other| other.number != last_of(other.seam))
                .map(|other| {
                    let (before, after) =
                        beside(&made[&other.seam], last_of(other.seam), other.number);
                    f64::from(after - before) * spacing(other.seam).pitch.si()
                })
                .fold(0.0, f64::max);
            assert!(
                one.open.si() > 0.5 * longest - 1e-9,
                "{name}: {one:?} {longest}"
            );
            made.entry(one.seam).or_default().insert(one.number);
        }
    }
    assert!(rings > 20, "{rings}");
}

/// The panel on top of an upright tank closes it; of a lying drum an end does, for the wall is joined to both.
#[test]
fn which_panel_closes() {
    for (name, tank) in examples() {
        let closing = tank.closing_panel().unwrap();
        let panel = tank.panels().find(|panel| panel.mark == closing).unwrap();
        let wanted = if panel.faces.iter().any(|face| matches!(face, Face::Side(_))) {
            continue;
        } else {
            Face::Top
        };
        assert!(panel.faces.contains(&wanted), "{name}: {panel:?}");
    }
    let mut drums = 0;
    for (name, tank) in random(14, 300) {
        let shell = tank
            .panels()
            .find(|panel| panel.faces.contains(&Face::Shell));
        if let Some(shell) = shell {
            drums += 1;
            let closing = tank.closing_panel().unwrap();
            assert_ne!(closing, shell.mark, "{name}");
        }
    }
    assert!(drums > 20, "{drums}");
}

/// Less lopsided than seam by seam; and what the core says of both is what is summed here.
#[test]
fn it_pulls_less_than_seam_by_seam() {
    let (mut sum, mut count) = (0.0, 0.0);
    for (name, tank) in examples().chain(random(15, 400)) {
        let mut tacking = Box::new(Tacking::new());
        let mut order = tank.tack_order(&mut tacking);
        let plain_told = order.pull_seam_by_seam();
        let made: Vec<(u8, (u8, u16))> = order
            .by_ref()
            .map(|one| (one.stage, (one.seam, one.number)))
            .collect();
        let told = order.pull();
        let wanted = wanted(&tank);
        let mut plain = made.clone();
        plain.sort_unstable();
        // A ring in a flat panel has nothing to pull to one side.
        let rings = rings(&tank);
        let stands = |all: Vec<(u8, (u8, u16))>| -> Vec<_> {
            let stands = all
                .into_iter()
                .filter(|(_, (seam, _))| !rings.contains(seam));
            stands.collect()
        };
        let (made, plain) = (stands(made), stands(plain));
        let (own, plain) = (pull(&wanted, &made), pull(&wanted, &plain));
        assert!((own - told).abs() < 1e-9, "{name}: {own} {told}");
        assert!(
            (plain - plain_told).abs() < 1e-9,
            "{name}: {plain} {plain_told}"
        );
        // Of a stage with a few tacks either way comes to the same.
        assert!(own <= plain * (1.0 + 1e-9), "{name}: {own} {plain}");
        count += 1.0;
        sum += own / plain;
        if jobs::EXAMPLES.contains(&name.as_str()) {
            assert!(own < 0.4 * plain, "{name}: {own} {plain}");
        }
    }
    assert!(sum / count < 0.5, "{}", sum / count);
}

#[test]
fn it_is_the_same_every_time() {
    let mut tacking = Box::new(Tacking::new());
    for (name, tank) in examples().chain(random(16, 60)) {
        // Written over what the last tank left.
        let again: Vec<Tack> = tank.tack_order(&mut tacking).collect();
        assert_eq!(ordered(&tank).0, again, "{name}");
    }
}

/// As many baffles and fittings as a tank may have: there is room for all of their tacks.
#[test]
fn the_tank_with_the_most_seams() {
    let mut text =
        "name = \"Most\"\n[shape]\nkind = \"block\"\nlength = \"2 m\"\nwidth = \"1 m\"\n\
        height = \"1 m\"\n[stock]\nalloy = \"5083\"\nthickness = \"3 mm\"\n\
        [weld]\nstitch_max = \"1 m\"\ntack_pitch = \"20 mm\"\nreach = \"1.2 m\"\n"
            .to_owned();
    for n in 1..=16_u32 {
        let (x, y) = (200 * ((n - 1) % 8 + 1), 300 * ((n - 1) / 8 + 1));
        text.push_str(&format!(
            "[[fitting]]\nname = \"{n}\"\nface = \"top\"\nat = [\"{x} mm\", \"{y} mm\"]\nbore = \"20 mm\"\n"
        ));
    }
    for n in 1..=4 {
        text.push_str(&format!(
            "[[baffle]]\nacross = \"length\"\nat = \"{} mm\"\n",
            400 * n
        ));
    }
    let tank = jobs::tank(&text);
    assert_eq!(tank.seam_count(), 12 + 16 + 4 * 4);
    assert!(tank.seam_count() <= MAX_SEAMS);
    let (order, pull) = ordered(&tank);
    assert!(order.len() > 1_500, "{}", order.len());
    assert_eq!(order.len(), usize::try_from(tank.totals().tacks).unwrap());
    assert!(pull < 0.2, "{pull}");
    let stages: BTreeSet<u8> = order.iter().map(|one| one.stage).collect();
    // Fittings, walls, four baffles one after another, the top.
    assert_eq!(stages.len(), 7);
    for stage in stages {
        let count = order.iter().filter(|one| one.stage == stage).count();
        assert!(count > 50, "stage {stage}: {count}");
    }
}
