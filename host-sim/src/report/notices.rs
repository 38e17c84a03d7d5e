//! What a person should know: what may hurt someone, and what to mind of the tank and of the work on it.

use std::cmp::Reverse;

use seamwright_core::advice::Advice;
use seamwright_core::advice::caution::Caution;
use seamwright_core::advice::work::Work;
use seamwright_core::strength::Trial;
use seamwright_core::tank::Tank;

use super::Asked;
use super::drawn::Drawn;
use super::model::{Block, Notice, Section};
use super::processed::Processed;
use super::stands::Stands;
use crate::diagnostics::clean;

/// A row of one advice, shown beside these cautions.
fn row(advice: &Advice, tank: &Tank, beside: &[Caution]) -> Notice {
    Notice {
        severity: advice.severity(),
        // Names of fittings stand in some, and a job file may hold any sign.
        text: clean(&advice.about(tank).to_string()).into_owned(),
        source: advice.source(),
        code: advice.code(),
        told: advice.is_told_by(beside),
    }
}

/// What may hurt someone, each in whole and with its source: shown before any pressure is named.
pub(crate) fn dangers(tank: &Tank, cautions: &[Caution]) -> Section {
    let rows = cautions
        .iter()
        .map(|one| row(&Advice::Danger(*one), tank, &[]));
    let mut section = Section::new("Cautions");
    section.add(Block::Notices(Some("cautions"), rows.collect()));
    section
}

/// All that is to be minded besides; in words only what these cautions do not tell already.
pub(crate) fn section(
    asked: &Asked<'_>,
    drawn: Option<&Drawn<'_>>,
    processed: &Processed,
    stands: Option<&Stands>,
    cautions: &[Caution],
) -> Section {
    let (tank, extras) = (asked.tank, asked.extras);
    let bears = tank.joined_walls(Trial::Use);
    let work = Work {
        equipment: &extras.equipment,
        filler: extras.supply.kit.filler,
        plan: asked.welding.as_ref().ok(),
        left_free: asked.left_free,
        reach: drawn.map(|drawn| &*drawn.reach),
        process: processed.work(asked),
        bears: Some(bears.as_ref().map_err(|error| *error)),
        stands: stands.map(|stands| stands.as_ref().map_err(|error| *error)),
    };
    let mut rows = Vec::new();
    tank.each_advice(&work, |advice| match advice {
        Advice::Danger(_) => (),
        Advice::OfTank(_)
        | Advice::OfLiquid(_)
        | Advice::OfStand(_)
        | Advice::OfWork(_)
        | Advice::OfProcess(_) => rows.push(row(&advice, tank, cautions)),
    });
    // What forbids comes first, whatever it is about.
    rows.sort_by_key(|row| Reverse(row.severity));
    let mut section = Section::new("Mind");
    section.add(Block::Notices(Some("notices"), rows));
    if let Some(liquid) = tank.job().liquid() {
        section.caution(liquid.caution());
    }
    section
}
