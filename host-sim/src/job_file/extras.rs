//! What a job file says beyond the tank itself: the equipment, the arc's wave, supplies and prices.
//!
//! None of it changes the tank, so it stays out of the [`Draft`](seamwright_core::job::Draft), which a gauge
//! with little memory has to hold. All of it is checked as it is read.

use std::ops::Range;

use seamwright_core::bound::Value as Shown;
use seamwright_core::heat::arc::Process;
use seamwright_core::heat::duty::{DutyError, MAX_RATINGS, Plate, Rating, TORCH_AC_SHARE};
use seamwright_core::heat::flow::Flow;
use seamwright_core::heat::wave::{Cycle, Level};
use seamwright_core::quantity::{
    Current, Length, LengthUnit, Pressure, PressureUnit, Quantity, Ratio, Time, Voltage, Volume,
    VolumeUnit,
};
use seamwright_core::stock::Filler;
use seamwright_core::supply::cost::Prices;

use super::fixtures::tables;
use super::reader::{Reader, Section, called};
use super::schema::{NEGATIVE, POSITIVE, POWER_SOURCE, PRICES, SUPPLY, TORCH, Table};
use crate::diagnostics::Problem;

/// What a job file says beyond the tank.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Extras {
    /// Ratings of the power source.
    pub power_source: Option<Plate>,
    /// Ratings of the torch.
    pub torch: Torch,
    /// The wave of an alternating arc.
    pub wave: Option<Wave>,
    /// Diameter of the tungsten electrode.
    pub tungsten: Option<Length>,
    /// Bore of the gas nozzle.
    pub nozzle: Option<Length>,
    /// Rod, gas, time and prices.
    pub supply: Supply,
}

/// Ratings of a torch, on direct and on alternating current.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Torch {
    /// On direct current.
    pub dc: Option<Plate>,
    /// On alternating current.
    pub ac: Option<Plate>,
}

/// The wave of an alternating arc.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wave {
    /// Share of the time with the electrode negative.
    pub balance: Ratio,
    /// Cycles in a second.
    pub frequency: Option<f64>,
    /// The wave with both its levels, where they are given.
    pub cycle: Option<Cycle>,
}

/// Rod, gas, time and prices.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Supply {
    /// The filler at hand.
    pub filler: Option<Filler>,
    /// Diameter of the rod.
    pub rod_diameter: Option<Length>,
    /// Length of a rod.
    pub rod_length: Option<Length>,
    /// What is thrown away of each rod.
    pub stub: Option<Length>,
    /// Rod on top of what the seams take.
    pub waste: Option<Ratio>,
    /// Flow of gas.
    pub gas_flow: Option<Flow>,
    /// Before the arc.
    pub pre_flow: Option<Time>,
    /// After it.
    pub post_flow: Option<Time>,
    /// Water capacity of the cylinder.
    pub cylinder: Option<Volume>,
    /// What its gauge shows.
    pub cylinder_pressure: Option<Pressure>,
    /// Setting up, cleaning, fitting.
    pub other_time: Option<Time>,
    /// The currency and the prices in it.
    pub prices: Option<(String, Prices)>,
}

impl Torch {
    /// The ratings for a process, and whether they are those for direct current taken down to
    /// [`TORCH_AC_SHARE`].
    #[must_use]
    pub fn on(&self, process: Process) -> Option<(Plate, bool)> {
        match process {
            Process::TigDc => self.dc.clone().map(|plate| (plate, false)),
            Process::TigAc => match &self.ac {
                Some(plate) => Some((plate.clone(), false)),
                None => self
                    .dc
                    .clone()?
                    .reduced(TORCH_AC_SHARE)
                    .ok()
                    .map(|plate| (plate, true)),
            },
        }
    }
}

/// Most bytes of a currency's name.
const MAX_CURRENCY: usize = 12;

pub(super) fn read<'t>(
    reader: &mut Reader<'t>,
    top: &Section<'t>,
    arc: Option<&Section<'t>>,
) -> Extras {
    let mut extras = Extras::default();
    if let Some(arc) = arc {
        let source = ratings(reader, arc, "power_source", &POWER_SOURCE);
        extras.power_source = plate(reader, &source.iter().collect::<Vec<_>>());
        let torch = ratings(reader, arc, "torch", &TORCH);
        let on = |process| {
            torch
                .iter()
                .filter(|one| one.process == process)
                .collect::<Vec<_>>()
        };
        extras.torch = Torch {
            dc: plate(reader, &on(Process::TigDc)),
            ac: plate(reader, &on(Process::TigAc)),
        };
        extras.wave = wave(reader, arc);
        extras.tungsten = kept(reader, arc, "tungsten", (mm(0.5), mm(10.0)), Shown::Length);
        extras.nozzle = kept(reader, arc, "nozzle", (mm(3.0), mm(30.0)), Shown::Length);
    }
    if let Some(section) = reader.section(top, "supply", &SUPPLY) {
        extras.supply = supply(reader, &section);
    }
    extras
}

fn mm(value: f64) -> Length {
    Length::new(value, LengthUnit::Millimetre)
}

fn share(value: f64) -> Ratio {
    Ratio::from_share(value)
}

/// A quantity within its limits, both allowed.
fn kept<'t, Q: Quantity + PartialOrd>(
    reader: &mut Reader<'t>,
    section: &Section<'t>,
    name: &str,
    (least, most): (Q, Q),
    shown: fn(Q) -> Shown,
) -> Option<Q> {
    let value: Q = reader.quantity(section, name)?;
    let limits = (shown(least).to_string(), shown(most).to_string());
    let past = (value < least, value > most);
    let span = section.place(name)?;
    within(
        reader,
        section,
        name,
        span,
        past,
        (shown(value).to_string(), limits),
    )?;
    Some(value)
}

/// Tells a value past its limits.
fn within<'t>(
    reader: &mut Reader<'t>,
    section: &Section<'t>,
    name: &str,
    span: Range<usize>,
    (below, beyond): (bool, bool),
    (value, (least, most)): (String, (String, String)),
) -> Option<()> {
    let (how, limit) = match (below, beyond) {
        (true, _) => ("small", format!("at least {least}")),
        (_, true) => ("large", format!("at most {most}")),
        _ => return Some(()),
    };
    let called = called(&section.path_of(name));
    let unit = if value.contains(' ') {
        "; is the unit the one that you meant?"
    } else {
        ""
    };
    let problem = Problem::new(span, format!("{called} is too {how}"))
        .label(format!("{value}; it must be {limit}"))
        .help(format!("write {limit}{unit}"));
    reader.problem(problem);
    None
}

/// A number with a unit of its own, within limits in the first of its units.
fn measured<'t>(
    reader: &mut Reader<'t>,
    section: &Section<'t>,
    name: &str,
    what: &str,
    units: &[(&str, f64)],
    (least, most): (f64, f64),
) -> Option<f64> {
    let value = reader.measure(section, name, what, units)?;
    let span = section.place(name)?;
    let unit = units.first().map_or("", |(unit, _)| unit);
    // A unit that is converted may miss a limit by its rounding.
    let past = (value < least * (1.0 - 1e-12), value > most * (1.0 + 1e-12));
    let show = |value: f64| format!("{} {unit}", (value * 1e3).round() / 1e3);
    within(
        reader,
        section,
        name,
        span,
        past,
        (show(value), (show(least), show(most))),
    )?;
    Some(value)
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
) -> Vec<Rated> {
    let amperes = Current::from_amperes;
    let sections = tables(reader, arc, name, schema, MAX_RATINGS);
    sections
        .iter()
        .filter_map(|section| {
            let current = kept(
                reader,
                section,
                "current",
                (amperes(1.0), amperes(2_000.0)),
                Shown::Current,
            );
            let duty = kept(
                reader,
                section,
                "duty",
                (share(0.01), share(1.0)),
                Shown::Ratio,
            );
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
                process: process.unwrap_or(Process::TigDc),
                at: section.place("current")?,
            })
        })
        .collect()
}

/// The plate of some ratings; the highest current that they name is the highest there is.
fn plate(reader: &mut Reader<'_>, rated: &[&Rated]) -> Option<Plate> {
    let most = rated
        .iter()
        .map(|one| one.rating.current)
        .reduce(|a, b| if b > a { b } else { a })?;
    let all: Vec<Rating> = rated.iter().map(|one| one.rating).collect();
    match Plate::new(&all, most) {
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
    let balance = kept(
        reader,
        arc,
        "balance",
        (share(0.01), share(0.99)),
        Shown::Ratio,
    );
    let hertz = [("Hz", 1.0)];
    let frequency = measured(
        reader,
        arc,
        "frequency",
        "a frequency",
        &hertz,
        (1.0, 50_000.0),
    );
    let negative = level(reader, arc, "negative", &NEGATIVE);
    let positive = level(reader, arc, "positive", &POSITIVE);
    let direct = reader
        .word_given::<Process>(arc, "process")
        .is_some_and(|process| process == Process::TigDc);
    for name in ["balance", "frequency", "negative", "positive"] {
        let Some(span) = arc.place(name) else {
            continue;
        };
        let title = |what: &str| format!("`arc.{name}` {what}");
        let problem = if direct {
            Problem::new(span, title("belongs to alternating current"))
                .label("and the process is tig dc")
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
) -> Option<Level> {
    let section = reader.section(arc, name, schema)?;
    let (amperes, volts) = (Current::from_amperes, Voltage::from_volts);
    let current = kept(
        reader,
        &section,
        "current",
        (amperes(1.0), amperes(600.0)),
        Shown::Current,
    );
    let voltage = kept(
        reader,
        &section,
        "voltage",
        (volts(5.0), volts(60.0)),
        Shown::Voltage,
    );
    Some(Level {
        voltage: voltage?,
        current: current?,
    })
}

fn supply<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> Supply {
    let seconds = Time::from_seconds;
    let litres = |value| Volume::new(value, VolumeUnit::Litre);
    let bar = |value| Pressure::new(value, PressureUnit::Bar);
    let rod_length = kept(
        reader,
        section,
        "rod_length",
        (mm(100.0), mm(2_000.0)),
        Shown::Length,
    );
    let half = Length::from_metres(0.5 * rod_length.map_or(1.0, Length::si));
    let flows = [
        ("L/min", 1.0),
        ("l/min", 1.0),
        ("ft³/h", CUBIC_FOOT_AN_HOUR),
        ("cfh", CUBIC_FOOT_AN_HOUR),
    ];
    let flow = measured(reader, section, "gas_flow", "a flow", &flows, (1.0, 50.0));
    if let (Some(span), false) = (section.place("cylinder_pressure"), section.has("cylinder")) {
        let problem = Problem::new(span, "`supply.cylinder_pressure` is of no cylinder")
            .label("how large it is is not known")
            .help("add cylinder = \"20 L\", the water capacity that is stamped on it");
        reader.problem(problem);
    }
    Supply {
        filler: reader.word(section, "filler"),
        rod_diameter: kept(
            reader,
            section,
            "rod_diameter",
            (mm(0.5), mm(10.0)),
            Shown::Length,
        ),
        rod_length,
        stub: kept(reader, section, "stub", (mm(0.0), half), Shown::Length),
        waste: kept(
            reader,
            section,
            "waste",
            (share(0.0), share(1.0)),
            Shown::Ratio,
        ),
        gas_flow: flow.map(Flow::from_litres_per_minute),
        pre_flow: kept(
            reader,
            section,
            "pre_flow",
            (seconds(0.0), seconds(60.0)),
            Shown::Time,
        ),
        post_flow: kept(
            reader,
            section,
            "post_flow",
            (seconds(0.0), seconds(120.0)),
            Shown::Time,
        ),
        cylinder: kept(
            reader,
            section,
            "cylinder",
            (litres(0.1), litres(200.0)),
            Shown::Volume,
        ),
        cylinder_pressure: kept(
            reader,
            section,
            "cylinder_pressure",
            (bar(1.0), bar(300.0)),
            Shown::Pressure,
        ),
        other_time: kept(
            reader,
            section,
            "other_time",
            (seconds(0.0), seconds(3.6e6)),
            Shown::Time,
        ),
        prices: reader
            .section(section, "prices", &PRICES)
            .and_then(|section| prices(reader, &section)),
    }
}

/// In litres a minute: 28.316 846 592 L in an hour, exactly.
const CUBIC_FOOT_AN_HOUR: f64 = 28.316_846_592 / 60.0;

fn prices<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> Option<(String, Prices)> {
    let mut price = |name: &str, example: &str| {
        let value = reader.number(section, name, &format!("{name} = {example}"))?;
        let span = section.place(name)?;
        let show = |value: f64| value.to_string();
        let past = (value < 0.0, value > 1e9);
        within(
            reader,
            section,
            name,
            span,
            past,
            (show(value), (show(0.0), show(1e9))),
        )?;
        Some(value)
    };
    let prices = Prices {
        sheet: price("sheet", "9.5"),
        filler: price("filler", "32"),
        gas: price("gas", "14"),
        labour: price("labour", "40"),
        electricity: price("electricity", "0.3"),
    };
    let (text, span) = reader.text(section, "currency", "EUR")?;
    let text = text.trim();
    if text.is_empty() || text.len() > MAX_CURRENCY || text.chars().any(char::is_control) {
        let problem = Problem::new(
            span,
            format!("a currency's name has 1 to {MAX_CURRENCY} bytes"),
        )
        .label(format!("{} bytes", text.len()))
        .help("write a word such as \"EUR\", \"GBP\" or \"dollars\"");
        reader.problem(problem);
        return None;
    }
    Some((text.to_owned(), prices))
}
