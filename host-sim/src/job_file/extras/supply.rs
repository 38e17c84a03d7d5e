//! `[supply]`.

use seamwright_core::supply::KitDraft;
use seamwright_core::supply::cost::Prices;
use seamwright_core::units::flow::Flow;
use seamwright_core::units::range::Value as Shown;
use seamwright_core::units::{Length, Pressure, PressureUnit, Time, Volume, VolumeUnit};

use super::super::reader::{Reader, Section};
use super::super::schema::PRICES;
use super::Supply;
use super::limits::{kept, measured, mm, share, within};
use crate::diagnostics::Problem;

/// Most bytes of a currency's name.
const MAX_CURRENCY: usize = 12;

/// In litres a minute: 28.316 846 592 L in an hour, exactly.
const CUBIC_FOOT_AN_HOUR: f64 = 28.316_846_592 / 60.0;

pub(super) fn supply<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> Supply {
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
    let kit = KitDraft {
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
    };
    Supply {
        kit,
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
