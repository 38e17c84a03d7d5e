//! Which filler, and why.

use std::fmt::Write as _;

use seamwright_core::filler::{Criterion, Finding, Mark, Reason, Verdict, WARM};
use seamwright_core::tables::Family;
use seamwright_core::tank::Tank;
use seamwright_core::units::TemperatureUnit;
use serde_json::{Value, json};

use super::Units;
use super::cited::Cited;
use super::table::wrapped;
use crate::job_file::Extras;

/// How many of the best are shown.
const BEST: usize = 3;
/// Signs in a line.
const WIDE: usize = 100;

pub(super) const fn mark_name(mark: Mark) -> &'static str {
    match mark {
        Mark::RuledOut => "ruled out",
        Mark::Poor => "poor",
        Mark::Fair => "fair",
        Mark::Good => "good",
    }
}

pub(super) fn name(verdict: &Verdict) -> &'static str {
    verdict.filler.map_or("no rod", |filler| filler.name())
}

/// Whether a finding tells something: not that nothing was asked, or that a rule is of another metal.
fn tells(finding: Finding) -> bool {
    !matches!(finding.reason, Reason::NotAsked | Reason::OtherSteels)
}

/// Of another family of metals: not worth a line.
fn of_another_metal(verdict: &Verdict) -> bool {
    verdict.worst().reason == Reason::OtherMetal
}

/// Seams of thin corners that are often fused without rod.
fn fused(tank: &Tank) -> usize {
    tank.seams().filter(|seam| tank.may_be_fused(seam)).count()
}

pub(super) fn text(tank: &Tank, extras: &Extras, units: Units, cited: &mut Cited) -> String {
    let Ok(all) = tank.fillers() else {
        return String::new();
    };
    let mut out = String::new();
    let _ = writeln!(out, "  {}", asked(tank, units));
    for verdict in all.iter().filter(|one| !one.ruled_out()).take(BEST) {
        let _ = writeln!(out, "  {}, {} points of 33", name(verdict), verdict.score());
        for (criterion, finding) in verdict.each().filter(|(_, finding)| tells(*finding)) {
            reason(&mut out, criterion, finding, cited);
        }
    }
    if let Some(own) = extras.supply.filler
        && let Ok(verdict) = tank.judged(Some(own))
    {
        let worst = verdict.worst();
        let line = format!(
            "your {}: {}, {} {}",
            own,
            mark_name(worst.mark),
            worst.reason,
            cited.mark(worst.reason.source().text())
        );
        let _ = writeln!(out, "  {}", wrapped(&line, WIDE, 4));
    }
    for verdict in all
        .iter()
        .filter(|one| one.ruled_out() && !of_another_metal(one))
    {
        let worst = verdict.worst();
        let line = format!(
            "{}: {} {}",
            verdict.filler.map_or_else(
                || "not without rod".to_owned(),
                |filler| format!("not {filler}")
            ),
            worst.reason,
            cited.mark(worst.reason.source().text())
        );
        let _ = writeln!(out, "  {}", wrapped(&line, WIDE, 4));
    }
    if let (count @ 1.., Ok(verdict)) = (fused(tank), tank.judged(None)) {
        let worst = verdict.worst();
        let line = format!(
            "{count} thin corners may be fused without rod as far as their form goes; this sheet so: {}, {} {}",
            mark_name(worst.mark),
            worst.reason,
            cited.mark(worst.reason.source().text())
        );
        let _ = writeln!(out, "  {}", wrapped(&line, WIDE, 4));
    }
    let _ = writeln!(
        out,
        "  A choice among names, and no procedure: where a code or a class covers the tank, its procedure decides."
    );
    out
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

fn reason(out: &mut String, criterion: Criterion, finding: Finding, cited: &mut Cited) {
    let why = format!(
        "{} {}",
        finding.reason,
        cited.mark(finding.reason.source().text())
    );
    let why = wrapped(&why, WIDE - 23, 0).replace('\n', &format!("\n{:23}", ""));
    let _ = writeln!(
        out,
        "    {:<12} {:<5} {why}",
        criterion.name(),
        mark_name(finding.mark)
    );
}

pub(super) fn json(tank: &Tank, extras: &Extras) -> Value {
    let Ok(all) = tank.fillers() else {
        return json!({});
    };
    let mut object = json!({
        "alloy": tank.job().alloy().name(),
        "anodised": tank.job().service().anodised,
        "ranked": all.iter().filter(|one| !of_another_metal(one)).map(verdict_json).collect::<Vec<_>>(),
        "seams_often_fused": fused(tank),
    });
    if let Some(map) = object.as_object_mut() {
        if let Some(at) = tank.warmest() {
            map.insert(
                "service_c".to_owned(),
                json!(at.in_unit(TemperatureUnit::Celsius)),
            );
        }
        if let Some(own) = extras.supply.filler
            && let Ok(verdict) = tank.judged(Some(own))
        {
            map.insert("own".to_owned(), verdict_json(&verdict));
        }
    }
    object
}

fn verdict_json(verdict: &Verdict) -> Value {
    let findings: Vec<Value> = verdict
        .each()
        .map(|(criterion, finding)| {
            json!({
                "criterion": criterion.name(),
                "mark": mark_name(finding.mark),
                "reason": finding.reason.text(),
                "source": finding.reason.source().text(),
            })
        })
        .collect();
    let mut object = json!({
        "filler": name(verdict),
        "ruled_out": verdict.ruled_out(),
        "score": verdict.score(),
        "findings": findings,
    });
    if let (Some(map), Some(metal)) = (object.as_object_mut(), verdict.weld_metal) {
        map.insert(
            "weld_metal".to_owned(),
            json!({ "magnesium": metal.magnesium.si(), "silicon": metal.silicon.si() }),
        );
    }
    object
}
