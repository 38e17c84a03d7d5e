//! How much each seam draws in: which pulls more, rather than by how much.

use std::fmt::Write as _;

use seamwright_core::seam::Seam;
use seamwright_core::supply::shrinkage::{Estimate, Note};
use seamwright_core::supply::{Draw, Shrinkage};
use seamwright_core::tank::Tank;
use seamwright_core::units::Length;
use serde_json::{Map, Value, json};

use super::Units;
use super::cited::Cited;
use super::table::{Side, table, wrapped};
use crate::job_file::Extras;

/// Signs in a line.
const WIDE: usize = 100;

fn pulls(tank: &Tank) -> impl Iterator<Item = (Seam, Shrinkage)> {
    tank.seams()
        .filter_map(|seam| Some((seam, tank.shrinkage(&seam)?)))
}

/// By how much each side of a seam's edge is cut larger; `None` where it is not.
fn each(tank: &Tank, extras: &Extras, seam: &Seam) -> Option<Length> {
    Some(tank.allowance(seam, extras.shrink?)?.each)
}

/// What blanks are cut larger for, and how far that may be trusted; `None` where they are not.
#[must_use]
pub fn allowed(tank: &Tank, extras: &Extras, units: Units) -> Option<String> {
    let draw = extras.shrink?;
    let edges: Vec<String> = tank
        .seams()
        .filter_map(|seam| {
            let each = each(tank, extras, &seam)?;
            Some(format!("{} {}", seam.mark, units.fine(each)))
        })
        .collect();
    let without: Vec<String> = tank
        .seams()
        .filter(|seam| seam.welded && each(tank, extras, seam).is_none())
        .map(|seam| seam.mark.to_string())
        .collect();
    let mut said = if edges.is_empty() {
        "No blank is cut larger for shrinkage: there is no rule for any of these seams.".to_owned()
    } else {
        format!(
            "Blanks are cut larger for shrinkage, each of the two at a seam by half of what the seam draws in: {}.",
            edges.join(", ")
        )
    };
    if !without.is_empty() {
        let _ = write!(
            said,
            " Nothing is added at {}: corners that are not tees or laps have no rule, and seams of baffles and fittings lie at no edge of a wall.",
            without.join(", ")
        );
    }
    said.push_str(match draw {
        Draw::ByRule => " Taken is the middle of the rule, or the most that any metal draws in with this heat where that is less. The rules were found on carbon steel plate; in other metals, and in thin sheet, a seam may draw in by a small part or a multiple of that, and not at all where the sheet buckles instead. Weld a trial piece, measure it, and give shrink_by.",
        Draw::By(_) => " This is the job's own shrink_by, taken for every seam between walls: it holds for the sheet, joint, heat and clamping that it was measured with.",
    });
    said.push_str(" The gauge knows no allowance and shows blanks without it.");
    Some(said)
}

pub(super) fn text(tank: &Tank, extras: &Extras, units: Units, cited: &mut Cited) -> String {
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
    let said = allowed(tank, extras, units).unwrap_or_else(|| {
        "Blanks are cut without any of it: they have no allowance for shrinkage.".to_owned()
    });
    let _ = writeln!(out, "  {}", wrapped(&said, WIDE, 4));
    out
}

pub(super) fn json(tank: &Tank, extras: &Extras) -> Value {
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
            if let Some(each) = each(tank, extras, &seam) {
                map.insert("allowance_each_m".to_owned(), json!(each.si()));
            }
            Value::Object(map)
        })
        .collect();
    json!(all)
}
