//! How baffles and the body's own legs part the inside, and what each part keeps from the pick-up.

use seamwright_core::compartment::{Compartment, DoorKind, Way};
use seamwright_core::tank::Kept;
use seamwright_core::units::{AngleUnit, Length};
use serde_json::{Value, json};

use super::Units;
use super::drawn::Drawn;
use super::model::{Section, Table, left, right, said};

/// The compartments; in words only where there are several.
pub(crate) fn section(drawn: &Drawn<'_>, units: Units) -> Section {
    let reach = &drawn.reach;
    let all = reach.compartments();
    let mut level = Vec::new();
    reach.each_kept_level(|kept| level.push(kept));
    let lean = drawn.worst.map(|worst| worst.least.lean);
    let mut leaning = Vec::new();
    if let Some(lean) = lean {
        reach.each_kept_leaning(lean, |kept| leaning.push(kept));
    }
    let mut section = Section::new("Compartments");
    let rooms: Vec<Compartment> = (0..all.count())
        .filter_map(|place| all.compartment(place))
        .collect();
    section.put(
        "compartments",
        rooms
            .iter()
            .enumerate()
            .map(|(place, room)| object(drawn, place, room, level.get(place), leaning.get(place)))
            .collect::<Value>(),
    );
    if rooms.len() < 2 {
        return section;
    }
    let rows = rooms.iter().enumerate().map(|(place, room)| {
        let kept = |all: &[Kept]| {
            all.get(place)
                .map_or_else(String::new, |kept| units.volume(kept.volume))
        };
        [
            (place + 1).to_string(),
            units.volume(room.volume),
            drains_to(drawn, place),
            kept(&level),
            kept(&leaning),
        ]
        .map(said)
    });
    let columns = [
        left("compartment"),
        right("holds"),
        left("drains to"),
        right("keeps"),
        right("keeps, leaning"),
    ];
    section.table(Table::new(columns, rows));
    for (place, room) in rooms.iter().enumerate() {
        let ways: Vec<String> = all
            .ways(place)
            .map(|opening| way(&opening, units))
            .collect();
        let ways = if ways.is_empty() {
            "nothing".to_owned()
        } else {
            ways.join("; ")
        };
        section.line(format!(
            "{}: {}; opens to {ways}",
            place + 1,
            lies(&room.low, &room.high, units)
        ));
    }
    for kept in level.iter().filter(|kept| kept.pooled.si() > 0.0) {
        section.line(pool(drawn, kept, units));
    }
    if let Some(lean) = lean {
        section.line(format!(
            "leaning: at pitch {}, roll {}, where least can be drawn, each taken to be as full as it can be there",
            lean.pitch().display(AngleUnit::Degree, 1),
            lean.roll().display(AngleUnit::Degree, 1)
        ));
    }
    section
}

/// What does not reach the pick-up from one compartment, and why.
fn pool(drawn: &Drawn<'_>, kept: &Kept, units: Units) -> String {
    let place = kept.compartment;
    let why = match drawn.reach.drains_to(place) {
        Some(_) => "it would have to rise to get to the pick-up",
        None if drawn.reach.drawn_from().contains(&place) => {
            "part of this compartment lies beyond a sill"
        }
        None => "no way leads from there to the pick-up",
    };
    format!(
        "{} above the level of the pick-up stay in compartment {}, {}: {why}",
        units.volume(kept.pooled),
        place + 1,
        lies(&kept.low, &kept.high, units)
    )
}

fn drains_to(drawn: &Drawn<'_>, place: usize) -> String {
    if drawn.reach.drawn_from().contains(&place) {
        return "pick-up".to_owned();
    }
    match drawn.reach.drains_to(place) {
        Some(next) => (next + 1).to_string(),
        None => "nothing".to_owned(),
    }
}

fn lies(low: &[Length; 3], high: &[Length; 3], units: Units) -> String {
    let axes = ["x", "y", "z"].iter().zip(low.iter().zip(high));
    let all: Vec<String> = axes
        .map(|(axis, (low, high))| {
            format!("{axis} {} to {}", units.length(*low), units.length(*high))
        })
        .collect();
    all.join(", ")
}

fn kind(kind: DoorKind) -> (&'static str, Option<u8>) {
    match kind {
        DoorKind::Open => ("sill", None),
        DoorKind::Baffle(number) => ("baffle", Some(number)),
        DoorKind::Pipe(number) => ("pipe", Some(number)),
    }
}

fn way(opening: &Way, units: Units) -> String {
    let by = match kind(opening.kind) {
        (_, None) => "over a sill".to_owned(),
        (word, Some(number)) => format!("through {word} {number}"),
    };
    format!(
        "{} {by}, z {} to {}",
        opening.to + 1,
        units.length(opening.low),
        units.length(opening.high)
    )
}

/// A compartment for programs.
fn object(
    drawn: &Drawn<'_>,
    place: usize,
    room: &Compartment,
    level: Option<&Kept>,
    leaning: Option<&Kept>,
) -> Value {
    let reach = &drawn.reach;
    let drains_to = if reach.drawn_from().contains(&place) {
        Some(json!("pick-up"))
    } else {
        reach.drains_to(place).map(|next| json!(next + 1))
    };
    let ways = reach.compartments().ways(place).map(|way| {
        let (word, number) = kind(way.kind);
        let mut told = json!({
            "to": way.to + 1,
            "by": word,
            "low_m": way.low.si(),
            "high_m": way.high.si(),
        });
        if let (Some(told), Some(number)) = (told.as_object_mut(), number) {
            told.insert("number".to_owned(), json!(number));
        }
        told
    });
    let mut kept = serde_json::Map::new();
    if let Some(level) = level {
        kept.insert("level".to_owned(), json!(level.volume.si()));
    }
    if let Some(leaning) = leaning {
        kept.insert("worst_lean".to_owned(), json!(leaning.volume.si()));
    }
    let mut told = json!({
        "number": place + 1,
        "volume_m3": room.volume.si(),
        "low_m": room.low.map(Length::si),
        "high_m": room.high.map(Length::si),
        "openings": ways.collect::<Vec<_>>(),
        "held_back_m3": kept,
    });
    if let (Some(told), Some(drains_to)) = (told.as_object_mut(), drains_to) {
        told.insert("drains_to".to_owned(), drains_to);
    }
    told
}
