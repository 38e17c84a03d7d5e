//! What may hurt someone, in whole and with its source: shown before any pressure is named.

use seamwright_core::advice::caution::{
    Caution, Cautions, always, for_alloy, for_leak_test, for_liquid,
};
use seamwright_core::advice::notice::Severity;
use seamwright_core::leak::{LeakRule, Method};
use seamwright_core::tank::Tank;

use super::model::{Block, Notice, Section};

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
pub(crate) fn of(tank: &Tank) -> Vec<Caution> {
    let job = tank.job();
    let test = match tank.leak_plan(LeakRule::default()) {
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
pub(super) fn of_test(tank: &Tank, methods: &[Method]) -> Vec<Caution> {
    let liquid = tank.job().liquid().map(for_liquid);
    gather(methods.iter().copied().map(for_leak_test).chain(liquid))
}

/// Each in whole, with its source.
pub(crate) fn section(cautions: &[Caution]) -> Section {
    let notice = |caution: &Caution| Notice {
        severity: match caution {
            Caution::LocalCode
            | Caution::FuelUs
            | Caution::FuelEu
            | Caution::FuelUk
            | Caution::DrinkingWater => Severity::Caution,
            _ => Severity::Warning,
        },
        text: caution.whole().to_owned(),
        source: Some(caution.source()),
        code: caution.code(),
        told: false,
    };
    let all = cautions.iter().map(notice).collect();
    let mut section = Section::new("Cautions");
    section.add(Block::Notices(Some("cautions"), all));
    section
}
