//! The plan, in the order of the work. In the JSON object what this version does not compute has no key at all;
//! keys may be added, never renamed.

use serde_json::Value;

use super::cited::Cited;
use super::drawn::Drawn;
use super::model::Section;
use super::processed::Processed;
use super::{
    Asked, Units, arc, assumed, balance, body, capacity, compartments, duty, filler, heat, leak,
    notices, panels, purge, render, seams, settings, shrinkage, stages, stitches, strength, supply,
    tacks, totals, verdict, wire,
};
use crate::cut::Cut;
use crate::diagnostics::clean;

/// The version of the JSON object.
pub const SCHEMA: &str = "seamwright-plan/1";

/// As a report.
#[must_use]
pub fn text(asked: &Asked<'_>, units: Units) -> String {
    render::text::report(&sections(asked, units))
}

/// As one JSON object: SI units, angles in degrees.
#[must_use]
pub fn json(asked: &Asked<'_>) -> Value {
    render::json::object(&sections(asked, Units::default()))
}

/// All that is said of a tank.
#[must_use]
pub fn sections(asked: &Asked<'_>, units: Units) -> Vec<Section> {
    let (tank, extras) = (asked.tank, asked.extras);
    let cut = Cut::of(tank, extras);
    let drawn = Drawn::of(asked);
    let processed = Processed::of(asked);
    let stands = tank.mounts_envelope();
    let dangers = tank.cautions();
    let mut cited = Cited::default();
    let mut all = vec![name(tank.job().name())];
    all.extend(verdict::section(asked, &processed));
    all.extend([
        notices::section(asked, drawn.as_ref(), &processed, stands.as_ref(), &dangers),
        body::section(tank, units),
        capacity::section(tank, drawn.as_ref(), units),
    ]);
    all.extend(
        drawn
            .as_ref()
            .map(|drawn| compartments::section(drawn, units)),
    );
    all.extend([
        capacity::dip(tank, units),
        panels::section(asked, &cut, &[], units),
        seams::section(tank, units),
        notices::dangers(tank, &dangers),
        stages::section(tank),
        tacks::section(tank, units),
        arc::section(tank, units),
        stitches::section(asked, &processed, units),
        filler::section(tank, extras, units, &mut cited),
        settings::section(tank, extras, units, &mut cited),
    ]);
    all.extend(wire::section(&processed, units, &mut cited));
    all.extend([
        heat::section(tank, extras, units, &mut cited),
        duty::section(tank, extras),
    ]);
    all.extend(purge::section(tank, &processed, units, &mut cited));
    all.extend(supply::sections(asked, &processed, units));
    all.extend([
        shrinkage::section(tank, extras, units, &mut cited),
        totals::section(asked, &cut, units),
        balance::section(tank, stands.as_ref(), units),
        strength::section(tank, units),
        leak::section(tank, units),
        assumed::section(asked.assumed),
        cited.section(),
    ]);
    all
}

fn name(name: &str) -> Section {
    let mut section = Section::default();
    section.put("schema", SCHEMA);
    section.put("name", name);
    let name = clean(name).into_owned();
    let line = "=".repeat(name.chars().count());
    section.plain(format!("{name}\n{line}"));
    section
}
