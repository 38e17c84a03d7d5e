//! Argon behind the seams.

use seamwright_core::purge::{PurgeAssumed, PurgeRoom, RULE_OF_CHANGES};
use seamwright_core::tank::Tank;
use seamwright_core::units::{Ratio, RatioUnit, Time, TimeUnit};
use serde_json::{Value, json};

use super::Units;
use super::cited::Cited;
use super::model::{Section, Table, left, right, said};
use super::processed::Processed;
use crate::diagnostics::clean;

const DILUTION: &str = "own formula: gas that mixes well, c = 20.95 % exp(-Q t / V); still argon from below is quicker";
const TEXTBOOK: &str = "a textbook on backing gas (read): four times the volume as a rule of thumb";
const CLEANING: &str = "ASTM A380 and A967 (named only)";

fn minutes(time: Time) -> String {
    time.display(TimeUnit::Minute, 1).to_string()
}

fn percent(share: Ratio) -> String {
    share.display(RatioUnit::Percent, 2).to_string()
}

/// Nothing where the job plans no purge.
pub(crate) fn section(
    tank: &Tank,
    processed: &Processed,
    units: Units,
    cited: &mut Cited,
) -> Option<Section> {
    let purge = processed.purge.as_ref()?;
    let mut section = Section::new("Back purge").at(&["purge"]);
    let rows = purge
        .rooms
        .iter()
        .zip(1..)
        .map(|(room, number)| row(tank, room, number, units));
    let columns = [
        right("compartment"),
        right("holds"),
        left("argon in, low"),
        left("air out, high"),
        left("open to"),
    ];
    section.table(Table::new(columns, rows));
    let before = said(format!(
        "{} at {}: {:.1} changes of {}, which leave {} of oxygen {}",
        minutes(purge.time),
        units.flow(purge.flow),
        purge.changes,
        units.volume(purge.volume),
        percent(purge.oxygen),
        cited.mark(DILUTION)
    ))
    .data("time_s", purge.time.si())
    .data("flow_m3_s", purge.flow.si())
    .data("changes", purge.changes)
    .data("volume_m3", purge.volume.si())
    .data("oxygen", purge.oxygen.si());
    section.fact("before the first seam", before);
    let rule = said(format!(
        "{RULE_OF_CHANGES:.0} changes, which by the same formula leave {} {}",
        percent(purge.by_rule),
        cited.mark(TEXTBOOK)
    ));
    section.fact(
        "rule of thumb",
        rule.data("oxygen_by_rule", purge.by_rule.si()),
    );
    let held = said(format!(
        "{} for {} of welding; it is kept until the seam is no longer hot",
        units.flow(purge.hold_flow),
        minutes(purge.held)
    ))
    .data("hold_flow_m3_s", purge.hold_flow.si())
    .data("held_s", purge.held.si());
    section.fact("while seams are welded", held);
    let gas = said(format!(
        "{}, {} of it before the first seam; it is in the bill",
        units.gas(purge.gas()),
        units.gas(purge.before)
    ))
    .data("gas_m3", purge.gas().si())
    .data("gas_before_m3", purge.before.si());
    section.fact("purge gas", gas);
    let clean = said(format!(
        "brush off what is blue or darker, then pickle and passivate {}; by whoever is trained for it, as the makers of the chemicals say",
        cited.mark(CLEANING)
    ));
    section.fact("cleaning after", clean.data("cleaning", CLEANING));
    section.line(
        "Tape the joints that are not welded yet, and take off only what is welded next. Seams welded before the tank is closed have no room to fill: give those a trailing shield or a backing bar. A meter for oxygen says more than any formula.",
    );
    let assumed: Vec<String> = purge
        .assumed
        .iter()
        .map(|one| format!("{}: {}", one.key(), one.source()))
        .collect();
    if !assumed.is_empty() {
        section.line(format!("Not in [purge], so taken: {}.", assumed.join("; ")));
    }
    let unsaid = |one: &PurgeAssumed| json!({ "key": one.key(), "source": one.source() });
    section.put(
        "assumed",
        purge.assumed.iter().map(unsaid).collect::<Value>(),
    );
    section.put(
        "compartments",
        purge
            .rooms
            .iter()
            .map(|room| object(tank, room))
            .collect::<Value>(),
    );
    Some(section)
}

/// A fitting by its name.
fn fitting(tank: &Tank, number: Option<u8>) -> Option<String> {
    let place = usize::from(number?.checked_sub(1)?);
    let fitting = tank.fittings().nth(place)?;
    Some(clean(fitting.name()).into_owned())
}

/// The compartments that one is open to, counted from 1.
fn neighbours(room: &PurgeRoom) -> Vec<u8> {
    room.open_to
        .iter()
        .map(|one| one.saturating_add(1))
        .collect()
}

fn row(tank: &Tank, room: &PurgeRoom, number: u8, units: Units) -> [super::model::Cell; 5] {
    let open: Vec<String> = neighbours(room).iter().map(u8::to_string).collect();
    let inlet = fitting(tank, room.inlet).unwrap_or_else(|| "through its neighbour".to_owned());
    let outlet = fitting(tank, room.outlet).unwrap_or_else(|| {
        if open.is_empty() {
            "none beside that".to_owned()
        } else {
            "through its neighbour".to_owned()
        }
    });
    [
        number.to_string(),
        units.volume(room.volume),
        inlet,
        outlet,
        open.join(" "),
    ]
    .map(said)
}

fn object(tank: &Tank, room: &PurgeRoom) -> Value {
    let mut told = json!({
        "volume_m3": room.volume.si(),
        "open_to": neighbours(room),
        "flushed": room.is_flushed(),
    });
    if let Some(map) = told.as_object_mut() {
        for (key, number) in [("inlet", room.inlet), ("outlet", room.outlet)] {
            if let Some(name) = fitting(tank, number) {
                map.insert(key.to_owned(), name.into());
            }
        }
    }
    told
}
