//! `[shape]` and its cuts.

use std::ops::Range;

use seamwright_core::body::{Block, Cut, Face, MAX_CUTS};

use super::reader::{Reader, Section, Word, called, no_such_word};
use super::schema::CUT;
use crate::diagnostics::Problem;

/// Kinds of body that the format has and this version does not compute.
const PLANNED: [&str; 3] = ["profile", "taper", "drum"];

pub(super) fn read<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> Option<Block> {
    let known_kind = kind(reader, section);
    let sized = if section.has("sized") {
        reader.word(section, "sized")
    } else {
        Some(Default::default())
    };
    let length = reader.quantity(section, "length");
    let width = reader.quantity(section, "width");
    let height = reader.quantity(section, "height");
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
    known_kind.then_some(())?;
    Some(Block {
        sized: sized?,
        length: length?,
        width: width?,
        height: height?,
        cuts: heapless::Vec::from_slice(&cuts?).ok()?,
    })
}

fn kind<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> bool {
    let Some((text, span)) = reader.text(section, "kind", "block") else {
        return false;
    };
    let text = text.trim();
    if text == "block" {
        return true;
    }
    let problem = if PLANNED.contains(&text) {
        Problem::new(span, format!("a `{text}` is not computed by this version"))
            .label("must be `block`")
            .help("where a box with plane cuts comes near, describe that instead")
    } else {
        no_such_word(span, "shape.kind", text, ["block"].into_iter())
    };
    reader.problem(problem);
    false
}

fn cut<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> Option<Cut> {
    let forms = ["edge", "corner", "normal"].map(|form| section.has(form));
    match forms {
        [true, false, false] => {
            not_with(reader, section, "edge", &["through"]);
            let faces = faces(reader, section, "edge", "top back");
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
            let faces = faces(reader, section, "corner", "right back top");
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

/// `N` faces of the box in one text.
fn faces<'t, const N: usize>(
    reader: &mut Reader<'t>,
    section: &Section<'t>,
    name: &str,
    example: &str,
) -> Option<[Face; N]> {
    let (text, span) = reader.text(section, name, example)?;
    let path = section.path_of(name);
    let words: Vec<&str> = text.split_whitespace().collect();
    let found = words.len();
    let mut faces = Vec::new();
    for word in words {
        match Face::read(word) {
            Some(face) if Face::BOX.contains(&face) => faces.push(face),
            _ => {
                let all: Vec<String> = Face::BOX.iter().map(ToString::to_string).collect();
                let problem = no_such_word(
                    within(&span, text, word),
                    &path,
                    word,
                    all.iter().map(String::as_str),
                );
                reader.problem(problem);
                return None;
            }
        }
    }
    let faces = <[Face; N]>::try_from(faces).ok();
    if faces.is_none() {
        let problem = Problem::new(span, format!("{} names {N} faces", called(&path)))
            .label(format!("{found} found, {N} needed"))
            .help(format!("write, for example, \"{example}\""));
        reader.problem(problem);
    }
    faces
}

/// The place of a word inside a quoted text, as far as the text has no escapes.
fn within(span: &Range<usize>, text: &str, word: &str) -> Range<usize> {
    let quoted = span.len() == text.len() + 2;
    match text.find(word) {
        Some(at) if quoted => span.start + 1 + at..span.start + 1 + at + word.len(),
        _ => span.clone(),
    }
}
