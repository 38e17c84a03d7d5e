//! Walks the spanned tree of a job file against the [schema](super::schema), collecting every
//! problem on the way instead of stopping at the first.

use std::ops::Range;

use seamwright_core::input::Face;
use seamwright_core::units::{Quantity, parse};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

pub(super) use super::called::called;
use super::called::title;
use super::nearest::either;
use super::schema::{Key, Kind, Table};
use super::spans::Spans;
pub(super) use super::unread::no_such_word;
use super::unread::{found, unknown, unread};
use super::words::every_face;
use crate::diagnostics::Problem;

/// A value of the tree with its place.
pub(super) type Value<'t> = &'t Spanned<DeValue<'t>>;

/// One word out of a list.
pub(super) trait Word: Copy + 'static {
    /// All of them.
    fn all() -> Vec<Self>;
    /// How it is written.
    fn word(self) -> String;
    /// The one that `text` is, upper or lower case.
    fn read(text: &str) -> Option<Self> {
        Self::all()
            .into_iter()
            .find(|word| word.word().eq_ignore_ascii_case(text.trim()))
    }
}

/// A table of the file, with what may stand in it.
#[derive(Clone, Debug)]
pub(super) struct Section<'t> {
    pub(super) schema: &'static Table,
    /// `shape`, or `shape.cut.2` for the second of several.
    pub(super) path: String,
    pub(super) at: Range<usize>,
    pub(super) table: &'t DeTable<'t>,
}

impl Section<'_> {
    /// Whether it has this key.
    pub(super) fn has(&self, name: &str) -> bool {
        self.place(name).is_some()
    }

    /// Where the value of this key stands.
    pub(super) fn place(&self, name: &str) -> Option<Range<usize>> {
        self.table
            .iter()
            .find(|(key, _)| key.get_ref().as_ref() == name)
            .map(|(_, value)| value.span())
    }

    pub(super) fn path_of(&self, name: &str) -> String {
        if self.path.is_empty() {
            name.to_owned()
        } else {
            format!("{}.{name}", self.path)
        }
    }

    /// How messages call it.
    pub(super) fn title(&self) -> String {
        title(self.schema)
    }
}

/// The walk: what was found wrong so far, and where everything stood.
#[derive(Debug)]
pub(super) struct Reader<'t> {
    text: &'t str,
    pub(super) problems: Vec<Problem>,
    pub(super) spans: Spans,
    /// The faces that the body has, once its shape is read: those that a message names.
    pub(super) faces: Vec<Face>,
}

impl<'t> Reader<'t> {
    pub(super) fn new(text: &'t str) -> Self {
        Self {
            text,
            problems: Vec::new(),
            spans: Spans::default(),
            faces: every_face(),
        }
    }

    pub(super) fn problem(&mut self, problem: Problem) {
        self.problems.push(problem);
    }

    /// The whole file as a section.
    pub(super) fn top(
        &mut self,
        table: &'t Spanned<DeTable<'t>>,
        schema: &'static Table,
    ) -> Section<'t> {
        let end = self.text.trim_end().len();
        let section = Section {
            schema,
            path: String::new(),
            at: end..end,
            table: table.get_ref(),
        };
        self.check_keys(&section);
        section
    }

    /// The table under `name`, its keys checked.
    pub(super) fn section(
        &mut self,
        parent: &Section<'t>,
        name: &str,
        schema: &'static Table,
    ) -> Option<Section<'t>> {
        let value = self.value(parent, name)?;
        self.table_of(value, parent.path_of(name), schema)
    }

    /// The tables under `name`, each with its keys checked.
    pub(super) fn sections(
        &mut self,
        parent: &Section<'t>,
        name: &str,
        schema: &'static Table,
    ) -> Vec<Section<'t>> {
        let Some(value) = self.value(parent, name) else {
            return Vec::new();
        };
        let DeValue::Array(array) = value.get_ref() else {
            let wrong = self.wrong_kind(value, &parent.path_of(name), "a list of tables");
            self.problem(wrong.help(format!("head each one with {}", title(schema))));
            return Vec::new();
        };
        let paths = (1..).map(|number| format!("{}.{number}", parent.path_of(name)));
        array
            .iter()
            .zip(paths)
            .filter_map(|(value, path)| self.table_of(value, path, schema))
            .collect()
    }

    fn table_of(
        &mut self,
        value: Value<'t>,
        path: String,
        schema: &'static Table,
    ) -> Option<Section<'t>> {
        let DeValue::Table(table) = value.get_ref() else {
            let wrong = self.wrong_kind(value, &path, "a table");
            self.problem(wrong.help(format!("head it with {}", title(schema))));
            return None;
        };
        self.spans.put(path.clone(), value.span());
        let section = Section {
            schema,
            path,
            at: value.span(),
            table,
        };
        self.check_keys(&section);
        Some(section)
    }

    fn check_keys(&mut self, section: &Section<'t>) {
        for (key, value) in section.table {
            let name = key.get_ref().as_ref();
            match section.schema.key(name) {
                None => {
                    let problem = unknown(section, key.span(), name, value.get_ref());
                    self.problem(problem);
                }
                Some(_) => self.spans.put(section.path_of(name), value.span()),
            }
        }
    }

    /// The value under `name`; its absence is a problem if the key is required.
    pub(super) fn value(&mut self, section: &Section<'t>, name: &str) -> Option<Value<'t>> {
        let found = section
            .table
            .iter()
            .find(|(key, _)| key.get_ref().as_ref() == name)
            .map(|(_, value)| value);
        if found.is_none()
            && let Some(key) = section.schema.key(name).filter(|key| key.required)
        {
            self.missing(section, key);
        }
        found
    }

    fn missing(&mut self, section: &Section<'t>, key: &Key) {
        let path = section.schema.path_of(key.name);
        let (what, help) = match key.kind {
            Kind::Table => (
                format!("there is no [{path}]"),
                format!("add a [{path}] table"),
            ),
            Kind::Quantity(example) | Kind::Measure(example) => (
                format!("{} is missing", called(&path)),
                format!("add {} = \"{example}\", with your own figure", key.name),
            ),
            _ => (
                format!("{} is missing", called(&path)),
                format!("add {} = \"…\"", key.name),
            ),
        };
        if section.path.is_empty() && key.kind == Kind::Text {
            let problem = Problem::new(0..0, what)
                .label("it stands at the top, before the first table")
                .help(format!("add {} = \"…\" as the first line", key.name));
            self.problem(problem);
            return;
        }
        let label = if section.path.is_empty() {
            "not found up to here"
        } else {
            "not found in this table"
        };
        self.problem(
            Problem::new(section.at.clone(), what)
                .label(label)
                .help(help),
        );
    }

    /// The text under `name`.
    pub(super) fn text(
        &mut self,
        section: &Section<'t>,
        name: &str,
        example: &str,
    ) -> Option<(&'t str, Range<usize>)> {
        let value = self.value(section, name)?;
        self.text_of(value, &section.path_of(name), example)
    }

    fn text_of(
        &mut self,
        value: Value<'t>,
        path: &str,
        example: &str,
    ) -> Option<(&'t str, Range<usize>)> {
        let DeValue::String(text) = value.get_ref() else {
            let wrong = self.wrong_kind(value, path, "text in quotes");
            self.problem(wrong.help(format!("write, for example, \"{example}\"")));
            return None;
        };
        Some((text.as_ref(), value.span()))
    }

    /// The quantity under `name`.
    pub(super) fn quantity<Q: Quantity>(&mut self, section: &Section<'t>, name: &str) -> Option<Q> {
        let value = self.value(section, name)?;
        self.quantity_of(value, &section.path_of(name))
    }

    /// A value read as a quantity.
    pub(super) fn quantity_of<Q: Quantity>(&mut self, value: Value<'t>, path: &str) -> Option<Q> {
        let unit = Q::ABOUT.symbols.first().copied().unwrap_or_default();
        let text = match value.get_ref() {
            DeValue::String(text) => text,
            DeValue::Integer(_) | DeValue::Float(_) => {
                let bare = self.text.get(value.span()).unwrap_or_default();
                let problem = Problem::new(value.span(), format!("{} needs a unit", called(path)))
                    .label(format!(
                        "a bare number; {} is written with its unit, in quotes",
                        Q::ABOUT.what
                    ))
                    .help(format!(
                        "write \"{bare} {unit}\", or another of {}",
                        either(Q::ABOUT.symbols.iter().copied())
                    ));
                self.problem(problem);
                return None;
            }
            _ => {
                let wrong = self.wrong_kind(
                    value,
                    path,
                    &format!("{} with its unit, in quotes", Q::ABOUT.what),
                );
                self.problem(wrong.help(format!(
                    "the units of {} are {}",
                    Q::ABOUT.what,
                    either(Q::ABOUT.symbols.iter().copied())
                )));
                return None;
            }
        };
        match parse::<Q>(text) {
            Ok(quantity) => Some(quantity),
            Err(error) => {
                let span = self.inside(value.span(), text, error.span.start..error.span.end);
                let problem =
                    Problem::new(span, format!("{} is not {}", called(path), Q::ABOUT.what));
                self.problem(unread(problem, &error));
                None
            }
        }
    }

    /// A number with one of `units`, each with its size; `what` is what it measures, with the article.
    pub(super) fn measure(
        &mut self,
        section: &Section<'t>,
        name: &str,
        what: &str,
        units: &[(&str, f64)],
    ) -> Option<f64> {
        let value = self.value(section, name)?;
        let path = section.path_of(name);
        let example = match section.schema.key(name).map(|key| key.kind) {
            Some(Kind::Measure(example)) => example,
            _ => "",
        };
        // Of several spellings of one unit the first is told.
        let spelt = units.iter().enumerate().filter(|(place, (_, size))| {
            !units
                .iter()
                .take(*place)
                .any(|(_, earlier)| earlier.to_bits() == size.to_bits())
        });
        let symbols = either(spelt.map(|(_, (unit, _))| *unit));
        let title = || format!("{} is not {what}", called(&path));
        let DeValue::String(text) = value.get_ref() else {
            let wrong = self.wrong_kind(value, &path, &format!("{what} with its unit, in quotes"));
            self.problem(wrong.help(format!("write, for example, \"{example}\"")));
            return None;
        };
        let text = text.trim();
        let start = text
            .find(|sign: char| !(sign.is_ascii_digit() || matches!(sign, '.' | '+' | '-')))
            .unwrap_or(text.len());
        let (number, unit) = text.split_at(start);
        let unit = unit.trim();
        let size = units.iter().find(|(symbol, _)| *symbol == unit);
        let number = number.parse::<f64>().ok().filter(|n| n.is_finite());
        let label = match (number, size) {
            (Some(number), Some((_, size))) => return Some(number * size),
            (None, _) => "it does not begin with a number".to_owned(),
            (_, None) if unit.is_empty() => "a number without its unit".to_owned(),
            (_, None) if unit.starts_with(',') => {
                "a comma; decimals have a point, and thousands are not parted".to_owned()
            }
            (_, None) => format!("no unit of {what}"),
        };
        let problem = Problem::new(value.span(), title())
            .label(label)
            .help(format!(
                "write, for example, \"{example}\"; its units are {symbols}"
            ));
        self.problem(problem);
        None
    }

    /// Exactly `N` values in a list.
    pub(super) fn list<const N: usize>(
        &mut self,
        section: &Section<'t>,
        name: &str,
        example: &str,
    ) -> Option<[Value<'t>; N]> {
        let value = self.value(section, name)?;
        let path = section.path_of(name);
        let DeValue::Array(array) = value.get_ref() else {
            let wrong = self.wrong_kind(value, &path, &format!("a list of {N}"));
            self.problem(wrong.help(format!("write, for example, {example}")));
            return None;
        };
        let all: Vec<Value<'t>> = array.iter().collect();
        let found = all.len();
        let list = <[Value<'t>; N]>::try_from(all);
        if list.is_err() {
            let problem = Problem::new(value.span(), format!("{} needs {N} values", called(&path)))
                .label(format!("{found} found, {N} needed"))
                .help(format!("write, for example, {example}"));
            self.problem(problem);
        }
        list.ok()
    }

    /// Exactly `N` quantities in a list.
    pub(super) fn quantities<Q: Quantity, const N: usize>(
        &mut self,
        section: &Section<'t>,
        name: &str,
        example: &str,
    ) -> Option<[Q; N]> {
        let values = self.list::<N>(section, name, example)?;
        let path = section.path_of(name);
        for (value, place) in values.iter().zip(1..) {
            self.spans.put(format!("{path}.{place}"), value.span());
        }
        let read: Vec<Q> = values
            .into_iter()
            .filter_map(|value| self.quantity_of(value, &path))
            .collect();
        read.try_into().ok()
    }

    /// The plain number under `name`.
    pub(super) fn number(
        &mut self,
        section: &Section<'t>,
        name: &str,
        example: &str,
    ) -> Option<f64> {
        let value = self.value(section, name)?;
        self.number_of(value, &section.path_of(name), "a plain number", example)
    }

    /// Exactly `N` plain numbers in a list.
    pub(super) fn numbers<const N: usize>(
        &mut self,
        section: &Section<'t>,
        name: &str,
        example: &str,
    ) -> Option<[f64; N]> {
        let values = self.list::<N>(section, name, example)?;
        let path = section.path_of(name);
        let read: Vec<f64> = values
            .into_iter()
            .filter_map(|value| self.number_of(value, &path, "plain numbers", example))
            .collect();
        read.try_into().ok()
    }

    fn number_of(
        &mut self,
        value: Value<'t>,
        path: &str,
        wanted: &str,
        example: &str,
    ) -> Option<f64> {
        let number = match value.get_ref() {
            DeValue::Integer(integer) => i64::from_str_radix(integer.as_str(), integer.radix())
                .ok()
                .map(|whole| whole as f64),
            DeValue::Float(float) => float.as_str().parse::<f64>().ok(),
            _ => {
                let wrong = self.wrong_kind(value, path, wanted);
                self.problem(wrong.help(format!("write, for example, {example}")));
                return None;
            }
        };
        let finite = number.filter(|number| number.is_finite());
        if finite.is_none() {
            let problem = Problem::new(value.span(), format!("{} needs {wanted}", called(path)))
                .label("too large, or no number")
                .help(format!("write, for example, {example}"));
            self.problem(problem);
        }
        finite
    }

    /// The word under `name`, out of all that `W` has.
    pub(super) fn word<W: Word>(&mut self, section: &Section<'t>, name: &str) -> Option<W> {
        let words: Vec<String> = W::all().into_iter().map(Word::word).collect();
        let example = words.first().cloned().unwrap_or_default();
        let (text, span) = self.text(section, name, &example)?;
        let found = W::read(text);
        if found.is_none() {
            let problem = no_such_word(
                span,
                &section.path_of(name),
                text,
                words.iter().map(String::as_str),
            );
            self.problem(problem);
        }
        found
    }

    /// The word under `name` where it is there and right; nothing is told of it.
    pub(super) fn word_given<W: Word>(&self, section: &Section<'t>, name: &str) -> Option<W> {
        let (_, value) = section
            .table
            .iter()
            .find(|(key, _)| key.get_ref().as_ref() == name)?;
        match value.get_ref() {
            DeValue::String(text) => W::read(text),
            _ => None,
        }
    }

    fn wrong_kind(&self, value: Value<'t>, path: &str, wanted: &str) -> Problem {
        Problem::new(value.span(), format!("{} must be {wanted}", called(path)))
            .label(format!("{} found", found(value.get_ref())))
    }

    /// Where `part` of a string's value stands in the file; the whole string if it has escapes.
    fn inside(&self, span: Range<usize>, value: &str, part: Range<usize>) -> Range<usize> {
        let raw = self.text.get(span.clone()).unwrap_or_default();
        match raw.find(value) {
            Some(start) if !part.is_empty() && part.end <= value.len() => {
                span.start + start + part.start..span.start + start + part.end
            }
            _ => span,
        }
    }
}
