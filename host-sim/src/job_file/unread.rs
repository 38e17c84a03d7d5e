//! What is told of a word, a quantity or a key that cannot be read.

use std::ops::Range;

use seamwright_core::input::Joint;
use seamwright_core::units::{ParseCause, ParseError};
use toml::de::DeValue;

use super::called::{called, title};
use super::nearest::{either, nearest};
use super::reader::Section;
use super::schema::{Kind, TABLES, Table};
use crate::diagnostics::Problem;

/// The longest list of words that stands beside a caret.
const SHORT_LIST: usize = 6;

/// A word that is not in its list.
pub(super) fn no_such_word<'w>(
    span: Range<usize>,
    path: &str,
    text: &str,
    words: impl Iterator<Item = &'w str> + Clone,
) -> Problem {
    let problem = Problem::new(span, format!("{} cannot be `{text}`", called(path)));
    let near = formerly(text)
        .map(|now| format!("what was written `{text}` is a \"{now}\" now"))
        .or_else(|| nearest(text, words.clone()).map(|near| format!("did you mean \"{near}\"?")));
    let all = either(words.clone());
    // A long list reads better on a line of its own than beside the caret.
    let mut problem = if words.count() <= SHORT_LIST {
        problem.label(format!("must be {all}"))
    } else {
        problem.label("not one that is known")
    };
    problem.help.extend(near);
    if !problem.label.contains(&all) {
        problem = problem.help(format!("known are {all}"));
    }
    problem
}

/// What a word of older job files is called now.
fn formerly(text: &str) -> Option<&'static str> {
    let is = |old: &str| text.trim().eq_ignore_ascii_case(old);
    match () {
        () if is("half lap") => Some(Joint::HalfOpenCorner.name()),
        () if is("full lap") => Some(Joint::ClosedCorner.name()),
        () => None,
    }
}

/// Why a text is no quantity: short beside the caret, the units below it.
pub(super) fn unread(problem: Problem, error: &ParseError) -> Problem {
    let (what, symbols) = (error.about.what, error.about.symbols);
    let units = || {
        format!(
            "the units of {what} are {}",
            either(symbols.iter().copied())
        )
    };
    match error.cause {
        ParseCause::MissingUnit => problem.label("a number without its unit").help(units()),
        ParseCause::UnknownUnit { nearest } => {
            let problem = problem.label(format!("no unit of {what}"));
            match nearest {
                Some(near) => problem
                    .help(format!("did you mean `{near}`?"))
                    .help(units()),
                None => problem.help(units()),
            }
        }
        ParseCause::OtherQuantity { unit, what: other } => problem
            .label(format!("{unit} is {other}; {what} is wanted here"))
            .help(units()),
        ParseCause::AmbiguousUnit { us, imperial } => problem
            .label("one size in the US, another in imperial measure")
            .help(format!("write `{us}` or `{imperial}`")),
        // The others say in one short sentence what is wrong and how to write it.
        _ => problem.label(error.to_string()),
    }
}

/// A key that its table does not know: the nearest that it does, or the table that does know it.
pub(super) fn unknown(
    section: &Section<'_>,
    span: Range<usize>,
    name: &str,
    value: &DeValue<'_>,
) -> Problem {
    let (table, top) = (is_table(value), section.path.is_empty());
    let known = || {
        section
            .schema
            .keys
            .iter()
            .filter(|key| !top || table == matches!(key.kind, Kind::Table | Kind::Tables))
            .map(|key| key.name)
    };
    if top && !table && nearest(name, known()).is_none() && home(name, top).is_none() {
        return Problem::new(span, format!("unknown key `{name}`"))
            .label("before the first table stands only `name`")
            .help("take it out, or move it below the [table] that it belongs to");
    }
    let problem = if table {
        Problem::new(span, format!("unknown table [{}]", section.path_of(name)))
            .label("no table of a job file")
    } else {
        Problem::new(
            span,
            format!("unknown key {}", called(&section.path_of(name))),
        )
        .label(format!("not a key of {}", section.title()))
    };
    if let Some(near) = nearest(name, known()) {
        return problem.help(format!("did you mean `{near}`?"));
    }
    match home(name, top) {
        Some(home) if home.path.is_empty() => problem.help(format!(
            "`{name}` belongs at the top of the file, before the first table"
        )),
        Some(home) => problem.help(format!("`{name}` belongs in {}", title(home))),
        _ if table && top => {
            problem.help(format!("the tables of a job file are {}", either(known())))
        }
        _ => problem.help(format!(
            "the keys of {} are {}",
            section.title(),
            either(known())
        )),
    }
}

/// The table that has a key of this name, the top of the file being the last to be thought of.
fn home(name: &str, top: bool) -> Option<&'static Table> {
    let (above, below): (Vec<&Table>, Vec<&Table>) =
        TABLES.iter().partition(|table| table.path.is_empty());
    let above = above.into_iter().filter(|_| !top);
    below
        .into_iter()
        .chain(above)
        .find(|table| table.key(name).is_some())
}

/// A table, or a list of them.
fn is_table(value: &DeValue<'_>) -> bool {
    match value {
        DeValue::Table(_) => true,
        DeValue::Array(array) => array
            .iter()
            .any(|one| matches!(one.get_ref(), DeValue::Table(_))),
        _ => false,
    }
}

pub(super) fn found(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "text",
        DeValue::Integer(_) | DeValue::Float(_) => "a bare number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date or time",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}
