//! How long the arc may burn at a stretch.

use seamwright_core::arc::duty::{Allowed, Basis, Plate, Run, allowed_by_all};
use seamwright_core::tank::Tank;
use seamwright_core::units::{RatioUnit, Time, TimeUnit};
use serde_json::{Map, Value, json};

use super::plan::facts;
use crate::job_file::Extras;

const fn basis(basis: Basis) -> &'static str {
    match basis {
        Basis::Plate => "from its ratings",
        Basis::SquareLaw => "by the square law from its nearest rating",
        Basis::Continuous => "all the time",
    }
}

/// The arc time of the whole job, tacks with it.
pub(super) fn burning(tank: &Tank) -> Time {
    let times = tank.seams().filter_map(|seam| tank.seam_time(&seam));
    Time::from_seconds(times.map(|time| time.burning().si()).sum())
}

/// The plates that there are, by name; whether the torch's was taken down for alternating current.
pub(super) fn plates(tank: &Tank, extras: &Extras) -> Vec<(&'static str, Plate, bool)> {
    let source = extras.power_source.clone();
    let torch = extras.torch.on(tank.arc().process);
    let source = source.map(|plate| ("power source", plate, false));
    let torch = torch.map(|(plate, reduced)| ("torch", plate, reduced));
    source.into_iter().chain(torch).collect()
}

/// Arc and rest of the whole job; `None` without ratings, or where the current is past them.
pub(super) fn run(tank: &Tank, extras: &Extras) -> Option<Run> {
    let plates = plates(tank, extras);
    let all: Vec<&Plate> = plates.iter().map(|(_, plate, _)| plate).collect();
    let allowed = allowed_by_all(&all, tank.arc().current).ok()?;
    Run::of(allowed, burning(tank)).ok()
}

pub(super) fn text(tank: &Tank, extras: &Extras) -> String {
    let mut rows = Vec::new();
    let percent = |allowed: &Allowed| {
        format!(
            "{} of ten minutes",
            allowed.duty.display(RatioUnit::Percent, 0)
        )
    };
    for (name, plate, reduced) in plates(tank, extras) {
        let mut says = match plate.allowed(tank.arc().current) {
            Ok(allowed) => format!("{}, {}", percent(&allowed), basis(allowed.basis)),
            Err(error) => error.to_string(),
        };
        if reduced {
            says.push_str("; rated on DC, taken at 70 % of that on AC (from memory)");
        }
        rows.push((name, says));
    }
    if let Some(run) = run(tank, extras) {
        let minutes = |time: Time| time.display(TimeUnit::Minute, 1).to_string();
        rows.push(("arc in all", format!("{}, tacks with it", minutes(run.arc))));
        if run.rests > 0 {
            rows.push((
                "at a stretch",
                format!(
                    "{}, then {} of rest",
                    minutes(run.stretch),
                    minutes(run.pause)
                ),
            ));
            let rests = format!(
                "{} in {}; waits for the metal to cool count as rest",
                minutes(run.rest),
                run.rests
            );
            rows.push(("rests in all", rests));
        } else {
            rows.push(("rests", "none asked for".to_owned()));
        }
    }
    facts(&rows)
}

pub(super) fn json(tank: &Tank, extras: &Extras) -> Value {
    let mut map = Map::new();
    map.insert("arc_s".to_owned(), json!(burning(tank).si()));
    for (name, plate, reduced) in plates(tank, extras) {
        let mut one = json!({ "most_a": plate.most().si(), "reduced_for_ac": reduced });
        if let Some(one) = one.as_object_mut() {
            match plate.allowed(tank.arc().current) {
                Ok(allowed) => {
                    one.insert("duty".to_owned(), json!(allowed.duty.si()));
                    one.insert("basis".to_owned(), json!(basis(allowed.basis)));
                }
                Err(error) => {
                    one.insert("refused".to_owned(), json!(error.to_string()));
                }
            }
        }
        map.insert(name.replace(' ', "_"), one);
    }
    if let Some(run) = run(tank, extras) {
        for (key, value) in [
            ("duty", run.allowed.duty.si()),
            ("stretch_s", run.stretch.si()),
            ("pause_s", run.pause.si()),
            ("rest_s", run.rest.si()),
        ] {
            map.insert(key.to_owned(), json!(value));
        }
        map.insert("rests".to_owned(), json!(run.rests));
    }
    Value::Object(map)
}
