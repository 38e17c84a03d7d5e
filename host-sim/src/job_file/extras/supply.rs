//! `[supply]`.

use seamwright_core::input::limits;
use seamwright_core::supply::cost::Prices;
use seamwright_core::supply::{KitDraft, USUAL_ROD_LENGTH};
use seamwright_core::units::flow::Flow;
use seamwright_core::units::range::Value as Shown;
use seamwright_core::units::{Length, Mass};

use super::super::reader::{Reader, Section};
use super::super::schema::PRICES;
use super::Supply;
use super::limits::{kept, measured, within};
use crate::diagnostics::Problem;

/// Most bytes of a currency's name.
const MAX_CURRENCY: usize = 12;

/// In kilograms, exactly: the avoirdupois pound.
const POUND: f64 = 0.453_592_37;
/// In litres a minute: 28.316 846 592 L in an hour, exactly.
const CUBIC_FOOT_AN_HOUR: f64 = 28.316_846_592 / 60.0;

/// Units of a flow, in litres a minute.
pub(super) const FLOWS: [(&str, f64); 4] = [
    ("L/min", 1.0),
    ("l/min", 1.0),
    ("ft³/h", CUBIC_FOOT_AN_HOUR),
    ("cfh", CUBIC_FOOT_AN_HOUR),
];

pub(super) fn supply<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> Supply {
    let rod_length = kept(
        reader,
        section,
        "rod_length",
        limits::ROD_LENGTH,
        Shown::Length,
    );
    let half = Length::from_metres(0.5 * rod_length.unwrap_or(USUAL_ROD_LENGTH).si());
    let flow = measured(
        reader,
        section,
        "gas_flow",
        "a flow",
        &FLOWS,
        limits::GAS_FLOW,
    );
    if let (Some(span), false) = (section.place("cylinder_pressure"), section.has("cylinder")) {
        let problem = Problem::new(span, "`supply.cylinder_pressure` is of no cylinder")
            .label("how large it is is not known")
            .help("add cylinder = \"20 L\", the water capacity that is stamped on it");
        reader.problem(problem);
    }
    let (least, most) = limits::SPOOL;
    let spool = measured(
        reader,
        section,
        "spool",
        "a mass",
        &[("kg", 1.0), ("g", 1e-3), ("lb", POUND)],
        (least.si(), most.si()),
    );
    let kit = KitDraft {
        filler: reader.word(section, "filler"),
        rod_diameter: kept(
            reader,
            section,
            "rod_diameter",
            limits::ROD_DIAMETER,
            Shown::Length,
        ),
        rod_length,
        stub: kept(
            reader,
            section,
            "stub",
            (Length::default(), half),
            Shown::Length,
        ),
        waste: kept(reader, section, "waste", limits::ROD_WASTE, Shown::Ratio),
        gas_flow: flow.map(Flow::from_litres_per_minute),
        pre_flow: kept(reader, section, "pre_flow", limits::PRE_FLOW, Shown::Time),
        post_flow: kept(reader, section, "post_flow", limits::POST_FLOW, Shown::Time),
        wire_diameter: None,
        wire_feed: None,
        spool: spool.map(Mass::from_kilograms),
    };
    Supply {
        kit,
        cylinder: kept(reader, section, "cylinder", limits::CYLINDER, Shown::Volume),
        cylinder_pressure: kept(
            reader,
            section,
            "cylinder_pressure",
            limits::CYLINDER_GAUGE,
            Shown::Pressure,
        ),
        other_time: kept(reader, section, "other_time", limits::JOB_TIME, Shown::Time),
        prices: reader
            .section(section, "prices", &PRICES)
            .and_then(|section| prices(reader, &section)),
    }
}

fn prices<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> Option<(String, Prices)> {
    let mut price = |name: &str, example: &str| {
        let value = reader.number(section, name, &format!("{name} = {example}"))?;
        let span = section.place(name)?;
        let show = |value: f64| value.to_string();
        let (least, most) = limits::PRICE;
        let past = (value < least, value > most);
        within(
            reader,
            section,
            name,
            span,
            past,
            (show(value), (show(least), show(most))),
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
