//! What mounts bear while the tank's liquid runs: against darts thrown into random tanks, statics solved in another way,
//! and closed forms.

use fastrand::Rng;
use seamwright_core::geom::Vector;
use seamwright_core::input::{Block, Draft, StockDraft};
use seamwright_core::mass::balance::{Balance, reactions};
use seamwright_core::mass::{BalanceError, LoadCase, MountsEnvelope};
use seamwright_core::tables::Alloy;
use seamwright_core::tank::Tank;
use seamwright_core::units::constant::GRAVITY;
use seamwright_core::units::{Length, Ratio, Volume};
use seamwright_tests::Outcome;
use seamwright_tests::amounts::{degrees, litres, mm};
use seamwright_tests::near::{Tolerance, near};
use seamwright_tests::random_jobs::Jobs;

/// Tanks of every shape whose cases are tried.
const TANKS: usize = 100;
/// Cases tried of each.
const CASES: usize = 200;
/// Darts thrown at a tank.
const DARTS: usize = 200_000;
/// The envelope may miss what occurs by this share of the largest force: what `Tank::mounts_envelope` promises.
const KEPT: f64 = 0.005;

fn between(rng: &mut Rng, low: f64, high: f64) -> f64 {
    low + (high - low) * rng.f64()
}

/// What a box of the outside reaches to along x, y and z.
fn reach(tank: &Tank) -> [[f64; 2]; 3] {
    let outside = &tank.body().outside;
    let axes = [
        Vector::new(1.0, 0.0, 0.0),
        Vector::new(0.0, 1.0, 0.0),
        Vector::new(0.0, 0.0, 1.0),
    ];
    axes.map(|axis| {
        let (low, high) = outside.extent(axis);
        [low, high]
    })
}

/// A random tank that leans, is shaken and stands on mounts: on its floor, or anywhere.
fn standing(mut draft: Draft, rng: &mut Rng) -> Option<Tank> {
    let bare = Tank::build(&draft).ok()?;
    let [x, y, z] = reach(&bare);
    let floor = rng.u8(..3) > 0;
    for _ in 0..[1, 3, 3, 4, 4, 4][rng.usize(..6)] {
        let across = |rng: &mut Rng, [low, high]: [f64; 2]| {
            Length::from_metres(between(rng, low - 0.1 * (high - low), high))
        };
        let high = if floor {
            Length::from_metres(z[0])
        } else {
            across(rng, z)
        };
        let at = [across(rng, x), across(rng, y), high];
        draft.service.mounts.push(at).ok()?;
    }
    let some = |rng: &mut Rng, most: f64| {
        if rng.bool() {
            between(rng, 0.0, most)
        } else {
            0.0
        }
    };
    draft.fill.pitch = Some(degrees(some(rng, 40.0)));
    draft.fill.roll = Some(degrees(some(rng, 40.0)));
    draft.fill.pick_up = None;
    let shaken = [0; 3].map(|_| Ratio::from_share(some(rng, 2.0)));
    draft.service.acceleration = Some(shaken);
    Tank::build(&draft).ok()
}

/// The random tanks of a seed with their envelopes.
fn tanks(seed: u64) -> impl Iterator<Item = (Tank, MountsEnvelope)> {
    let mut rng = Rng::with_seed(seed);
    Jobs::new(seed).filter_map(move |draft| {
        let tank = standing(draft, &mut rng)?;
        match tank.mounts_envelope()? {
            Ok(envelope) => Some((tank, envelope)),
            // Mounts thrown down at random may lie on a line; nothing else may be amiss.
            Err(BalanceError::OneLine) => None,
            Err(error) => panic!("{error}"),
        }
    })
}

/// Any case that the job of a tank allows.
fn case(tank: &Tank, rng: &mut Rng) -> LoadCase {
    let sway = tank.sway();
    let mut either = |most: f64| most * between(rng, -1.0, 1.0);
    let (pitch, roll) = (either(sway.pitch.si()), either(sway.roll.si()));
    let shaken = [sway.shaken.x, sway.shaken.y, sway.shaken.z].map(either);
    // The worst lies at the ends more often than not.
    let full = rng.u8(..4);
    let ends = |value: f64, most: f64| {
        if full == 0 {
            most.copysign(value)
        } else {
            value
        }
    };
    let [x, y, z] = shaken;
    let shaken = [
        ends(x, sway.shaken.x),
        ends(y, sway.shaken.y),
        ends(z, sway.shaken.z),
    ];
    LoadCase {
        liquid: Volume::from_cubic_metres(tank.capacity().brim.si() * rng.f64()),
        pitch: degrees(ends(pitch, sway.pitch.si()).to_degrees()),
        roll: degrees(ends(roll, sway.roll.si()).to_degrees()),
        acceleration: shaken.map(Ratio::from_share),
    }
}

/// Solves a small system by elimination with pivots.
fn solved(mut rows: Vec<Vec<f64>>) -> Vec<f64> {
    let size = rows.len();
    for column in 0..size {
        let pivot = (column..size)
            .max_by(|a, b| rows[*a][column].abs().total_cmp(&rows[*b][column].abs()))
            .unwrap();
        rows.swap(column, pivot);
        for row in 0..size {
            if row == column {
                continue;
            }
            let by = rows[row][column] / rows[column][column];
            let taken: Vec<f64> = rows[column].iter().map(|value| by * value).collect();
            for (value, taken) in rows[row].iter_mut().zip(taken) {
                *value -= taken;
            }
        }
    }
    (0..size).map(|n| rows[n][size] / rows[n][n]).collect()
}

/// The forces of mounts that balance a load and are the least in sum of squares, by Lagrange's multipliers: what a rigid
/// body on equal springs comes to (Castigliano). One mount bears all.
fn least_squares(balance: &Balance, felt: Vector, mounts: &[Vector]) -> Vec<Vector> {
    let centre = balance.centre().unwrap();
    let load = felt * balance.mass().si();
    if mounts.len() == 1 {
        return vec![-load];
    }
    let about = centre.cross(load);
    let (n, size) = (3 * mounts.len(), 3 * mounts.len() + 6);
    let mut rows = vec![vec![0.0; size + 1]; size];
    // The force on a mount turns the tank by r × F.
    let turned = |r: Vector| [[0.0, -r.z, r.y], [r.z, 0.0, -r.x], [-r.y, r.x, 0.0]];
    for (place, mount) in mounts.iter().enumerate() {
        for (axis, row) in turned(*mount).into_iter().enumerate() {
            let own = 3 * place + axis;
            rows[own][own] = 1.0;
            rows[own][n + axis] = 1.0;
            rows[n + axis][own] = 1.0;
            for (component, share) in row.into_iter().enumerate() {
                rows[n + 3 + axis][3 * place + component] = share;
                rows[3 * place + component][n + 3 + axis] = share;
            }
        }
    }
    let wanted = [load.x, load.y, load.z, about.x, about.y, about.z];
    for (place, value) in wanted.into_iter().enumerate() {
        rows[n + place][size] = -value;
    }
    let all = solved(rows);
    (0..mounts.len())
        .map(|at| Vector::new(all[3 * at], all[3 * at + 1], all[3 * at + 2]))
        .collect()
}

fn mounts(tank: &Tank) -> Vec<Vector> {
    let at = |[x, y, z]: &[Length; 3]| Vector::new(x.si(), y.si(), z.si());
    tank.mounts().iter().map(at).collect()
}

/// The middle of the liquid by darts: of points thrown evenly into the inside, the lowest, as many as there is liquid.
fn by_darts(tank: &Tank, up: Vector, share: f64, rng: &mut Rng) -> Vector {
    let inside = tank.inside();
    let [x, y, z] = reach(tank);
    let mut darts = Vec::new();
    for _ in 0..DARTS {
        let dart = Vector::new(
            between(rng, x[0], x[1]),
            between(rng, y[0], y[1]),
            between(rng, z[0], z[1]),
        );
        if inside.holds(dart) {
            darts.push((up.dot(dart), dart));
        }
    }
    darts.sort_by(|a, b| a.0.total_cmp(&b.0));
    let lowest = (darts.len() as f64 * share).round() as usize;
    let sum = darts[..lowest]
        .iter()
        .fold(Vector::ZERO, |sum, (_, dart)| sum + *dart);
    sum * (1.0 / lowest as f64)
}

/// The middle of leaning liquid in tanks of every shape against darts: off by no more than four of their deviations, an
/// even spread's `size / √(12 n)`.
#[test]
fn middles_by_darts() -> Outcome {
    let mut rng = Rng::with_seed(41);
    let mut seen = 0;
    for mut draft in Jobs::new(41) {
        draft.fittings.clear();
        draft.baffles.clear();
        let Some(tank) = standing(draft, &mut rng) else {
            continue;
        };
        let mut case = case(&tank, &mut rng);
        let share = between(&mut rng, 0.1, 1.0);
        let brim = tank.capacity().brim.si();
        case.liquid = Volume::from_cubic_metres(brim * share);
        let Some(up) = (-case.felt()).unit() else {
            continue;
        };
        let (empty, laden) = (tank.empty_balance()?, tank.balance_in(&case)?);
        let mass = tank.liquid_density()?.si() * brim * share;
        let tight = Tolerance::relative(2e-3);
        near("mass", laden.mass().si() - empty.mass().si(), mass, tight)?;
        let moment = |balance: &Balance| balance.centre().unwrap() * balance.mass().si();
        let own = laden.mass().si() - empty.mass().si();
        let middle = (moment(&laden) - moment(&empty)) * (1.0 / own);
        let want = by_darts(&tank, up, share, &mut rng);
        let size = reach(&tank)
            .iter()
            .map(|[low, high]| high - low)
            .fold(0.0, f64::max);
        // At the least a tenth of the darts hit the inside, and a tenth of those are in the liquid.
        let allowed = Tolerance::absolute(4.0 * size / (12.0 * 0.01 * DARTS as f64).sqrt());
        for (got, want) in [(middle.x, want.x), (middle.y, want.y), (middle.z, want.z)] {
            near(&format!("tank {seen}, share {share}"), got, want, allowed)?;
        }
        seen += 1;
        if seen == 60 {
            return Ok(());
        }
    }
    Err("jobs never end".into())
}

/// Nothing that may occur lies outside: 200 cases of each of 100 tanks, their forces by least squares. In each the forces of
/// the mounts come to the weight, and the envelope's own extremes occur.
#[test]
fn envelope_holds_every_case() -> Outcome {
    let mut rng = Rng::with_seed(7);
    let (mut worst, mut inner) = (0.0_f64, 0);
    for (number, (tank, envelope)) in tanks(7).take(TANKS).enumerate() {
        let at = mounts(&tank);
        let normal = envelope.normal;
        let scale = envelope
            .mounts
            .iter()
            .map(|one| one.any_way.force.si())
            .fold(0.0, f64::max);
        let forces = |case: &LoadCase| -> Outcome<(Balance, Vec<Vector>)> {
            let balance = tank.balance_in(case)?;
            let forces = least_squares(&balance, case.felt(), &at);
            Ok((balance, forces))
        };
        for _ in 0..CASES {
            let case = case(&tank, &mut rng);
            let (balance, all) = forces(&case)?;
            let sum = all.iter().fold(Vector::ZERO, |sum, one| sum + *one);
            let weight = case.felt() * balance.mass().si();
            assert!((sum + weight).length() < 1e-6 * scale);
            let own = reactions(&balance, case.felt(), &at)?;
            for ((force, own), extremes) in all.iter().zip(&own.mounts).zip(&envelope.mounts) {
                assert!((*force - own.force).length() < 1e-6 * scale);
                let push = force.dot(normal);
                let shear = (*force - normal * push).length();
                let over = [
                    push - extremes.most.force.si(),
                    extremes.least.force.si() - push,
                    shear - extremes.shear.force.si(),
                    force.length() - extremes.any_way.force.si(),
                ];
                let over = over.into_iter().fold(f64::NEG_INFINITY, f64::max) / scale;
                worst = worst.max(over);
                assert!(
                    over < KEPT,
                    "tank {number}: {over} past {extremes:?} at {case:?}"
                );
            }
        }
        for (place, one) in envelope.mounts.iter().enumerate() {
            let push = |case: &LoadCase| -> Outcome<f64> { Ok(forces(case)?.1[place].dot(normal)) };
            let allowed = Tolerance::absolute(1e-4 * scale);
            near("least", push(&one.least.at)?, one.least.force.si(), allowed)?;
            near("most", push(&one.most.at)?, one.most.force.si(), allowed)?;
            let share = one.least.at.liquid.si() / tank.capacity().brim.si();
            inner += usize::from(share > 0.01 && share < 0.99);
        }
    }
    // Of many mounts the worst is neither an empty nor a full tank.
    assert!(inner > TANKS / 4, "{inner}");
    assert!(worst > f64::NEG_INFINITY);
    println!("the most past an envelope: {worst}; least at a fill between: {inner}");
    Ok(())
}

/// A box of steel, 2 mm, inside measures, on three or four mounts.
fn block(inside: [f64; 3], more: impl FnOnce(&mut Draft)) -> Outcome<Tank> {
    let [l, w, h] = inside.map(mm);
    let mut outside = Block::new(l, w, h);
    outside.sized = seamwright_core::input::Sized::Inside;
    let mut draft = Draft::new("Box", outside, StockDraft::of(Alloy::S304L, mm(2.0)))
        .map_err(|error| format!("{error:?}"))?;
    more(&mut draft);
    Ok(Tank::build(&draft).map_err(|error| format!("{error:?}"))?)
}

/// A box braked: its surface stands at atan a/g, and while it meets neither floor nor roof the middle of its liquid has
/// moved by `L² (a/g)/(12 h)` and risen by `L² (a/g)²/(24 h)` (the centroid of a trapezium; any textbook of hydrostatics).
#[test]
fn a_braked_box_by_hand() -> Outcome {
    let tank = block([400.0, 300.0, 300.0], |_| ())?;
    let (l, w, h, share) = (0.4, 0.3, 0.15, 0.5);
    let case = LoadCase {
        liquid: litres(18.0),
        acceleration: [share, 0.0, 0.0].map(Ratio::from_share),
        ..LoadCase::default()
    };
    let (empty, laden) = (tank.empty_balance()?, tank.balance_in(&case)?);
    let mass = 1000.0 * l * w * h;
    let moment = |balance: &Balance| balance.centre().unwrap() * balance.mass().si();
    let middle = (moment(&laden) - moment(&empty)) * (1.0 / mass);
    let tight = Tolerance::relative(1e-9);
    near(
        "x",
        middle.x,
        0.002 + 0.2 + l * l * share / (12.0 * h),
        tight,
    )?;
    near("y", middle.y, 0.002 + 0.15, tight)?;
    let rise = l * l * share * share / (24.0 * h);
    near("z", middle.z, 0.002 + 0.5 * h + rise, tight)?;
    // Up past gravity it lies under the roof.
    let thrown = LoadCase {
        acceleration: [0.0, 0.0, 3.0].map(Ratio::from_share),
        ..case
    };
    let laden = tank.balance_in(&thrown)?;
    let middle = (moment(&laden) - moment(&empty)) * (1.0 / mass);
    near("under the roof", middle.z, 0.002 + 0.3 - 0.5 * h, tight)?;
    let more = LoadCase {
        liquid: litres(36.1),
        ..case
    };
    assert!(matches!(tank.balance_in(&more), Err(BalanceError::Fill(_))));
    Ok(())
}

/// A tall box on four feet, empty or full, tips where a/g passes half its width over the height of its centre (statics of a
/// rigid block); half full it tips sooner, for the liquid runs to the side.
#[test]
fn tips_where_statics_says() -> Outcome {
    let tank = |share: f64| {
        block([200.0, 1000.0, 600.0], |draft| {
            for (x, y) in [(0.0, 0.0), (204.0, 0.0), (0.0, 1004.0), (204.0, 1004.0)] {
                let _ = draft.service.mounts.push([mm(x), mm(y), mm(0.0)]);
            }
            let shaken = [share, 0.0, 0.0].map(Ratio::from_share);
            draft.service.acceleration = Some(shaken);
        })
    };
    let still = tank(0.0)?.mounts_envelope().unwrap()?;
    let tipping = still.tipping.unwrap();
    // Empty it stands with its weight times half of its width over either long side.
    let empty = tank(0.0)?.empty_balance()?.mass().si();
    let tight = Tolerance::relative(1e-9);
    near("holds", tipping.holds.si(), empty * GRAVITY * 0.102, tight)?;
    assert!(tipping.at.liquid == Volume::default());
    assert!(still.mounts.iter().all(|one| one.least.force.si() > 0.0));

    // Full, with its centre 302 mm up, it takes 102/302 g; of a fill between it takes less.
    let under = tank(0.99 * 102.0 / 302.0)?;
    let envelope = under.mounts_envelope().unwrap()?;
    let tipping = envelope.tipping.unwrap();
    let full = under.laden_balance(under.capacity().brim)?.mass().si();
    let rigid = full * GRAVITY * 0.102 * (1.0 - 0.99);
    assert!(tipping.holds.si() < rigid, "{tipping:?}");
    // By hand at every fill: the moment about the edge, with the middle of the liquid by the trapezium where it is one.
    let (a, h) = (0.99 * 102.0 / 302.0, 0.5);
    let liquid = 1000.0 * 0.2 * h;
    let (shift, rise) = (0.04 * a / (12.0 * h), 0.04 * a * a / (24.0 * h));
    let holds = GRAVITY
        * (empty * (0.102 - a * 0.302) + liquid * (0.102 - shift - a * (0.002 + 0.5 * h + rise)));
    assert!(tipping.holds.si() <= holds * (1.0 + 1e-9));
    let over = tank(1.2 * 102.0 / 302.0)?.mounts_envelope().unwrap()?;
    let tipping = over.tipping.unwrap();
    assert!(
        tipping.holds.si() < 0.0
            && [[1, 3], [2, 4]].contains(&{
                let [a, b] = tipping.over;
                [a.min(b), a.max(b)]
            })
    );
    assert!(over.mounts.iter().any(|one| one.least.force.si() < 0.0));
    Ok(())
}
