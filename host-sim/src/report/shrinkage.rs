//! How much each seam draws in: which pulls more, rather than by how much.

use std::fmt::Write as _;

use seamwright_core::heat::refuse::Refused;
use seamwright_core::heat::shrink::{self, Estimate, Note, Sheet};
use seamwright_core::job::Tank;
use seamwright_core::joint::Joint;
use seamwright_core::quantity::{Length, LineEnergy};
use seamwright_core::seam::Seam;
use serde_json::{Map, Value, json};

use super::Units;
use super::cited::Cited;
use super::table::{Side, table, wrapped};

/// Signs in a line.
const WIDE: usize = 100;

/// The estimates of a seam.
struct Pull {
    /// Across it, by the rule for its joint; of a corner there is none.
    across: Option<Estimate>,
    /// The most across it that any metal can draw in.
    most: Option<Estimate>,
    /// Along it.
    along: Option<Estimate>,
}

fn pull(tank: &Tank, seam: &Seam) -> Option<Pull> {
    let joint = seam.joint?;
    let alloy = tank.job().alloy();
    let sheet = Sheet {
        family: alloy.family(),
        thickness: seam.thinner,
    };
    let section = tank.bead(seam)?.ok().map(|bead| bead.section());
    let across: Option<Result<Estimate, Refused>> = match joint {
        Joint::Butt => {
            section.map(|area| shrink::butt(sheet, area, tank.job().joints().allow().gap))
        }
        Joint::Tee => Some(shrink::tee(sheet, seam.thinner)),
        Joint::JoggleLap | Joint::FlangedLap => Some(shrink::lap(sheet, seam.thinner)),
        Joint::OpenCorner | Joint::HalfLap | Joint::FullLap => None,
    };
    let metal = alloy.metal();
    let capacity = metal.heat_capacity().value * alloy.density();
    let heat = tank.arc().arc_energy().si() * tank.job().welding().uptake.si();
    let heat = LineEnergy::from_joules_per_metre(heat);
    Some(Pull {
        across: across.and_then(Result::ok),
        most: shrink::free(heat, metal.expansion().value, capacity, seam.thinner).ok(),
        along: shrink::along(sheet, tank.arc().current, seam.length).ok(),
    })
}

fn pulls(tank: &Tank) -> impl Iterator<Item = (Seam, Pull)> {
    tank.seams()
        .filter_map(|seam| Some((seam, pull(tank, &seam)?)))
}

pub(super) fn text(tank: &Tank, units: Units, cited: &mut Cited) -> String {
    let mut notes: Vec<Note> = Vec::new();
    let mut cell = |estimate: &Option<Estimate>| match estimate {
        Some(estimate) => {
            for note in &estimate.notes {
                if !notes.contains(note) {
                    notes.push(*note);
                }
            }
            let [least, most] = estimate.range;
            let mark = cited.mark(estimate.source);
            if least == most {
                format!("{} {mark}", units.fine(most))
            } else {
                format!("{} to {} {mark}", units.fine(least), units.fine(most))
            }
        }
        None => "no rule".to_owned(),
    };
    let rows: Vec<[String; 4]> = pulls(tank)
        .map(|(seam, pull)| {
            [
                seam.mark.to_string(),
                cell(&pull.across),
                cell(&pull.most),
                cell(&pull.along),
            ]
        })
        .collect();
    if rows.is_empty() {
        return String::new();
    }
    let mut out = table(
        [
            ("seam", Side::Left),
            ("across", Side::Right),
            ("at most across", Side::Right),
            ("along", Side::Right),
        ],
        &rows,
    );
    for note in notes {
        let text = note.text().replace(
            " 3 mm ",
            &format!(" {} ", units.thickness(Length::from_metres(0.003))),
        );
        let _ = writeln!(out, "  {}", wrapped(&format!("Mind: {text}."), WIDE, 4));
    }
    let _ = writeln!(
        out,
        "  Blanks are cut without any of it: they have no allowance for shrinkage."
    );
    out
}

pub(super) fn json(tank: &Tank) -> Value {
    let all: Vec<Value> = pulls(tank)
        .map(|(seam, pull)| {
            let mut map = Map::new();
            map.insert("seam".to_owned(), json!(seam.mark.to_string()));
            for (key, estimate) in [
                ("across", pull.across),
                ("most_across", pull.most),
                ("along", pull.along),
            ] {
                let Some(estimate) = estimate else {
                    continue;
                };
                let notes: Vec<&str> = estimate.notes.iter().map(|note| note.text()).collect();
                map.insert(
                    key.to_owned(),
                    json!({
                        "range_m": estimate.range.map(Length::si),
                        "source": estimate.source,
                        "notes": notes,
                    }),
                );
            }
            Value::Object(map)
        })
        .collect();
    json!(all)
}
