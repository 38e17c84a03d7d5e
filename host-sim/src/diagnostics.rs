//! What is wrong with a text that a user wrote, shown where it stands.
//!
//! A [`Problem`] points at a span of a [`Source`] and says what is wrong, what was found there, what
//! the limit is and how to get out. [`Report`] draws all problems of one file in file order; the
//! drawing itself is the `annotate-snippets` crate's.

use std::borrow::Cow;
use std::fmt;
use std::ops::Range;

use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet, normalize_untrusted_str};

/// How many problems one report shows; more than these are counted, not shown.
pub const SHOWN: usize = 20;

/// A text and the name under which its user knows it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// What to call it: the path as given, or `standard input`.
    pub name: String,
    /// The whole text.
    pub text: String,
}

/// One thing that is wrong, at one place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// Where, in bytes of the source's text.
    pub span: Range<usize>,
    /// What is wrong, as a sentence without its full stop.
    pub title: String,
    /// What stands at the place: the value found and the limit that it breaks.
    pub label: String,
    /// Another place that matters, and why.
    pub related: Option<(Range<usize>, String)>,
    /// Ways out, the likeliest first.
    pub help: Vec<String>,
}

impl Problem {
    /// A problem at `span`, with neither a label nor a way out yet.
    pub fn new(span: Range<usize>, title: impl Into<String>) -> Self {
        Self {
            span,
            title: title.into(),
            label: String::new(),
            related: None,
            help: Vec::new(),
        }
    }

    /// Says what stands at the place.
    #[must_use]
    pub fn label(mut self, label: impl Into<String>) -> Self {
        self.label = label.into();
        self
    }

    /// Adds a way out.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help.push(help.into());
        self
    }

    /// Points at a second place.
    #[must_use]
    pub fn related(mut self, span: Range<usize>, label: impl Into<String>) -> Self {
        self.related = Some((span, label.into()));
        self
    }
}

/// All problems of one source, in file order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Report {
    source: Source,
    problems: Vec<Problem>,
}

impl Report {
    /// Sorts `problems` into file order. Spans that do not lie inside the text, or that split a
    /// character, are moved to the nearest place that does: a report must never itself fail.
    #[must_use]
    pub fn new(source: Source, mut problems: Vec<Problem>) -> Self {
        for problem in &mut problems {
            problem.span = fitted(&source.text, &problem.span);
            if let Some((span, _)) = &mut problem.related {
                *span = fitted(&source.text, span);
            }
        }
        problems.sort_by_key(|problem| (problem.span.start, problem.span.end));
        problems.dedup();
        Self { source, problems }
    }

    /// The problems, in file order.
    #[must_use]
    pub fn problems(&self) -> &[Problem] {
        &self.problems
    }

    /// The text they are in.
    #[must_use]
    pub fn source(&self) -> &Source {
        &self.source
    }

    /// Line and column of a byte offset, both counted from 1, the column in characters.
    #[must_use]
    pub fn position(&self, offset: usize) -> (usize, usize) {
        let before = self.source.text.get(..offset).unwrap_or(&self.source.text);
        let line_start = before.rfind('\n').map_or(0, |newline| newline + 1);
        let line = before.bytes().filter(|byte| *byte == b'\n').count() + 1;
        let column = before
            .get(line_start..)
            .map_or(0, |text| text.chars().count())
            + 1;
        (line, column)
    }

    /// The report as text, with terminal colours if `colour`.
    #[must_use]
    pub fn render(&self, colour: bool) -> String {
        let renderer = if colour {
            Renderer::styled()
        } else {
            Renderer::plain()
        };
        let mut text = String::new();
        for problem in self.problems.iter().take(SHOWN) {
            text.push_str(&renderer.render(&[self.group(problem)]));
            text.push_str("\n\n");
        }
        let left = self.problems.len().saturating_sub(SHOWN);
        if left > 0 {
            text.push_str(&format!("… and {left} more.\n\n"));
        }
        let count = match self.problems.len() {
            1 => "1 problem".to_owned(),
            many => format!("{many} problems"),
        };
        text.push_str(&format!("{count} in {}.\n", clean(&self.source.name)));
        text
    }

    fn group<'a>(&'a self, problem: &'a Problem) -> Group<'a> {
        let mut snippet = Snippet::source(self.source.text.as_str())
            .path(clean(&self.source.name))
            .annotation(
                AnnotationKind::Primary
                    .span(problem.span.clone())
                    .label(clean(&problem.label)),
            );
        if let Some((span, label)) = &problem.related {
            snippet = snippet.annotation(
                AnnotationKind::Context
                    .span(span.clone())
                    .label(clean(label)),
            );
        }
        Level::ERROR
            .primary_title(clean(&problem.title))
            .element(snippet)
            .elements(
                problem
                    .help
                    .iter()
                    .map(|help| Level::HELP.message(clean(help))),
            )
    }
}

impl fmt::Display for Report {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.render(false))
    }
}

/// Text from a file or an argument may hold terminal control sequences; they are shown, not sent.
pub fn clean(text: &str) -> Cow<'_, str> {
    if text.chars().any(char::is_control) {
        Cow::Owned(normalize_untrusted_str(text))
    } else {
        Cow::Borrowed(text)
    }
}

/// The nearest span to `span` that slices `text`.
fn fitted(text: &str, span: &Range<usize>) -> Range<usize> {
    let mut start = span.start.min(text.len());
    while !text.is_char_boundary(start) {
        start -= 1;
    }
    let mut end = span.end.clamp(start, text.len());
    while !text.is_char_boundary(end) {
        end += 1;
    }
    start..end
}

#[cfg(test)]
mod tests {
    use super::*;

    fn source(text: &str) -> Source {
        Source {
            name: "tank.toml".into(),
            text: text.into(),
        }
    }

    #[test]
    fn a_report_shows_place_value_limit_and_way_out() {
        let problem = Problem::new(9..17, "`length` is too small")
            .label("0.5 mm; at least 1 mm")
            .help("write a longer one");
        let text = Report::new(source("length = \"0.5 mm\"\n"), vec![problem]).render(false);
        for part in [
            "`length` is too small",
            "tank.toml:1:10",
            "0.5 mm; at least 1 mm",
            "^^^^^^^^",
            "help: write a longer one",
            "1 problem in",
        ] {
            assert!(text.contains(part), "{part:?} is not in\n{text}");
        }
    }

    #[test]
    fn problems_stand_in_file_order_once() {
        let late = Problem::new(4..5, "late");
        let early = Problem::new(0..1, "early");
        let report = Report::new(
            source("a\nb\nc\n"),
            vec![late.clone(), early.clone(), late.clone()],
        );
        assert_eq!(report.problems(), [early, late]);
    }

    #[test]
    fn spans_that_do_not_fit_are_moved() {
        // The degree sign is two bytes.
        let report = Report::new(
            source("\"4°\""),
            vec![Problem::new(3..900, "x"), Problem::new(77..78, "y")],
        );
        assert_eq!(
            report
                .problems()
                .iter()
                .map(|p| p.span.clone())
                .collect::<Vec<_>>(),
            [2..5, 5..5]
        );
        assert!(!report.render(true).is_empty());
    }

    #[test]
    fn columns_count_characters() {
        let report = Report::new(source("a\n°°x"), vec![]);
        assert_eq!(report.position(6), (2, 3));
    }

    #[test]
    fn control_characters_are_not_sent_to_the_terminal() {
        let problem = Problem::new(0..1, "bad \u{1b}[31mkey");
        assert!(
            !Report::new(source("\u{1b}[2J"), vec![problem])
                .render(false)
                .contains('\u{1b}')
        );
    }
}
