//! What a person should know: the notices of the tank itself, and those of the work on it.

use seamwright_core::advice::caution::Caution;
use seamwright_core::advice::notice::Severity;
use seamwright_core::advice::work::{Work, WorkNotice};
use seamwright_core::arc::duty::Allowed;
use seamwright_core::seam::SeamMark;
use seamwright_core::tank::Tank;
use seamwright_core::units::{CurrentUnit, RatioUnit};

use super::Asked;
use super::model::{Block, Notice, Section, Seen};
use crate::diagnostics::clean;

/// One thing to know.
struct Told {
    /// A stable code for programs.
    code: &'static str,
    /// How much it matters.
    severity: Severity,
    /// A sentence.
    text: String,
    /// Cautions that between them tell the same.
    told_by: &'static [Caution],
}

/// All of a tank: those of the tank itself first.
fn all(asked: &Asked<'_>) -> Vec<Told> {
    let (tank, extras) = (asked.tank, asked.extras);
    let mut all = Vec::new();
    tank.each_notice(|notice| {
        all.push(Told {
            code: notice.code(),
            severity: notice.severity(),
            text: notice.to_string(),
            told_by: notice.told_by(),
        });
    });
    let work = Work {
        equipment: &extras.equipment,
        filler: extras.supply.kit.filler,
        plan: asked.welding.as_ref().ok(),
    };
    tank.each_work_notice(&work, |notice| {
        all.push(Told {
            code: notice.code(),
            severity: notice.severity(),
            text: of_work(tank, &notice),
            told_by: &[],
        });
    });
    all
}

/// All of them; in words only those that these cautions do not tell already.
pub(crate) fn section(asked: &Asked<'_>, cautions: &[Caution]) -> Section {
    let told = |by: &[Caution]| !by.is_empty() && by.iter().all(|one| cautions.contains(one));
    let notice = |one: Told| Notice {
        severity: one.severity,
        text: one.text,
        code: one.code,
        source: None,
        told: told(one.told_by),
    };
    let all = all(asked).into_iter().map(notice).collect();
    let mut section = Section::new("Mind");
    section.add(Block::Notices(Some("notices"), all));
    if let Some(liquid) = asked.tank.job().liquid() {
        section.only(Seen::Sheet);
        section.caution(liquid.caution());
    }
    section
}

/// A notice of the work in a sentence.
fn of_work(tank: &Tank, notice: &WorkNotice) -> String {
    let current = tank.arc().current.display(CurrentUnit::Ampere, 0);
    let percent = |allowed: &Allowed| allowed.duty.display(RatioUnit::Percent, 0);
    match notice {
        WorkNotice::FillerRuledOut { filler, reason } => format!(
            "the filler {filler} that the job names is ruled out for this tank: {reason}; take one of those that the plan ranks"
        ),
        WorkNotice::CurrentPastRating { part, error } => {
            format!("the {} does not carry this arc: {error}", part.name())
        }
        WorkNotice::DutyOverrun {
            busiest,
            allowed,
            stretch,
        } => format!(
            "in the ten minutes from minute {:.0} of the weld plan the arc burns {:.0} s, and at {current} the power source and torch allow {} of ten minutes, {:.0} s: rest longer there, or weld with less current",
            busiest.from.si() / 60.0,
            busiest.burns.si(),
            percent(allowed),
            stretch.si(),
        ),
        WorkNotice::DutyRests { rests, allowed } => format!(
            "at {current} the power source and torch allow the arc {} of any ten minutes: the weld plan waits {:.0} min for them alone; with a higher rating or less current the job is so much shorter",
            percent(allowed),
            rests.si() / 60.0,
        ),
        WorkNotice::AirNeedsWayOut { last } => way_out(tank, *last),
    }
}

/// The last seam shuts the tank, and the air in it is hot.
fn way_out(tank: &Tank, last: Option<SeamMark>) -> String {
    let open: Vec<String> = tank
        .passages()
        .map(|fitting| clean(&fitting.name).into_owned())
        .collect();
    let last = last.map_or_else(String::new, |last| format!(", {last},"));
    let way = match open.as_slice() {
        [] => "and this job names no fitting with a passage: drill the hole of one, or a small hole that is plugged at the end, before the tank is closed".to_owned(),
        [one] => format!("and {one} is the only one: do not plug it"),
        more => format!("so keep one of these unplugged: {}", more.join(", ")),
    };
    format!("the air within needs a way out while the last seam{last} is closed, {way}")
}
