//! How long the arc may burn at a stretch.

use seamwright_core::arc::duty::{Allowed, ArcAndRest, DutyBasis, RatingPlate, allowed_by_all};
use seamwright_core::tank::Tank;
use seamwright_core::units::{RatioUnit, Time, TimeUnit};

use super::model::{Cell, Section, said, word};
use crate::job_file::Extras;

const fn basis(basis: DutyBasis) -> &'static str {
    match basis {
        DutyBasis::Plate => "from its ratings",
        DutyBasis::SquareLaw => "by the square law from its nearest rating",
        DutyBasis::Continuous => "all the time",
    }
}

/// The arc time of the whole job, tacks with it.
fn burning(tank: &Tank) -> Time {
    let times = tank.seams().filter_map(|seam| tank.seam_time(&seam));
    Time::from_seconds(times.map(|time| time.burning().si()).sum())
}

/// The plates that there are, by name; whether the torch's was taken down for alternating current.
pub(super) fn plates(tank: &Tank, extras: &Extras) -> Vec<(&'static str, RatingPlate, bool)> {
    let source = extras.power_source.clone();
    let torch = extras.torch.on(tank.arc().process);
    let source = source.map(|plate| ("power source", plate, false));
    let torch = torch.map(|(plate, reduced)| ("torch", plate, reduced));
    source.into_iter().chain(torch).collect()
}

/// What all that is rated lets the arc do; `None` without ratings, or where the current is past them.
fn allowed(tank: &Tank, extras: &Extras) -> Option<Allowed> {
    let plates = plates(tank, extras);
    let all: Vec<&RatingPlate> = plates.iter().map(|(_, plate, _)| plate).collect();
    allowed_by_all(&all, tank.arc().current).ok()
}

/// Arc and rest of the whole job.
pub(super) fn run(tank: &Tank, extras: &Extras) -> Option<ArcAndRest> {
    ArcAndRest::of(allowed(tank, extras)?, burning(tank)).ok()
}

pub(super) fn section(tank: &Tank, extras: &Extras) -> Section {
    let mut section = Section::new("Duty cycle").at(&["duty"]);
    section.put("arc_s", burning(tank).si());
    for (name, plate, reduced) in plates(tank, extras) {
        let says = rating(tank, &plate, reduced);
        section.fact(name, says.under(&name.replace(' ', "_")));
    }
    if let Some(run) = run(tank, extras) {
        rests(&mut section, &run);
    }
    section
}

/// What a plate allows.
fn rating(tank: &Tank, plate: &RatingPlate, reduced: bool) -> Cell {
    let mut says = match plate.allowed(tank.arc().current) {
        Ok(allowed) => {
            let percent = allowed.duty.display(RatioUnit::Percent, 0);
            let basis = basis(allowed.basis);
            said(format!("{percent} of ten minutes, {basis}"))
                .data("duty", allowed.duty.si())
                .data("basis", basis)
        }
        Err(error) => word("refused", error),
    };
    if reduced {
        says.text
            .push_str("; rated on DC, taken at 70 % of that on AC (from memory)");
    }
    says.data("most_a", plate.most().si())
        .data("reduced_for_ac", reduced)
}

fn rests(section: &mut Section, run: &ArcAndRest) {
    let minutes = |time: Time| time.display(TimeUnit::Minute, 1);
    section.fact("arc in all", format!("{}, tacks with it", minutes(run.arc)));
    let (stretch, pause, rest) = (minutes(run.stretch), minutes(run.pause), minutes(run.rest));
    if run.rests > 0 {
        let rests = format!(
            "{rest} in {}; waits for the metal to cool count as rest",
            run.rests
        );
        section.fact("at a stretch", format!("{stretch}, then {pause} of rest"));
        section.fact("rests in all", rests);
    } else {
        section.fact("rests", "none asked for");
    }
    section.put("duty", run.allowed.duty.si());
    section.put("stretch_s", run.stretch.si());
    section.put("pause_s", run.pause.si());
    section.put("rest_s", run.rest.si());
    section.put("rests", run.rests);
}
