//! How long the arc may burn at a stretch.

use seamwright_core::arc::RatedPlate;
use seamwright_core::arc::duty::{ArcAndRest, DutyBasis};
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

pub(super) fn section(tank: &Tank, extras: &Extras) -> Section {
    let mut section = Section::new("Duty cycle").at(&["duty"]);
    section.put("arc_s", tank.arc_time().si());
    for rated in extras.equipment.rated(tank.arc().process) {
        let name = rated.part.name();
        let says = rating(tank, &rated);
        section.fact(name, says.under(&name.replace(' ', "_")));
    }
    if let Some(run) = tank.arc_and_rest(&extras.equipment) {
        rests(&mut section, &run);
    }
    section
}

/// What a plate allows.
fn rating(tank: &Tank, rated: &RatedPlate) -> Cell {
    let mut says = match rated.plate.allowed(tank.arc().current) {
        Ok(allowed) => {
            let percent = allowed.duty.display(RatioUnit::Percent, 0);
            let basis = basis(allowed.basis);
            said(format!("{percent} of ten minutes, {basis}"))
                .data("duty", allowed.duty.si())
                .data("basis", basis)
        }
        Err(error) => word("refused", error),
    };
    if rated.reduced_for_ac {
        says.text
            .push_str("; rated on DC, taken at 70 % of that on AC (from memory)");
    }
    says.data("most_a", rated.plate.most().si())
        .data("reduced_for_ac", rated.reduced_for_ac)
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
