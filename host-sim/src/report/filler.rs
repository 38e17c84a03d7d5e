//! Which filler, and why.

use seamwright_core::filler::{Criterion, FillerReason, FillerVerdict, Finding, Mark, WARM};
use seamwright_core::tables::{Family, Process};
use seamwright_core::tank::Tank;
use seamwright_core::units::TemperatureUnit;
use serde_json::{Value, json};

use super::Units;
use super::cited::Cited;
use super::kit::classified;
use super::model::Section;
use super::render::text::hanging;
use crate::job_file::Extras;

/// How many of the best are shown.
const BEST: usize = 3;

const fn mark_name(mark: Mark) -> &'static str {
    match mark {
        Mark::RuledOut => "ruled out",
        Mark::Poor => "poor",
        Mark::Fair => "fair",
        Mark::Good => "good",
    }
}

fn name(verdict: &FillerVerdict) -> &'static str {
    verdict.filler.map_or("no rod", |filler| filler.name())
}

pub(super) fn section(tank: &Tank, extras: &Extras, units: Units, cited: &mut Cited) -> Section {
    let mut section = Section::new("Filler").at(&["filler"]);
    let Ok(all) = tank.fillers() else {
        return section;
    };
    let mut why = |reason: FillerReason| format!("{reason} {}", cited.mark(reason.source().text()));
    let process = tank.arc().process;
    section.unbroken(asked(tank, units));
    for verdict in all.iter().filter(|one| !one.ruled_out()).take(BEST) {
        section.unbroken(format!(
            "{}, {} points of 33",
            name(verdict),
            verdict.score()
        ));
        if let Some(filler) = verdict.filler {
            let by = filler.classified(process);
            section.unbroken(format!("  {} (from memory)", classified(&by)));
        }
        for (criterion, finding) in verdict.each().filter(|(_, finding)| finding.tells()) {
            let mark = mark_name(finding.mark);
            let why = hanging(&why(finding.reason), 23);
            section.unbroken(format!("  {:<12} {mark:<5} {why}", criterion.name()));
        }
    }
    let own = extras.supply.kit.filler;
    if let Some((own, verdict)) = own.and_then(|own| Some((own, tank.judged(Some(own)).ok()?))) {
        let worst = verdict.worst();
        let mark = mark_name(worst.mark);
        section.line(format!("your {own}: {mark}, {}", why(worst.reason)));
        section.put("own", judged(&verdict, process));
    }
    let out = all.iter().filter(|one| one.ruled_out());
    for verdict in out.filter(|one| !one.is_out_of_place()) {
        let what = match verdict.filler {
            Some(filler) => format!("not {filler}"),
            None => "not without rod".to_owned(),
        };
        section.line(format!("{what}: {}", why(verdict.worst().reason)));
    }
    // Seams of thin corners that are often fused without rod.
    let fused = if process.feeds_wire() {
        0
    } else {
        tank.seams_often_fused()
    };
    if let (1.., Ok(verdict)) = (fused, tank.judged(None)) {
        let worst = verdict.worst();
        section.line(format!(
            "{fused} thin corners may be fused without rod as far as their form goes; this sheet so: {}, {}",
            mark_name(worst.mark),
            why(worst.reason)
        ));
    }
    section.unbroken(
        "A choice among names, and no procedure: where a code or a class covers the tank, its procedure decides.",
    );
    let ranked = all
        .iter()
        .filter(|one| !one.is_out_of_place())
        .map(|one| judged(one, process));
    section.put("alloy", tank.job().alloy().name());
    section.put("anodised", tank.job().service().anodised);
    section.put("ranked", ranked.collect::<Value>());
    section.put("seams_often_fused", fused);
    if let Some(at) = tank.warmest() {
        section.put("service_c", at.in_unit(TemperatureUnit::Celsius));
    }
    section
}

/// What the fillers were judged for.
fn asked(tank: &Tank, units: Units) -> String {
    let service = match tank.warmest() {
        Some(at) => format!("service at up to {}", units.temperature(at)),
        None if tank.job().alloy().family() == Family::Aluminium => format!(
            "a service whose temperature the job does not say: above {} the order changes",
            units.temperature(WARM.value)
        ),
        None => "no service temperature told".to_owned(),
    };
    let anodised = if tank.job().service().anodised {
        ", anodised after welding"
    } else {
        ""
    };
    format!("{} to itself, {service}{anodised}", tank.job().alloy())
}

/// A verdict for programs, with all that was found.
fn judged(verdict: &FillerVerdict, process: Process) -> Value {
    let found = |(criterion, finding): (Criterion, Finding)| {
        json!({
            "criterion": criterion.name(),
            "mark": mark_name(finding.mark),
            "reason": finding.reason.text(),
            "source": finding.reason.source().text(),
        })
    };
    let mut object = json!({
        "filler": name(verdict),
        "ruled_out": verdict.ruled_out(),
        "score": verdict.score(),
        "findings": verdict.each().map(found).collect::<Value>(),
    });
    if let (Some(map), Some(filler)) = (object.as_object_mut(), verdict.filler) {
        let by = filler.classified(process);
        map.insert("en_iso".to_owned(), json!(by.en_iso));
        map.insert("aws".to_owned(), json!(by.aws));
    }
    if let (Some(map), Some(metal)) = (object.as_object_mut(), verdict.weld_metal) {
        map.insert(
            "weld_metal".to_owned(),
            json!({ "magnesium": metal.magnesium.si(), "silicon": metal.silicon.si() }),
        );
    }
    object
}
