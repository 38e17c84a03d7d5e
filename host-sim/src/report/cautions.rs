//! What may hurt someone, in whole and with its source: shown before any pressure is named.

use std::fmt::Write as _;

use seamwright_core::advice::caution::{
    Caution, Cautions, always, for_alloy, for_leak_test, for_liquid,
};
use seamwright_core::leak::{Method, Rule};
use seamwright_core::tank::Tank;
use serde_json::{Value, json};

use super::table::wrapped;

/// Signs in a line.
const WIDE: usize = 100;

fn gather(lists: impl IntoIterator<Item = Cautions>) -> Vec<Caution> {
    let mut all: Vec<Caution> = Vec::new();
    for caution in lists.into_iter().flatten() {
        if !all.contains(&caution) {
            all.push(caution);
        }
    }
    // Whoever reads to the end has the widest one last.
    all.sort_by_key(|caution| *caution == Caution::LocalCode);
    all
}

/// All that belong to making and testing a tank, none of them twice.
#[must_use]
pub fn of(tank: &Tank) -> Vec<Caution> {
    let job = tank.job();
    let test = match tank.leak_plan(Rule::default()) {
        Ok(plan) => vec![for_leak_test(plan.method)],
        // Whoever tests in spite of that may do so either way.
        Err(_) => [Method::AirSoap, Method::WaterHead]
            .map(for_leak_test)
            .into(),
    };
    let liquid = job.liquid().map(for_liquid);
    gather(
        [always(), for_alloy(job.alloy())]
            .into_iter()
            .chain(liquid)
            .chain(test),
    )
}

/// Those of one leak test.
#[must_use]
pub fn of_test(tank: &Tank, methods: &[Method]) -> Vec<Caution> {
    let liquid = tank.job().liquid().map(for_liquid);
    gather(methods.iter().copied().map(for_leak_test).chain(liquid))
}

/// Each in whole, its source under it.
#[must_use]
pub fn text(cautions: &[Caution]) -> String {
    let mut text = String::new();
    for caution in cautions {
        let _ = writeln!(text, "  {}", wrapped(caution.whole(), WIDE, 2));
        let source = format!("[{}]", caution.source());
        let _ = writeln!(text, "    {}", wrapped(&source, WIDE, 4));
    }
    text
}

/// As a JSON list.
#[must_use]
pub fn json(cautions: &[Caution]) -> Vec<Value> {
    cautions
        .iter()
        .map(|caution| {
            json!({
                "code": caution.code(),
                "text": caution.whole(),
                "source": caution.source(),
            })
        })
        .collect()
}
