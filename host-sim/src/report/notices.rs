//! What a person should know: the notices of the tank itself, and those that need the weld plan, the equipment or
//! the rod, which only the laptop has.

use seamwright_core::advice::caution::Caution;
use seamwright_core::advice::notice::Severity;
use seamwright_core::arc::duty::{ArcAndRest, PERIOD};
use seamwright_core::input::Face;
use seamwright_core::tank::Tank;
use seamwright_core::units::{CurrentUnit, RatioUnit};
use seamwright_core::weld::WeldPlan;

use super::model::{Block, Notice, Section, Seen};
use super::{Asked, Known, duty};
use crate::diagnostics::clean;
use crate::job_file::Extras;

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
    all.extend(filler(tank, extras));
    all.extend(past_rating(tank, extras));
    if let (Some(run), Ok(plan)) = (duty::run(tank, extras), asked.welding) {
        all.extend(duty_overrun(tank, &run, plan));
        all.extend(duty_rests(tank, &run, plan));
    }
    all.push(closing(tank, asked.welding));
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

/// The rod that the job names must not be used.
fn filler(tank: &Tank, extras: &Extras) -> Option<Told> {
    let own = extras.supply.filler?;
    let verdict = tank.judged(Some(own)).ok()?;
    verdict.ruled_out().then(|| Told {
        code: "filler-ruled-out",
        told_by: &[],
        severity: Severity::Warning,
        text: format!(
            "the filler {own} that the job names is ruled out for this tank: {}; take one of those that the plan ranks",
            verdict.worst().reason
        ),
    })
}

/// The current is more than a plate names.
fn past_rating(tank: &Tank, extras: &Extras) -> Vec<Told> {
    let current = tank.arc().current;
    duty::plates(tank, extras)
        .into_iter()
        .filter_map(|(name, plate, _)| {
            let error = plate.allowed(current).err()?;
            Some(Told {
                code: "current-past-rating",
                told_by: &[],
                severity: Severity::Warning,
                text: format!("the {name} does not carry this arc: {error}"),
            })
        })
        .collect()
}

/// Power source or torch makes the job longer.
fn duty_rests(tank: &Tank, run: &ArcAndRest, plan: &WeldPlan) -> Option<Told> {
    let rests = plan.totals().rests().si() / 60.0;
    (rests >= 0.5).then(|| Told {
        code: "duty-rests",
        told_by: &[],
        severity: Severity::Info,
        text: format!(
            "at {} the power source and torch allow the arc {} of any ten minutes: the weld plan waits {rests:.0} min for them alone; with a higher rating or less current the job is so much shorter",
            tank.arc().current.display(CurrentUnit::Ampere, 0),
            run.allowed.duty.display(RatioUnit::Percent, 0),
        ),
    })
}

/// The plan burns the arc for longer in some ten minutes than power source and torch may.
fn duty_overrun(tank: &Tank, run: &ArcAndRest, plan: &WeldPlan) -> Option<Told> {
    let may = run.stretch.si();
    let arcs = plan.stitches(tank);
    let arcs: Vec<[f64; 2]> = arcs.map(|one| [one.start.si(), one.arc.si()]).collect();
    let (from, burns) = busiest(&arcs, PERIOD.si())?;
    // The plan keeps to it, unless a single stitch is longer.
    (burns > may + 1.0).then(|| Told {
        code: "duty-overrun",
        told_by: &[],
        severity: Severity::Caution,
        text: format!(
            "in the ten minutes from minute {:.0} of the weld plan the arc burns {burns:.0} s, and at {} the power source and torch allow {} of ten minutes, {may:.0} s: rest longer there, or weld with less current",
            from / 60.0,
            tank.arc().current.display(CurrentUnit::Ampere, 0),
            run.allowed.duty.display(RatioUnit::Percent, 0),
        ),
    })
}

/// The stretch of `period` seconds in which the arc burns longest, by its start, and how long that is, in s; of each arc
/// its start and its length. It begins with an arc or ends with one, so no other stretches need be looked at.
fn busiest(arcs: &[[f64; 2]], period: f64) -> Option<(f64, f64)> {
    let ends = |[start, arc]: &[f64; 2]| [*start, start + arc - period];
    let burns = |from: f64| {
        let within = |[start, arc]: &[f64; 2]| {
            let end = (start + arc).min(from + period);
            (end - start.max(from)).max(0.0)
        };
        arcs.iter().map(within).sum::<f64>()
    };
    arcs.iter()
        .flat_map(ends)
        .map(|from| from.max(0.0))
        .map(|from| (from, burns(from)))
        .reduce(|best, other| if other.1 > best.1 { other } else { best })
}

/// The last seam shuts the tank, and the air in it is hot.
fn closing(tank: &Tank, welding: &Known) -> Told {
    let open: Vec<String> = tank
        .job()
        .fittings()
        .iter()
        .filter(|fitting| fitting.bore.si() > 0.0 && !matches!(fitting.face, Face::Baffle(_)))
        .map(|fitting| clean(&fitting.name).into_owned())
        .collect();
    let last = welding.as_ref().ok();
    let last = last.and_then(|plan| plan.stitches(tank).last());
    let last = last.map_or_else(String::new, |last| format!(", {},", last.seam));
    let way = match open.as_slice() {
        [] => "and this job names no fitting with a passage: drill the hole of one, or a small hole that is plugged at the end, before the tank is closed".to_owned(),
        [one] => format!("and {one} is the only one: do not plug it"),
        more => format!("so keep one of these unplugged: {}", more.join(", ")),
    };
    Told {
        code: "air-needs-a-way-out",
        told_by: &[],
        severity: Severity::Caution,
        text: format!("the air within needs a way out while the last seam{last} is closed, {way}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: of arcs 0 to 4, 10 to 16 and 21 to 23, ten seconds hold the second one at most, thirteen from 10 on
    /// the last two, and more than all of them all.
    #[test]
    fn the_busiest_stretch_by_hand() {
        let all = [[0.0, 4.0], [10.0, 6.0], [21.0, 2.0]];
        assert_eq!(busiest(&all, 10.0).map(|(_, burns)| burns), Some(6.0));
        assert_eq!(busiest(&all, 13.0), Some((10.0, 8.0)));
        assert_eq!(busiest(&all, 100.0), Some((0.0, 12.0)));
        assert_eq!(busiest(&[], 10.0), None);
    }
}
