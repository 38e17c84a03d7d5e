//! How the edges of a `[[baffle]]` are welded: `free`, `plugs`, `weld_length`, `weld_gap`.

use seamwright_core::input::WallSet;
use seamwright_core::units::Length;
use toml::de::DeValue;

use super::faces::faces_in;
use super::reader::{Reader, Section, called};
use super::words::every_face;
use crate::diagnostics::Problem;

/// `free = ["top", …]`, and what else names some walls of a baffle.
pub(super) fn walls<'t>(reader: &mut Reader<'t>, section: &Section<'t>, key: &str) -> WallSet {
    let mut all = WallSet::NONE;
    let Some(value) = reader.value(section, key) else {
        return all;
    };
    let example = format!("{key} = [\"top\"]");
    let path = section.path_of(key);
    let DeValue::Array(walls) = value.get_ref() else {
        let problem = Problem::new(
            value.span(),
            format!("{} must be a list of walls", called(&path)),
        )
        .label("no list")
        .help(format!("write, for example, {example}"));
        reader.problem(problem);
        return all;
    };
    for wall in walls.iter() {
        let DeValue::String(text) = wall.get_ref() else {
            let problem = Problem::new(wall.span(), "a wall is named in quotes")
                .label("no text")
                .help(format!("write, for example, {example}"));
            reader.problem(problem);
            continue;
        };
        let Some([face]) = faces_in::<1>(reader, text, &wall.span(), &path, "top", &every_face())
        else {
            continue;
        };
        all.add(face);
        reader.spans.put(format!("{path}.{face}"), wall.span());
    }
    all
}

/// `weld_length` and `weld_gap`, which come together.
pub(super) fn spaced<'t>(reader: &mut Reader<'t>, section: &Section<'t>) -> Option<[Length; 2]> {
    let keys = ["weld_length", "weld_gap"];
    let given = keys.map(|key| reader.value(section, key).map(toml::Spanned::span));
    for ((own, other), [key, missing]) in given
        .iter()
        .zip(given.iter().rev())
        .zip([keys, [keys[1], keys[0]]])
    {
        if let (Some(span), None) = (own, other) {
            let path = section.path_of(key);
            let problem = Problem::new(
                span.clone(),
                format!("{} needs {missing} beside it", called(&path)),
            )
            .label("half of what a weld here and there is")
            .help("write both: the length of each weld, and the gap from its end to the next");
            reader.problem(problem);
        }
    }
    let [length, gap] = keys.map(|key| reader.quantity(section, key));
    Some([length?, gap?])
}
