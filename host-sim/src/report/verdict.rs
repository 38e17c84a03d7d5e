//! What comes before all else: that a tank cannot be welded as the job says.

use seamwright_core::advice::Advice;
use seamwright_core::advice::work::WorkNotice;
use seamwright_core::heat::BurnThrough;
use seamwright_core::tank::Tank;
use serde_json::json;

use super::model::{Block, Notice, Section};

/// The settings burn through the sheet, for certain.
fn burnt(tank: &Tank) -> Option<BurnThrough> {
    tank.burn_through().filter(|burnt| burnt.certain)
}

/// Nothing where nothing stands against it.
pub(crate) fn section(tank: &Tank) -> Option<Section> {
    let burnt = burnt(tank)?;
    let advice = Advice::OfWork(WorkNotice::BurnsThrough(burnt));
    let mut section = Section::new("Verdict");
    let notice = Notice {
        severity: advice.severity(),
        text: advice.about(tank).to_string(),
        source: advice.source(),
        code: advice.code(),
        told: false,
    };
    section.add(Block::Notices(None, vec![notice]));
    let told = json!({
        "says": "NO",
        "code": advice.code(),
        "molten_width_m": burnt.band.si(),
        "molten_width_most_m": burnt.limit.si(),
        "uptake": burnt.uptake.si(),
    });
    section.put("verdict", told);
    Some(section)
}

/// What stands over an order of welding that is not to be welded.
pub(super) fn over_the_order(tank: &Tank) -> Option<&'static str> {
    burnt(tank).map(|_| {
        "NO: not to be welded so. These settings burn through the sheet (see the verdict); the order is what they would take of time and waits."
    })
}
