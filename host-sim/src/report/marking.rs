//! What is marked on each panel: tables and drawings for the job sheet, and the object for programs.

use seamwright_core::blank::{CutBlank, Panel};
use seamwright_core::marking::{HoleUse, ScribeUse};
use serde_json::{Value, json};

use super::model::{Block, Section, Seen, Table, left, right, said};
use crate::cut::Cut;
use crate::sheet::marked::Marked;

/// Tables and drawings of all panels: mark, drawing, and rows.
pub(crate) fn section(panels: &[(String, String, &[Marked])]) -> Section {
    let mut section = Section::new("Marking out").on_sheet("Marking out");
    section.words_only = true;
    section.only(Seen::Sheet);
    section.line(
        "Seen from outside, in millimetres from the datum: x from the leftmost edge of the blank, y from its \
         lowest. C corners, H holes, B bends in the order in which they are made, S scribed lines, E first ends of \
         seams: stitches and tacks are measured from there."
            .to_owned(),
    );
    section.line(
        "The order of bends is judged for a straight blade in a press brake or a finger brake; both sides of the \
         sheet rise by half the turn. Common practice, no source: try it on a strip of card."
            .to_owned(),
    );
    for (mark, drawing, rows) in panels {
        section.add(Block::Picture(
            drawing.clone(),
            format!("Panel {mark}, not to scale here"),
        ));
        let figure = |row: &Marked, end: usize, axis: usize| {
            let at = row.at.get(end).and_then(|at| at.get(axis));
            said(at.map_or_else(String::new, |at| format!("{at:.1}")))
        };
        let rows = rows.iter().map(|row| {
            vec![
                said(&row.mark),
                said(&row.what),
                figure(row, 0, 0),
                figure(row, 0, 1),
                figure(row, 1, 0),
                figure(row, 1, 1),
                said(&row.note),
            ]
        });
        let columns = [
            left("mark"),
            left("what"),
            right("x"),
            right("y"),
            right("to x"),
            right("to y"),
            left("note"),
        ];
        section.table(Table::new(columns, rows));
    }
    section
}

/// What is marked on a panel, for programs: metres from the datum.
pub(crate) fn data(cut: &Cut<'_>, panel: &Panel, blank: &CutBlank) -> Value {
    let marker = cut.tank().marker(cut.larger(), panel, blank);
    let corners: Vec<[f64; 2]> = blank.outline().map(|node| [node.x, node.y]).collect();
    let holes = marker.holes().map(|hole| {
        let (what, number) = match hole.what {
            HoleUse::Fitting(number) => ("fitting", Some(number)),
            HoleUse::Baffle(number) => ("baffle hole", Some(number)),
            HoleUse::Relief => ("relief", None),
            HoleUse::Plug(number) => ("plug weld", Some(number)),
        };
        json!({ "for": what, "number": number, "at_m": hole.at, "diameter_m": hole.diameter.si() })
    });
    let bends: Vec<_> = marker.bends().collect();
    let order = marker.bend_order();
    let steps = order.iter().filter_map(|step| {
        let bend = bends.get(usize::from(step.bend))?;
        let mut told = json!({
            "fold": step.bend,
            "line_m": bend.line.ends,
            "tangents_m": bend.tangents,
        });
        if let (Some(other), Some(keys)) = (step.blocked_by, told.as_object_mut()) {
            keys.insert("blocked_by_fold".to_owned(), json!(other));
        }
        Some(told)
    });
    let scribes = marker.scribes().map(|scribe| {
        let (what, number, side) = match scribe.what {
            ScribeUse::Baffle(number, far) => {
                ("baffle", number, Some(if far { "far" } else { "near" }))
            }
            ScribeUse::Flange(number) => ("baffle flange", number, None),
            ScribeUse::Quarter(number) => ("quarter", number, None),
        };
        let mut told = json!({ "for": what, "number": number, "ends_m": scribe.ends });
        if let (Some(side), Some(keys)) = (side, told.as_object_mut()) {
            keys.insert("face".to_owned(), json!(side));
        }
        told
    });
    let seams = marker.seams().map(|seam| {
        json!({
            "seam": seam.mark.to_string(),
            "first_m": seam.first,
            "last_m": seam.last,
            "first_end": seam.end.name(),
        })
    });
    json!({
        "corners_m": corners,
        "holes": holes.collect::<Value>(),
        "bends": steps.collect::<Value>(),
        "scribes": scribes.collect::<Value>(),
        "seams": seams.collect::<Value>(),
    })
}
