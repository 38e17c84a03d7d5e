//! Looks long for the best order of welding of ten tanks, for the test that holds plans against it, and writes what it found to
//! `tests/data/welding/orders/found.json`.
//!
//! `cargo run --release -p seamwright-tests --example order_reference -- DATE [TANK…]`. It takes half an hour; with
//! tanks named it leaves the others as they stand in the file.
//!
//! Two searches: core's own, with hundreds of times the effort of a plan and other seeds, each order that it finds followed
//! by simulation; and from the best of those, annealing in which every single order is simulated. Once among orders
//! that pull no more to one side than a plan's may, and once more whatever the pull.

use std::sync::Mutex;
use std::{env, fs, thread};

use seamwright::welding;
use seamwright_core::tank::Tank;
use seamwright_core::units::Ratio;
use seamwright_core::weld::{
    OrderEffort, OrderTotals, PlanOptions, Planner, SearchEffort, WeldPlan,
};
use seamwright_tests::Outcome;
use seamwright_tests::order_tanks::{self, Found, FoundOrder, TANKS, found, numbers};

/// Seeds of core's own search, none of them that of a plan.
const SEEDS: [u64; 2] = [101, 202];
const LONG: OrderEffort = OrderEffort {
    searches: 4,
    rounds: 13,
    patience: 13,
    tries: 100_000,
    seed: 0,
};
/// Seeds of the annealing by simulation; the last of them may pull as it likes.
const ANNEALED: [u64; 3] = [11, 22, 33];
const TRIES: u32 = 2_000;

fn options() -> PlanOptions {
    PlanOptions {
        comparisons: false,
        ..PlanOptions::default()
    }
}

fn figures(totals: &OrderTotals) -> [f64; 2] {
    let round = |value: f64, digits: f64| (value * digits).round() / digits;
    [
        round(totals.job().si(), 10.0),
        round(totals.pull().si(), 1e4),
    ]
}

fn look(name: &str) -> Outcome<FoundOrder> {
    let tank = order_tanks::tank(name);
    let ways = welding::plan_with(&tank, &options(), None)?;
    let plan = welding::plan_with(&tank, &options(), Some(&OrderEffort::USUAL))?;
    let mut best = plan.clone();
    for seed in SEEDS {
        let effort = OrderEffort { seed, ..LONG };
        let found = welding::plan_with(&tank, &options(), Some(&effort))?;
        if found.totals().beats(best.totals()) {
            best = found;
        }
    }
    // What a plan's order may pull: as much as that of the ways, or a twentieth.
    let most_pull = ways.totals().pull().si().max(0.05);
    let annealed = Mutex::new(Vec::new());
    thread::scope(|scope| {
        for (number, seed) in ANNEALED.into_iter().enumerate() {
            let (annealed, tank, best) = (&annealed, &tank, &best);
            scope.spawn(move || {
                let free = number + 1 == ANNEALED.len();
                let most = (!free).then(|| Ratio::from_share(most_pull));
                let found = anneal(tank, best, seed, most);
                if let (Ok(found), Ok(mut all)) = (found, annealed.lock()) {
                    all.push((free, found));
                }
            });
        }
    });
    let mut any_pull = *best.totals();
    for (free, found) in annealed.into_inner().map_err(|error| error.to_string())? {
        if found.totals().beats(&any_pull) {
            any_pull = *found.totals();
        }
        if !free && found.totals().beats(best.totals()) {
            best = found;
        }
    }
    Ok(FoundOrder {
        tank: name.to_owned(),
        ways: figures(ways.totals()),
        plan: figures(plan.totals()),
        best: figures(best.totals()),
        any_pull: figures(&any_pull),
        order: numbers(best.steps()),
    })
}

fn anneal(
    tank: &Tank,
    plan: &WeldPlan,
    seed: u64,
    most_pull: Option<Ratio>,
) -> Result<WeldPlan, String> {
    let mut planner = Box::new(Planner::new());
    let effort = SearchEffort {
        tries: TRIES,
        seed,
        most_pull,
    };
    let found = tank.search_weld_order_from(&mut planner, &options(), plan, &effort);
    found
        .map(|found| found.best)
        .map_err(|error| error.to_string())
}

fn main() -> Outcome {
    let mut asked = env::args().skip(1);
    let date = asked.next().ok_or("the date is missing")?;
    let named: Vec<String> = asked.collect();
    let mut orders = found().map_or(Vec::new(), |found| found.orders);
    for name in TANKS {
        if !named.is_empty() && !named.iter().any(|one| one == name) {
            continue;
        }
        let found = look(name)?;
        println!(
            "{name:<16} ways {:?} plan {:?} best {:?} any pull {:?}: {:.3}",
            found.ways,
            found.plan,
            found.best,
            found.any_pull,
            found.plan[0] / found.best[0]
        );
        orders.retain(|order| order.tank != name);
        orders.push(found);
        orders.sort_by_key(|order| TANKS.iter().position(|name| *name == order.tank));
        let found = Found {
            command: "cargo run --release -p seamwright-tests --example order_reference -- DATE"
                .to_owned(),
            date: date.clone(),
            searches: format!(
                "core's own with seeds {SEEDS:?}, {} searches each of {} rounds of {} tries; annealing by simulation from the best of these with seeds {ANNEALED:?}, {TRIES} tries each, the last whatever the pull",
                LONG.searches, LONG.rounds, LONG.tries
            ),
            orders: std::mem::take(&mut orders),
        };
        let text = serde_json::to_string_pretty(&found)?;
        fs::write(order_tanks::folder().join("found.json"), text + "\n")?;
        orders = found.orders;
    }
    Ok(())
}
