//! A block and its cuts.

use seamwright_core::input::limits::MAX_CUTS;
use seamwright_core::input::{Block, Cut, Face, Sized};

use super::super::faces::faces;
use super::super::reader::{Reader, Section, called};
use super::super::schema::CUT;
use super::size;
use crate::diagnostics::Problem;

pub(super) fn read<'t>(
    reader: &mut Reader<'t>,
    section: &Section<'t>,
    sized: Option<Sized>,
) -> Option<Block> {
    let length = size(reader, section, "length", "320 mm");
    let width = size(reader, section, "width", "180 mm");
    let height = size(reader, section, "height", "160 mm");
    let sections = reader.sections(section, "cut", &CUT);
    if let Some(extra) = sections.get(MAX_CUTS) {
        let problem = Problem::new(
            extra.at.clone(),
            format!("a block may have {MAX_CUTS} cuts"),
        )
        .label(format!("cut {} of {}", MAX_CUTS + 1, sections.len()))
        .help("leave out the cuts that matter least");
        reader.problem(problem);
    }
    let cuts: Vec<Option<Cut>> = sections
        .iter()
        .take(MAX_CUTS)
        .map(|section| cut(reader, section))
        .collect();
    let cuts: Option<Vec<Cut>> = cuts.into_iter().collect();
    Some(Block {
        sized: sized?,
        length: length?,
        width: width?,
        height: height?,
        cuts: heapless::Vec::from_slice(&cuts?).ok()?,
    })
}

fn cut<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> Option<Cut> {
    let forms = ["edge", "corner", "normal"].map(|form| section.has(form));
    match forms {
        [true, false, false] => {
            not_with(reader, section, "edge", &["through"]);
            let faces = faces(reader, section, "edge", "top back", &Face::BOX);
            let legs = reader.quantities(section, "legs", "legs = [\"20 mm\", \"20 mm\"]");
            need(
                reader,
                section,
                "legs",
                "how far the cut reaches along each of the two faces",
            );
            Some(Cut::Edge {
                faces: faces?,
                legs: legs?,
            })
        }
        [false, true, false] => {
            not_with(reader, section, "corner", &["through"]);
            let faces = faces(reader, section, "corner", "right back top", &Face::BOX);
            let legs =
                reader.quantities(section, "legs", "legs = [\"20 mm\", \"20 mm\", \"20 mm\"]");
            need(
                reader,
                section,
                "legs",
                "how far the cut reaches along x, y and z",
            );
            Some(Cut::Corner {
                faces: faces?,
                legs: legs?,
            })
        }
        [false, false, true] => {
            not_with(reader, section, "normal", &["legs"]);
            let normal = reader.numbers(section, "normal", "normal = [0, 1, 1]");
            let through = reader.quantities(
                section,
                "through",
                "through = [\"0 mm\", \"140 mm\", \"160 mm\"]",
            );
            need(reader, section, "through", "a point of the plane");
            Some(Cut::Plane {
                normal: normal?,
                through: through?,
            })
        }
        _ => {
            let problem = Problem::new(section.at.clone(), "a cut is given in one of three ways")
                .label(if forms.contains(&true) {
                    "more than one of them here"
                } else {
                    "none of them here"
                })
                .help("edge = \"top back\", legs = [\"20 mm\", \"20 mm\"]")
                .help("corner = \"right back top\", legs = [\"20 mm\", \"20 mm\", \"20 mm\"]")
                .help("normal = [0, 1, 1], through = [\"0 mm\", \"140 mm\", \"160 mm\"]");
            reader.problem(problem);
            None
        }
    }
}

/// Points at keys that belong to another way of giving a cut.
fn not_with<'t>(reader: &mut Reader<'t>, section: &Section<'t>, form: &str, others: &[&str]) {
    for other in others {
        if let Some(span) = section.place(other) {
            let problem = Problem::new(span, format!("`{other}` does not go with `{form}`"))
                .label("belongs to another way of giving a cut")
                .help("take it out");
            reader.problem(problem);
        }
    }
}

fn need<'t>(reader: &mut Reader<'t>, section: &Section<'t>, name: &str, what: &str) {
    if !section.has(name) {
        let problem = Problem::new(
            section.at.clone(),
            format!("{} is missing", called(&section.path_of(name))),
        )
        .label("not found in this cut")
        .help(format!("add {name}: {what}"));
        reader.problem(problem);
    }
}
