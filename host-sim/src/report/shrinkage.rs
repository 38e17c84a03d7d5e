//! How much each seam draws in: which pulls more, rather than by how much.

use std::fmt::Write as _;

use seamwright_core::seam::Seam;
use seamwright_core::supply::shrinkage::{Estimate, ShrinkageNote, THIN_SHEET};
use seamwright_core::supply::{Draw, Shrinkage};
use seamwright_core::tank::Tank;
use seamwright_core::units::Length;
use serde_json::Value;

use super::Units;
use super::cited::Cited;
use super::model::{Row, Section, Table, left, right, said, word};
use crate::job_file::Extras;

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
pub(super) fn allowed(tank: &Tank, extras: &Extras, units: Units) -> Option<String> {
    let draw = extras.shrink?;
    let edges: Vec<String> = tank
        .seams()
        .filter_map(|seam| {
            let each = each(tank, extras, &seam)?;
            Some(format!("{} {}", seam.mark, units.fine(each)))
        })
        .collect();
    let without = tank.seams_without_allowance(draw);
    let without: Vec<String> = without.map(|seam| seam.mark.to_string()).collect();
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

pub(super) fn section(tank: &Tank, extras: &Extras, units: Units, cited: &mut Cited) -> Section {
    let mut section = Section::new("Shrinkage, as rules of thumb have it");
    let mut notes: Vec<ShrinkageNote> = Vec::new();
    let mut cell = |key: &str, estimate: Option<Estimate>| {
        let Some(estimate) = estimate else {
            return said("no rule");
        };
        for note in &estimate.notes {
            if !notes.contains(note) {
                notes.push(*note);
            }
        }
        let [least, most] = estimate.range;
        let mark = cited.mark(estimate.source);
        let range = if least == most {
            format!("{} {mark}", units.fine(most))
        } else {
            format!("{} to {} {mark}", units.fine(least), units.fine(most))
        };
        let notes: Vec<&str> = estimate.notes.iter().map(|note| note.text()).collect();
        said(range)
            .data("range_m", estimate.range.map(Length::si))
            .data("source", estimate.source)
            .data("notes", notes)
            .under(key)
    };
    let rows: Vec<Row> = pulls(tank)
        .map(|(seam, pull)| {
            let each = each(tank, extras, &seam).map(Length::si);
            vec![
                word("seam", seam.mark).maybe("allowance_each_m", each),
                cell("across", pull.across),
                cell("most_across", pull.most),
                cell("along", pull.along),
            ]
        })
        .collect();
    if rows.is_empty() {
        section.put("shrinkage", Vec::<Value>::new());
        return section;
    }
    let columns = [
        left("seam"),
        right("across"),
        right("at most across"),
        right("along"),
    ];
    section.table(Table::new(columns, rows).keyed("shrinkage"));
    for note in notes {
        let thin = units.thickness(THIN_SHEET);
        let text = note.text().replace(" 3 mm ", &format!(" {thin} "));
        section.line(format!("Mind: {text}."));
    }
    section.line(allowed(tank, extras, units).unwrap_or_else(|| {
        "Blanks are cut without any of it: they have no allowance for shrinkage.".to_owned()
    }));
    section
}
