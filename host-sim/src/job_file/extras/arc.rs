//! Ratings of the equipment, and the wave of the arc.

use std::ops::Range;

use seamwright_core::arc::TorchRatings;
use seamwright_core::arc::duty::{DutyError, MAX_RATINGS, Rating, RatingPlate};
use seamwright_core::arc::power::{ArcLevel, Cycle, Wave};
use seamwright_core::gmaw::WireArcDraft;
use seamwright_core::input::limits;
use seamwright_core::tables::Process;
use seamwright_core::units::Speed;
use seamwright_core::units::range::Value as Shown;

use super::super::fixtures::tables;
use super::super::reader::{Reader, Section};
use super::super::schema::{NEGATIVE, POSITIVE, POWER_SOURCE, TORCH, Table};
use super::Extras;
use super::limits::{kept, measured};
use crate::diagnostics::Problem;

/// What `[arc]` says of them.
pub(super) fn read<'t>(reader: &mut Reader<'t>, arc: &Section<'t>, extras: &mut Extras) {
    let source = ratings(reader, arc, "power_source", &POWER_SOURCE, None);
    extras.equipment.power_source = plate(reader, &source.iter().collect::<Vec<_>>());
    let own = reader.word_given::<Process>(arc, "process");
    // A rating of a torch that says no process is of the one that welds, where that feeds wire; else of direct current.
    let usual = own.filter(|process| process.feeds_wire());
    let torch = ratings(reader, arc, "torch", &TORCH, usual);
    let on = |process| {
        torch
            .iter()
            .filter(|one| one.process == process)
            .collect::<Vec<_>>()
    };
    extras.equipment.torch = TorchRatings {
        dc: plate(reader, &on(Process::TigDc)),
        ac: plate(reader, &on(Process::TigAc)),
        mig: plate(reader, &on(Process::Mig)),
        mag: plate(reader, &on(Process::Mag)),
        flux_cored: plate(reader, &on(Process::FluxCored)),
    };
    extras.wave = wave(reader, arc);
    extras.tungsten = kept(reader, arc, "tungsten", limits::TUNGSTEN, Shown::Length);
    extras.nozzle = kept(reader, arc, "nozzle", limits::NOZZLE, Shown::Length);
    extras.supply.kit.wire_diameter =
        kept(reader, arc, "wire", limits::WIRE_DIAMETER, Shown::Length);
    let feeds = [
        ("m/min", 1.0),
        ("mm/s", 0.06),
        ("in/min", 0.0254),
        ("ipm", 0.0254),
    ];
    let feed = measured(
        reader,
        arc,
        "wire_feed",
        "a feed",
        &feeds,
        limits::WIRE_FEED,
    );
    extras.wire_arc = WireArcDraft {
        feed: feed.map(|metres| Speed::from_metres_per_second(metres / 60.0)),
        transfer: reader.word(arc, "transfer"),
        stick_out: kept(reader, arc, "stick_out", limits::STICK_OUT, Shown::Length),
        gas: reader.word(arc, "gas"),
    };
}

/// Keys that go with a tungsten and its rod, by their tables.
const OF_TUNGSTEN: [(&str, &[&str]); 2] = [
    ("arc", &["tungsten"]),
    ("supply", &["rod_diameter", "rod_length", "stub"]),
];
/// Keys that go with a wire.
const OF_WIRE: [(&str, &[&str]); 2] = [
    (
        "arc",
        &["wire", "wire_feed", "transfer", "stick_out", "gas"],
    ),
    ("supply", &["spool"]),
];

/// Tells keys of a table that do not go with the process.
pub(super) fn check_process<'t>(
    reader: &mut Reader<'t>,
    section: &Section<'t>,
    process: Option<Process>,
) {
    let wired = process.is_some_and(Process::feeds_wire);
    let table = section.schema.path;
    let (out, of, way) = if wired {
        (&OF_TUNGSTEN, "a tungsten and its rod", "take it out")
    } else {
        (
            &OF_WIRE,
            "a wire that is the electrode",
            "take it out, or write process = \"mig\", \"mag\" or \"flux-cored\" under [arc]",
        )
    };
    let name = process.map_or("tig", Process::name);
    for key in out
        .iter()
        .filter(|(path, _)| *path == table)
        .flat_map(|(_, keys)| *keys)
    {
        if let Some(span) = section.place(key) {
            let problem = Problem::new(span, format!("`{table}.{key}` goes with {of}"))
                .label(format!("and the process is {name}"))
                .help(way);
            reader.problem(problem);
        }
    }
}

/// One rating and where it stands.
struct Rated {
    rating: Rating,
    process: Process,
    at: Range<usize>,
}

fn ratings<'t>(
    reader: &mut Reader<'t>,
    arc: &Section<'t>,
    name: &str,
    schema: &'static Table,
    usual: Option<Process>,
) -> Vec<Rated> {
    let sections = tables(reader, arc, name, schema, MAX_RATINGS);
    sections
        .iter()
        .filter_map(|section| {
            let current = kept(
                reader,
                section,
                "current",
                limits::RATED_CURRENT,
                Shown::Current,
            );
            let duty = kept(reader, section, "duty", limits::RATED_DUTY, Shown::Ratio);
            let process = if section.schema.key("process").is_some() {
                reader.word::<Process>(section, "process")
            } else {
                None
            };
            Some(Rated {
                rating: Rating {
                    current: current?,
                    duty: duty?,
                },
                process: process.or(usual).unwrap_or(Process::TigDc),
                at: section.place("current")?,
            })
        })
        .collect()
}

/// The plate of some ratings; `None` without any.
fn plate(reader: &mut Reader<'_>, rated: &[&Rated]) -> Option<RatingPlate> {
    if rated.is_empty() {
        return None;
    }
    let all: Vec<Rating> = rated.iter().map(|one| one.rating).collect();
    match RatingPlate::of(&all) {
        Ok(plate) => Some(plate),
        Err(error) => {
            // At the rating that allows too much, where one does.
            let culprit = match error {
                DutyError::OutOfOrder { upper, .. } => {
                    rated.iter().rev().find(|one| one.rating == upper)
                }
                _ => rated.first(),
            };
            let problem = Problem::new(culprit?.at.clone(), "these ratings are not of one plate")
                .label("because of this")
                .help(error.to_string());
            reader.problem(problem);
            None
        }
    }
}

fn wave<'t>(reader: &mut Reader<'t>, arc: &Section<'t>) -> Option<Wave> {
    let balance = kept(reader, arc, "balance", limits::BALANCE, Shown::Ratio);
    let hertz = [("Hz", 1.0)];
    let frequency = measured(
        reader,
        arc,
        "frequency",
        "a frequency",
        &hertz,
        limits::FREQUENCY,
    );
    let negative = level(reader, arc, "negative", &NEGATIVE);
    let positive = level(reader, arc, "positive", &POSITIVE);
    let direct = reader
        .word_given::<Process>(arc, "process")
        .filter(|process| *process != Process::TigAc);
    for name in ["balance", "frequency", "negative", "positive"] {
        let Some(span) = arc.place(name) else {
            continue;
        };
        let title = |what: &str| format!("`arc.{name}` {what}");
        let problem = if let Some(direct) = direct {
            Problem::new(span, title("belongs to alternating current"))
                .label(format!("and the process is {}", direct.name()))
                .help("take it out, or write process = \"tig ac\"")
        } else if name != "balance" && !arc.has("balance") {
            Problem::new(span, title("is of a wave with no `balance`"))
                .label("how long each half lasts is not known")
                .help("add balance = \"70 %\", the share of the time with the electrode negative")
        } else if (name == "negative" && !arc.has("positive"))
            || (name == "positive" && !arc.has("negative"))
        {
            let other = if name == "negative" {
                "positive"
            } else {
                "negative"
            };
            Problem::new(span, title("is one half of a wave"))
                .label("the other half is missing")
                .help(format!(
                    "add [arc.{other}] with its current and voltage, or take this out"
                ))
        } else {
            continue;
        };
        reader.problem(problem);
    }
    let balance = balance?;
    let cycle = match (negative, positive) {
        (Some(negative), Some(positive)) => Cycle::square(balance, negative, positive).ok(),
        _ => None,
    };
    Some(Wave {
        balance,
        frequency,
        cycle,
    })
}

fn level<'t>(
    reader: &mut Reader<'t>,
    arc: &Section<'t>,
    name: &str,
    schema: &'static Table,
) -> Option<ArcLevel> {
    let section = reader.section(arc, name, schema)?;
    let current = kept(reader, &section, "current", limits::CURRENT, Shown::Current);
    let voltage = kept(reader, &section, "voltage", limits::VOLTAGE, Shown::Voltage);
    Some(ArcLevel {
        voltage: voltage?,
        current: current?,
    })
}
