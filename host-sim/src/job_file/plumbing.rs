//! `draws` and `balance` of `[fill]`: fittings through which liquid is drawn, and pairs that a pipe joins.

use seamwright_core::capacity::MAX_PICK_UPS;
use seamwright_core::compartment::MAX_PIPES;
use seamwright_core::input::FittingDraft;
use seamwright_core::tank::Plumbing;
use toml::de::DeValue;

use super::reader::{Reader, Section, Value, called, no_such_word};
use crate::diagnostics::Problem;

const DRAWS: &str = "draws = [\"outlet\"]";
const BALANCE: &str = "balance = [[\"outlet\", \"drain\"]]";

/// Both keys, by the names of the fittings.
pub(super) fn read<'t>(
    reader: &mut Reader<'t>,
    fill: &Section<'t>,
    fittings: &[FittingDraft],
) -> Plumbing {
    let mut plumbing = Plumbing::default();
    for value in entries(reader, fill, "draws", DRAWS, MAX_PICK_UPS) {
        if let Some(number) = fitting(reader, value, "fill.draws", DRAWS, fittings) {
            // As many as there may be.
            let _ = plumbing.draws.push(number);
        }
    }
    for value in entries(reader, fill, "balance", BALANCE, MAX_PIPES) {
        let both = match value.get_ref() {
            DeValue::Array(ends) if ends.len() == 2 => ends.iter().collect::<Vec<_>>(),
            _ => {
                let problem = Problem::new(value.span(), "a balance pipe joins two fittings")
                    .label("no list of two names")
                    .help(format!("write, for example, {BALANCE}"));
                reader.problem(problem);
                continue;
            }
        };
        let ends = both
            .iter()
            .filter_map(|end| fitting(reader, end, "fill.balance", BALANCE, fittings))
            .collect::<Vec<u8>>();
        if let [one, other] = *ends.as_slice() {
            let _ = plumbing.pipes.push([one, other]);
        }
    }
    if let (Some(span), false) = (fill.place("draws"), plumbing.draws.is_empty()) {
        for key in ["pick_up", "pick_up_at"] {
            if let Some(own) = fill.place(key) {
                let problem = Problem::new(
                    span.clone(),
                    format!("`fill.draws` and `fill.{key}` both say where liquid is drawn"),
                )
                .label("through the inner ends of these fittings")
                .related(own, "at this place")
                .help("take one of them out");
                reader.problem(problem);
            }
        }
    }
    plumbing
}

/// What stands in a list.
fn entries<'t>(
    reader: &mut Reader<'t>,
    fill: &Section<'t>,
    name: &str,
    example: &str,
    most: usize,
) -> Vec<Value<'t>> {
    let Some(value) = reader.value(fill, name) else {
        return Vec::new();
    };
    let path = fill.path_of(name);
    let wrong = |label: String| {
        Problem::new(
            value.span(),
            format!("{} must be a list of 1 to {most}", called(&path)),
        )
        .label(label)
        .help(format!("write, for example, {example}"))
    };
    match value.get_ref() {
        DeValue::Array(all) if (1..=most).contains(&all.len()) => all.iter().collect(),
        DeValue::Array(all) => {
            let problem = wrong(format!("{} found", all.len()));
            reader.problem(problem);
            Vec::new()
        }
        _ => {
            let problem = wrong("no list".to_owned());
            reader.problem(problem);
            Vec::new()
        }
    }
}

/// The number, from 1, of the fitting that a text names.
fn fitting<'t>(
    reader: &mut Reader<'t>,
    value: Value<'t>,
    path: &str,
    example: &str,
    fittings: &[FittingDraft],
) -> Option<u8> {
    let DeValue::String(text) = value.get_ref() else {
        let problem = Problem::new(value.span(), "a fitting is named by its name, in quotes")
            .label("no text")
            .help(format!("write, for example, {example}"));
        reader.problem(problem);
        return None;
    };
    let text = text.trim();
    let mut all = (1_u8..).zip(fittings).filter(|(_, one)| one.name == text);
    match (all.next(), all.next()) {
        (Some((number, one)), None) if one.bore.si() > 0.0 => {
            reader.spans.put(format!("{path}.{number}"), value.span());
            Some(number)
        }
        (Some(_), None) => {
            let problem = Problem::new(value.span(), format!("the fitting `{text}` has no bore"))
                .label("nothing runs through it")
                .help("give it a bore under [[fitting]], or name another");
            reader.problem(problem);
            None
        }
        (Some(_), Some(_)) => {
            let problem = Problem::new(
                value.span(),
                format!("several fittings are called `{text}`"),
            )
            .label("which of them?")
            .help("give each a name of its own under [[fitting]]");
            reader.problem(problem);
            None
        }
        (None, _) => {
            let names = fittings.iter().map(|one| one.name.as_str());
            let problem = no_such_word(value.span(), path, text, names);
            reader.problem(problem);
            None
        }
    }
}
