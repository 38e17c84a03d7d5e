//! Text that is not TOML, and the likeliest slip behind it.

use std::ops::Range;

use crate::diagnostics::Problem;

/// The message for what the TOML reader found.
pub(super) fn explain(error: &toml::de::Error, text: &str) -> Problem {
    let end = text.trim_end().len();
    let span = error.span().unwrap_or(end..end);
    let message = error.message().trim().replace('\n', "; ");
    if message.contains("duplicate key") {
        let headed = text
            .get(..span.start)
            .is_some_and(|before| before.ends_with('['));
        let what = if headed { "table" } else { "key" };
        return Problem::new(span, format!("this {what} is given twice"))
            .label("the second time")
            .help("take one of the two out, or put both into one");
    }
    let (label, help) = match slip(text, &span) {
        Some((label, help)) => (label.to_owned(), help),
        None => (
            message,
            "a line is key = \"value\", or a [table] of its own; text stands in double quotes"
                .to_owned(),
        ),
    };
    Problem::new(span, "this is not TOML")
        .label(label)
        .help(help)
}

/// What was probably forgotten on the line of `span`, and how it should be.
fn slip(text: &str, span: &Range<usize>) -> Option<(&'static str, String)> {
    let start = text
        .get(..span.start)?
        .rfind('\n')
        .map_or(0, |newline| newline + 1);
    let line = text.get(start..)?.lines().next()?.trim();
    let (key, value) = line.split_once('=')?;
    let (key, value) = (key.trim(), value.trim());
    let plain = value.split('#').next().unwrap_or_default().trim();
    if plain.is_empty() {
        let help = format!("write a value after {key} =, or take the line out");
        return Some(("no value here", help));
    }
    if value.matches('"').count() % 2 == 1 {
        let help = "text stands between two double quotes; inches inside them are written in: \"12 5/8 in\"";
        return Some(("one double quote too few or too many", help.to_owned()));
    }
    let quoted = plain.starts_with(['"', '\'', '[', '{']);
    (!quoted).then(|| {
        let help = format!("write {key} = \"{plain}\"");
        ("a value without its double quotes", help)
    })
}
