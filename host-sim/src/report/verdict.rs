//! What comes before all else: that a tank cannot be welded as the job says.

use seamwright_core::advice::Advice;
use seamwright_core::advice::work::WorkNotice;
use seamwright_core::heat::BurnThrough;
use seamwright_core::tank::Tank;
use serde_json::{Map, Value, json};

use super::Asked;
use super::model::{Block, Notice, Section};
use super::processed::Processed;

/// The settings burn through the sheet, for certain.
fn burnt(tank: &Tank) -> Option<BurnThrough> {
    tank.burn_through().filter(|burnt| burnt.certain)
}

/// All that stands against it, the worst first.
fn against(asked: &Asked<'_>, processed: &Processed) -> Vec<Advice> {
    let tank = asked.tank;
    let mut all: Vec<Advice> = burnt(tank)
        .map(|burnt| Advice::OfWork(WorkNotice::BurnsThrough(burnt)))
        .into_iter()
        .collect();
    all.extend(processed.against(asked));
    let loose = tank.loose_baffles();
    all.extend(loose.map(|baffle| Advice::OfWork(WorkNotice::BaffleLoose { baffle })));
    all
}

/// The same for programs.
fn told(tank: &Tank, code: &str) -> Value {
    let mut told = Map::new();
    let mut put = |key: &str, value: Value| {
        told.insert(key.to_owned(), value);
    };
    put("says", json!("NO"));
    put("code", json!(code));
    if let Some(burnt) = burnt(tank) {
        put("molten_width_m", json!(burnt.band.si()));
        put("molten_width_most_m", json!(burnt.limit.si()));
        put("uptake", json!(burnt.uptake.si()));
    }
    let loose: Vec<u8> = tank.loose_baffles().collect();
    if !loose.is_empty() {
        put("loose_baffles", json!(loose));
    }
    Value::Object(told)
}

/// Nothing where nothing stands against it.
pub(crate) fn section(asked: &Asked<'_>, processed: &Processed) -> Option<Section> {
    let tank = asked.tank;
    let notices: Vec<Notice> = against(asked, processed)
        .iter()
        .map(|advice| Notice {
            severity: advice.severity(),
            text: advice.about(tank).to_string(),
            source: advice.source(),
            code: advice.code(),
            told: false,
        })
        .collect();
    let told = told(tank, notices.first()?.code);
    let mut section = Section::new("Verdict");
    section.add(Block::Notices(None, notices));
    section.put("verdict", told);
    Some(section)
}

/// What stands over an order of welding that is not to be welded.
pub(super) fn over_the_order(asked: &Asked<'_>, processed: &Processed) -> Option<&'static str> {
    Some(match against(asked, processed).into_iter().next()? {
        Advice::OfWork(WorkNotice::BurnsThrough(_)) => {
            "NO: not to be welded so. These settings burn through the sheet (see the verdict); the order is what they would take of time and waits."
        }
        Advice::OfProcess(_) => {
            "NO: not to be welded so. Process, gas or coating forbids it (see the verdict); the order is what it would take of time and waits."
        }
        _ => {
            "NO: not to be built so. Nothing holds a baffle (see the verdict); the order leaves it out."
        }
    })
}
