//! What a welder sets beside current and voltage where the electrode is a wire.

use seamwright_core::gmaw::{TRANSITION_SOURCE, WireArc, WireAssumed, WireFill};
use seamwright_core::units::{Current, CurrentUnit, Length, Ratio, RatioUnit, Speed};
use serde_json::{Value, json};

use super::Units;
use super::cited::Cited;
use super::model::{Section, said};
use super::processed::Processed;

/// A feed by the minute.
fn feed(speed: Speed, units: Units) -> String {
    let metres = 60.0 * speed.si();
    match units {
        Units::Metric => format!("{metres:.1} m/min"),
        Units::Us | Units::Imperial => format!("{:.0} in/min", metres / 0.0254),
    }
}

/// More or less, in per cent.
fn off(share: Ratio) -> String {
    let percent = share.display(RatioUnit::Percent, 0).to_string();
    match percent.strip_prefix(['-', '\u{2212}']) {
        Some(less) if !less.starts_with("0 ") => format!("{less} less"),
        None if !percent.starts_with("0 ") => format!("{percent} more"),
        _ => "as much".to_owned(),
    }
}

/// Nothing of a process that feeds no wire.
pub(crate) fn section(processed: &Processed, units: Units, cited: &mut Cited) -> Option<Section> {
    let mut section = Section::new("Wire and gas").at(&["wire"]);
    match processed.wire.as_ref()? {
        Ok(wire) => told(&mut section, wire, units, cited),
        Err(error) => {
            section.line(format!("not known: {error}"));
            section.put("missing", error.to_string());
        }
    }
    Some(section)
}

fn told(section: &mut Section, wire: &WireArc, units: Units, cited: &mut Cited) {
    let size = |length: Length| units.thickness(length);
    let currents = wire.currents.map(|range| {
        let ends = [range.least, range.most].map(|one| one.display(CurrentUnit::Ampere, 0));
        let mark = cited.mark(range.source);
        format!(", used with {} to {} {mark}", ends[0], ends[1])
    });
    let thick = format!("{}{}", size(wire.diameter), currents.unwrap_or_default());
    let cell = said(thick).data("diameter_m", wire.diameter.si()).maybe(
        "currents_a",
        wire.currents
            .map(|range| [range.least.si(), range.most.si()]),
    );
    section.fact("wire", cell);
    section.fact(
        "shielding gas",
        said(wire.gas)
            .data("gas", wire.gas.name())
            .data("gas_made_of", wire.gas.made_of()),
    );
    let spray = match wire.transition {
        Some(least) => {
            let mark = cited.mark(TRANSITION_SOURCE);
            let least = least.display(CurrentUnit::Ampere, 0);
            format!("; spray begins at {least} {mark}")
        }
        None => "; where spray begins is not printed for this wire".to_owned(),
    };
    section.fact(
        "transfer",
        said(format!("{}{spray}", wire.transfer.name()))
            .data("transfer", wire.transfer.name())
            .maybe("spray_from_a", wire.transition.map(Current::si)),
    );
    let usual = wire.usual_stick_out;
    let mark = cited.mark(usual.source);
    section.fact(
        "tip to work",
        said(format!(
            "{}; {} to {} are usual {mark}",
            size(wire.stick_out),
            size(usual.least),
            size(usual.most)
        ))
        .data("stick_out_m", wire.stick_out.si())
        .data("stick_out_usual_m", [usual.least.si(), usual.most.si()]),
    );
    fed(section, wire, units, cited);
    if let Some(fill) = &wire.fill {
        filled(section, fill, units);
    }
    let assumed: Vec<String> = wire
        .assumed
        .iter()
        .map(|one| format!("{}: {}", one.key(), one.source()))
        .collect();
    if !assumed.is_empty() {
        section.line(format!("Not in [arc], so taken: {}.", assumed.join("; ")));
    }
    let unsaid = |one: &WireAssumed| json!({ "key": one.key(), "source": one.source() });
    section.put(
        "assumed",
        wire.assumed.iter().map(unsaid).collect::<Value>(),
    );
}

/// The feed, and what is published of it.
fn fed(section: &mut Section, wire: &WireArc, units: Units, cited: &mut Cited) {
    let Some(own) = wire.feed else {
        section.fact(
            "wire feed",
            "nothing is published of how fast this wire melts: read it off the machine",
        );
        return;
    };
    let mut published = Vec::new();
    let mut words = Vec::new();
    for one in &wire.published {
        let mark = cited.mark(one.source.text());
        let share = wire.feed_off(one);
        let by = share.map(|share| format!(", this is {}", off(share)));
        words.push(format!(
            "{} {mark}{}",
            feed(one.feed, units),
            by.unwrap_or_default()
        ));
        published.push(json!({
            "feed_m_s": one.feed.si(),
            "source": one.source.text(),
            "off": share.map_or(0.0, Ratio::si),
        }));
    }
    let apart = wire.published_apart().map(|apart| {
        let by = apart.display(RatioUnit::Percent, 0);
        format!("; these differ by {by}")
    });
    let among = if words.is_empty() {
        "; nothing is published to hold it against".to_owned()
    } else {
        format!(
            "; for the current: {}{}",
            words.join(", and "),
            apart.unwrap_or_default()
        )
    };
    section.fact(
        "wire feed",
        said(format!("{}{among}", feed(own, units)))
            .data("feed_m_s", own.si())
            .data("published", published)
            .maybe("published_apart", wire.published_apart().map(Ratio::si)),
    );
}

/// What the wire fills against what the beads want.
fn filled(section: &mut Section, fill: &WireFill, units: Units) {
    let area = |area| units.section(area);
    section.fact(
        "fills",
        said(format!(
            "{} of bead, where seams want {} to {}; at {} the largest would just be full",
            area(fill.fills),
            area(fill.least),
            area(fill.most),
            units.speed(fill.travel)
        ))
        .data("fills_m2", fill.fills.si())
        .data("wanted_m2", [fill.least.si(), fill.most.si()])
        .data("travel_to_fill_m_s", fill.travel.si()),
    );
}
