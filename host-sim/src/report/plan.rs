//! The plan as a report, in the order of the work.

use std::fmt::Write as _;

use seamwright_core::blank::{Blank, Panel};
use seamwright_core::input::Face;
use seamwright_core::tank::{Assumed, Tank};
use seamwright_core::units::{
    AngleUnit, CurrentUnit, EnergyUnit, Length, LengthUnit, RatioUnit, TimeUnit, VoltageUnit,
    VolumeUnit,
};

use seamwright_core::seam::joint_name;

use super::cited::Cited;
use super::table::{Side, table, wrapped};
use super::{
    Asked, Units, balance, cautions, cost, duty, filler, heat, leak, notices, settings, shrinkage,
    size, stitches, strength, supply, tacks,
};
use crate::cut::Cut;
use crate::diagnostics::clean;
use crate::welding;

/// Signs in a line.
const WIDE: usize = 100;

/// The whole report.
#[must_use]
pub fn text(asked: &Asked<'_>, units: Units) -> String {
    let Asked {
        tank,
        assumed,
        extras,
        search,
    } = *asked;
    let cut = Cut::of(tank, extras);
    let name = clean(tank.job().name()).into_owned();
    let mut out = format!("{name}\n{}\n", "=".repeat(name.chars().count()));
    section(&mut out, "Tank", &body(tank, units));
    section(&mut out, "Capacity, standing level", &capacity(tank, units));
    section(
        &mut out,
        "Dip chart, depth from the lowest inside point",
        &dip(tank, units),
    );
    section(
        &mut out,
        "Panels, cut square for open corners",
        &panels(&cut, units),
    );
    section(&mut out, "Seams, tacks and stitches", &seams(tank, units));
    section(&mut out, "Tack in this order", &tacks::text(tank, units));
    section(&mut out, "Arc and heat", &arc(tank, units));
    section(
        &mut out,
        "Order of the stitches",
        &stitches::text(
            &welding::plan(tank, extras),
            search.map(|tries| welding::search(tank, extras, tries)),
            tank.job().welding().ambient,
            units,
        ),
    );
    let mut cited = Cited::default();
    section(
        &mut out,
        "Filler",
        &filler::text(tank, extras, units, &mut cited),
    );
    section(
        &mut out,
        "Settings, to be tried on scrap",
        &settings::text(tank, extras, units, &mut cited),
    );
    section(
        &mut out,
        "Heat about the seam",
        &heat::text(tank, extras, units, &mut cited),
    );
    section(&mut out, "Duty cycle", &duty::text(tank, extras));
    section(&mut out, "Supplies", &supply::text(tank, extras, units));
    section(&mut out, "Cost", &cost::text(tank, extras));
    section(
        &mut out,
        "Shrinkage, as rules of thumb have it",
        &shrinkage::text(tank, extras, units, &mut cited),
    );
    section(&mut out, "In all", &totals(&cut, units));
    section(&mut out, "Mass and mounts", &balance::text(tank, units));
    let dangers = cautions::of(tank);
    section(&mut out, "Cautions", &cautions::text(&dangers));
    section(&mut out, "Strength", &strength::text(tank, units));
    section(&mut out, "Leak test", &leak::text(tank, units));
    section(
        &mut out,
        "Taken as given, because the job does not say",
        &assumptions(assumed),
    );
    section(&mut out, "Sources", &cited.text(WIDE));
    section(
        &mut out,
        "Mind",
        &minded(&notices::beside(tank, extras, &dangers)),
    );
    out
}

fn section(out: &mut String, title: &str, body: &str) {
    if !body.is_empty() {
        let _ = write!(out, "\n{title}\n{body}");
    }
}

/// A name and its figures, one to a line.
pub(super) fn facts(rows: &[(&str, String)]) -> String {
    super::table::facts(rows, |value, _| value.to_owned())
}

fn body(tank: &Tank, units: Units) -> String {
    let job = tank.job();
    let temper = job
        .temper()
        .map(|temper| format!(" {temper}"))
        .unwrap_or_default();
    let own: String = tank
        .panels()
        .filter(|panel| panel.thickness != job.thickness())
        .map(|panel| format!("; {} {}", panel.face(), units.thickness(panel.thickness)))
        .collect();
    let body = tank.body();
    let over_all = size::over_all(tank)
        .map(|length| units.length(length))
        .join(" x ");
    facts(&[
        ("size", size::described(job.shape(), units)),
        ("over all", over_all),
        (
            "sheet",
            format!(
                "{}{temper}, {}{own}",
                job.alloy(),
                units.thickness(job.thickness())
            ),
        ),
        ("volume outside", units.volume(body.outside.volume())),
    ])
}

fn capacity(tank: &Tank, units: Units) -> String {
    let capacity = tank.capacity();
    let both = |volume: seamwright_core::units::Volume| match units {
        Units::Metric => {
            format!(
                "{}  ({})",
                units.volume(volume),
                volume.display(VolumeUnit::UsGallon, 2)
            )
        }
        Units::Us | Units::Imperial => format!(
            "{}  ({})",
            units.volume(volume),
            volume.display(VolumeUnit::Litre, 2)
        ),
    };
    let mut rows = vec![
        (
            "brim",
            format!(
                "{}, {} deep",
                both(capacity.brim),
                units.length(capacity.full_depth)
            ),
        ),
        (
            "fill mark",
            format!(
                "{}, {} deep, {} kept free above it",
                both(capacity.fill),
                units.length(capacity.fill_depth),
                tank.job().headspace().display(RatioUnit::Percent, 1)
            ),
        ),
        (
            "usable",
            format!(
                "{}, above a pick-up at {}",
                both(capacity.usable),
                units.length(capacity.pick_up)
            ),
        ),
    ];
    if let Some((of, target)) = tank.job().target() {
        let holds = capacity.of(of);
        let verdict = if holds < target { "short of" } else { "meets" };
        rows.push((
            "target",
            format!("{} {} {}", of.name(), verdict, units.volume(target)),
        ));
    }
    facts(&rows)
}

fn dip(tank: &Tank, units: Units) -> String {
    let marks: Vec<_> = tank.dip().collect();
    let cell = |level: Option<&seamwright_core::capacity::Level>| match level {
        Some(level) => [units.length(level.depth), units.volume(level.volume)],
        None => [String::new(), String::new()],
    };
    // Three columns of pairs, read downwards.
    let rows_needed = marks.len().div_ceil(3);
    let rows: Vec<[String; 6]> = (0..rows_needed)
        .map(|row| {
            let [[a, b], [c, d], [e, f]] =
                [0, 1, 2].map(|column| cell(marks.get(column * rows_needed + row)));
            [a, b, c, d, e, f]
        })
        .collect();
    let heads = [("depth", Side::Right), ("holds", Side::Right)];
    let [depth, holds] = heads;
    table([depth, holds, depth, holds, depth, holds], &rows)
}

fn panels(cut: &Cut<'_>, units: Units) -> String {
    let rows: Vec<[String; 6]> = cut
        .panels()
        .map(|panel| {
            [
                panel.mark.to_string(),
                faces(&panel.faces),
                panel.making.name().to_owned(),
                units.thickness(panel.thickness),
                blank_size(cut, &panel, units),
                units.mass(panel.mass),
            ]
        })
        .collect();
    table(
        [
            ("mark", Side::Left),
            ("faces", Side::Left),
            ("made", Side::Left),
            ("sheet", Side::Right),
            ("blank", Side::Right),
            ("mass", Side::Right),
        ],
        &rows,
    )
}

/// The faces of a panel: `front`, or `side 1 to side 6`.
fn faces(faces: &[Face]) -> String {
    match faces {
        [first, .., last] if faces.len() > 3 => format!("{first} to {last}"),
        few => few
            .iter()
            .map(ToString::to_string)
            .collect::<Vec<_>>()
            .join(", "),
    }
}

/// Width and height of the box about a blank.
fn blank_size(cut: &Cut<'_>, panel: &Panel, units: Units) -> String {
    let mut blank = Blank::new();
    match cut.blank(panel, &mut blank) {
        Ok(()) if !blank.is_empty() => blank
            .size()
            .map(|side| units.length(Length::from_metres(side)))
            .join(" x "),
        _ => "-".to_owned(),
    }
}

fn seams(tank: &Tank, units: Units) -> String {
    let rows: Vec<[String; 8]> = tank
        .seams()
        .map(|seam| {
            let [a, b] = seam.faces;
            let tacks = tank.tacks(&seam);
            let stitches = tank.division(&seam);
            [
                seam.mark.to_string(),
                format!("{a} - {b}"),
                joint_name(seam.joint).to_owned(),
                units.length(seam.length),
                seam.dihedral.display(AngleUnit::Degree, 1).to_string(),
                tacks
                    .map(|tacks| tacks.count.to_string())
                    .unwrap_or_default(),
                stitches
                    .map(|stitches| stitches.count.to_string())
                    .unwrap_or_default(),
                stitches
                    .map(|stitches| units.length(stitches.length))
                    .unwrap_or_default(),
            ]
        })
        .collect();
    table(
        [
            ("seam", Side::Left),
            ("between", Side::Left),
            ("joint", Side::Left),
            ("length", Side::Right),
            ("angle", Side::Right),
            ("tacks", Side::Right),
            ("stitches", Side::Right),
            ("of", Side::Right),
        ],
        &rows,
    )
}

fn arc(tank: &Tank, units: Units) -> String {
    let arc = tank.arc();
    facts(&[
        ("process", arc.process.name().to_owned()),
        (
            "current, voltage",
            format!(
                "{}, {}",
                arc.current.display(CurrentUnit::Ampere, 0),
                arc.voltage.display(VoltageUnit::Volt, 1)
            ),
        ),
        ("travel", units.speed(arc.travel)),
        (
            "arc energy",
            format!(
                "{}  U I / v, what AWS and ASME call heat input",
                units.line_energy(arc.arc_energy())
            ),
        ),
        (
            "heat input",
            format!(
                "{}  with the factor {} of EN 1011-1",
                units.line_energy(arc.heat_input()),
                arc.efficiency.display(RatioUnit::Percent, 0)
            ),
        ),
    ])
}

fn totals(cut: &Cut<'_>, units: Units) -> String {
    let totals = cut.tank().totals();
    let seams = match units {
        Units::Metric => totals.seam.display(LengthUnit::Metre, 3).to_string(),
        Units::Us | Units::Imperial => totals.seam.display(LengthUnit::Foot, 2).to_string(),
    };
    facts(&[
        ("seams to weld", seams),
        ("tacks", totals.tacks.to_string()),
        ("stitches", totals.stitches.to_string()),
        (
            "arc burning",
            format!(
                "{}, tacks not counted",
                totals.arc.display(TimeUnit::Minute, 1)
            ),
        ),
        (
            "heat into the tank",
            totals.heat.display(EnergyUnit::Kilojoule, 0).to_string(),
        ),
        ("mass of the blanks", units.mass(cut.mass())),
    ])
}

fn assumptions(assumed: &[Assumed]) -> String {
    let names: Vec<String> = assumed.iter().map(|one| one.field().to_string()).collect();
    let wide = names
        .iter()
        .map(|name| name.chars().count())
        .max()
        .unwrap_or(0);
    let values: Vec<String> = assumed.iter().map(ToString::to_string).collect();
    let value_wide = values
        .iter()
        .map(|value| value.chars().count())
        .max()
        .unwrap_or(0);
    let mut text = String::new();
    for ((name, value), one) in names.iter().zip(&values).zip(assumed) {
        let (pad, value_pad) = (
            wide - name.chars().count(),
            value_wide - value.chars().count(),
        );
        let indent = wide + value_wide + 6;
        let source = wrapped(one.source(), WIDE.saturating_sub(indent), 0)
            .replace('\n', &format!("\n{:indent$}", ""));
        let _ = writeln!(
            text,
            "  {name}{:pad$}  {value}{:value_pad$}  {source}",
            "", ""
        );
    }
    text
}

fn minded(all: &[notices::Told]) -> String {
    let mut text = String::new();
    for told in all {
        let line = format!("{}: {}", told.severity.name(), told.text);
        let _ = writeln!(text, "  {}", wrapped(&line, WIDE, 4));
    }
    text
}
