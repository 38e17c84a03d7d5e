//! A drum.

use seamwright_core::input::{Drum, Ends, Sized};
use seamwright_core::units::Length;

use super::super::reader::{Reader, Section, no_such_word};
use super::super::words::ENDS;
use super::{size, wanted};
use crate::diagnostics::Problem;

pub(super) fn read<'t>(
    reader: &mut Reader<'t>,
    section: &Section<'t>,
    sized: Option<Sized>,
) -> Option<Drum> {
    let diameter = size(reader, section, "diameter", "200 mm");
    let length = size(reader, section, "length", "360 mm");
    wanted(
        reader,
        section,
        "axis",
        "axis = \"upright\" or axis = \"lying\"",
    );
    let axis = reader.word(section, "axis");
    let ends = ends(reader, section);
    Some(Drum {
        sized: sized?,
        diameter: diameter?,
        length: length?,
        axis: axis?,
        ends: ends?,
    })
}

fn ends<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> Option<Ends> {
    if !section.has("ends") {
        no_dish(reader, section, "flat");
        return Some(Ends::Flat);
    }
    let (text, span) = reader.text(section, "ends", "flat")?;
    let word = ENDS
        .into_iter()
        .find(|word| word.eq_ignore_ascii_case(text.trim()));
    let Some(word) = word else {
        let problem = no_such_word(span, "shape.ends", text, ENDS.into_iter());
        reader.problem(problem);
        return None;
    };
    if word == "torispherical" {
        let crown: Option<Length> = size(reader, section, "crown", "200 mm");
        let knuckle: Option<Length> = size(reader, section, "knuckle", "20 mm");
        return Some(Ends::Torispherical {
            crown: crown?,
            knuckle: knuckle?,
        });
    }
    no_dish(reader, section, word);
    Some(match word {
        "hemispherical" => Ends::Hemispherical,
        "ellipsoidal 2:1" => Ends::Ellipsoidal,
        _ => Ends::Flat,
    })
}

/// Points at radii that only torispherical ends have.
fn no_dish<'t>(reader: &mut Reader<'t>, section: &Section<'t>, word: &str) {
    for name in ["crown", "knuckle"] {
        if let Some(span) = section.place(name) {
            let problem = Problem::new(span, format!("{word} ends have no `{name}`"))
                .label("only torispherical ends have one")
                .help("take it out, or write ends = \"torispherical\"");
            reader.problem(problem);
        }
    }
}
