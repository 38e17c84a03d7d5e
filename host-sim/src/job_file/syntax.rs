//! Text that is not TOML, and the likeliest slip behind it.

use std::ops::Range;

use crate::diagnostics::Problem;

/// The message for what the TOML reader found.
pub(super) fn explain(error: &toml::de::Error, text: &str) -> Problem {
    let end = text.trim_end().len();
    let span = error.span().unwrap_or(end..end);
    let message = error.message().trim().replace('\n', "; ");
    let twice = message.contains("duplicate key");
    let slip = slip(text, &span);
    let what = if twice {
        "this key is given twice"
    } else {
        "this is not TOML"
    };
    let problem = Problem::new(span, what).label(message);
    if twice {
        return problem.help("take one of the two out");
    }
    problem.help(slip.unwrap_or_else(|| {
        "a line is key = \"value\", or a [table] of its own; text stands in double quotes"
            .to_owned()
    }))
}

/// What was probably forgotten on the line of `span`.
fn slip(text: &str, span: &Range<usize>) -> Option<String> {
    let start = text
        .get(..span.start)?
        .rfind('\n')
        .map_or(0, |newline| newline + 1);
    let line = text.get(start..)?.lines().next()?.trim();
    let (key, value) = line.split_once('=')?;
    let (key, value) = (key.trim(), value.trim());
    let plain = value.split('#').next().unwrap_or_default().trim();
    if value.matches('"').count() % 2 == 1 {
        return Some(format!(
            "a quote is open or missing; {}",
            "inches inside quotes are written in: \"12 5/8 in\""
        ));
    }
    if plain.is_empty() {
        return Some(format!("write a value after {key} ="));
    }
    let quoted = plain.starts_with(['"', '\'', '[', '{']);
    (!quoted).then(|| format!("put the value in double quotes: {key} = \"{plain}\""))
}
