//! What a report says, before anybody knows who reads it.
//!
//! A subject makes its rows once, as a [`Section`] of [`Block`]s: words in the units asked for, and beside them the
//! same figures in SI units under the keys of the JSON object. [`render`](super::render) writes sections as text for
//! a terminal, as HTML for the job sheet and as an object for programs.

use std::fmt::Display;

use seamwright_core::advice::notice::Severity;
use seamwright_core::units::Quantity;
use serde_json::{Map, Value};

use super::Units;

/// Keys and values for programs: SI units, angles in degrees.
pub type Data = Map<String, Value>;

/// Who sees words. Programs are told the data that belongs to them, whoever sees them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Seen {
    /// Those who read the report, and those who read the job sheet.
    #[default]
    Everywhere,
    /// Those who read the report.
    Report,
    /// Those who read the job sheet.
    Sheet,
}

/// Words, and what programs are told in their place.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cell {
    /// As the report has them.
    pub text: String,
    /// As the job sheet has them, where that differs.
    pub sheet: Option<String>,
    /// What programs are told.
    pub data: Data,
}

/// A line of a table, a cell for each column; programs alone are told of one without words.
pub type Row = Vec<Cell>;

/// How a column stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Words.
    Left,
    /// Figures.
    Right,
}

/// A column of a table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Column {
    /// Its head.
    pub head: &'static str,
    /// Its head on the job sheet; `None` where it is not on it.
    pub sheet: Option<&'static str>,
    /// How the report sets it; the job sheet sets figures to the right.
    pub side: Side,
}

/// Rows under heads.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// The list that programs find the rows' data in; without one it belongs to the section itself.
    pub key: Option<&'static str>,
    /// The columns.
    pub columns: Vec<Column>,
    /// The rows.
    pub rows: Vec<Row>,
    /// Whether the report leaves the heads out and breaks the last column into lines.
    pub bare: bool,
}

/// What a person should know.
#[derive(Clone, Debug, PartialEq)]
pub struct Notice {
    /// How much it matters.
    pub severity: Severity,
    /// What it says.
    pub text: String,
    /// What it rests on; the report then says that instead of how much it matters.
    pub source: Option<&'static str>,
    /// A stable code for programs.
    pub code: &'static str,
    /// Whether something else says the same, so that only programs are told.
    pub told: bool,
}

/// A piece of a section.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// A line at the margin, as it is.
    Plain(String),
    /// A paragraph; its second and later lines stand so far in, and without a number it is not broken.
    Line(String, Option<usize>),
    /// Names and what there is to say of each.
    Facts {
        /// Names and values.
        rows: Vec<(&'static str, Cell)>,
        /// Whether the report breaks long values.
        broken: bool,
        /// The head of the values where the job sheet shows a table of them.
        head: Option<&'static str>,
    },
    /// A table.
    Table(Table),
    /// Notices, and the list that programs find them in.
    Notices(Option<&'static str>, Vec<Notice>),
    /// A drawing for the job sheet: an SVG element of this crate's making, which goes into the page as it is, and
    /// what it shows.
    Picture(String, String),
}

/// All that is said of one subject.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Section {
    /// Its heading in the report.
    pub title: &'static str,
    /// Its heading on the job sheet.
    pub sheet: &'static str,
    /// The objects, one in the other, that programs find its data in.
    pub place: &'static [&'static str],
    /// What it says, and who sees it.
    pub blocks: Vec<(Seen, Block)>,
    /// What programs are told besides.
    pub data: Data,
    /// Whether programs are told nothing of it.
    pub words_only: bool,
    /// Who sees what is added next.
    next: Seen,
}

/// Words that programs are not told.
pub fn said(text: impl Display) -> Cell {
    Cell {
        text: text.to_string(),
        ..Cell::default()
    }
}

/// Words that programs find under `key` as they are.
pub fn word(key: &str, text: impl Display) -> Cell {
    let cell = said(text);
    let text = cell.text.clone();
    cell.data(key, text)
}

impl<T: Display> From<T> for Cell {
    fn from(text: T) -> Self {
        said(text)
    }
}

impl Cell {
    /// A quantity as `shown` writes it, and its SI value under `key`.
    pub fn of<Q: Quantity>(
        key: &str,
        value: Q,
        units: Units,
        shown: impl Fn(Units, Q) -> String,
    ) -> Self {
        said(shown(units, value)).data(key, value.si())
    }

    /// What programs are told.
    #[must_use]
    pub fn data(mut self, key: &str, value: impl Into<Value>) -> Self {
        self.data.insert(key.to_owned(), value.into());
        self
    }

    /// What programs are told where it is known.
    #[must_use]
    pub fn maybe(self, key: &str, value: Option<impl Into<Value>>) -> Self {
        match value {
            Some(value) => self.data(key, value),
            None => self,
        }
    }

    /// Its data in an object of their own, which all cells under that key share.
    #[must_use]
    pub fn under(mut self, key: &str) -> Self {
        let data = std::mem::take(&mut self.data);
        self.data(key, data)
    }

    /// Other words on the job sheet.
    #[must_use]
    pub fn on_sheet(mut self, text: impl Display) -> Self {
        self.sheet = Some(text.to_string());
        self
    }
}

/// A column of words.
#[must_use]
pub const fn left(head: &'static str) -> Column {
    Column {
        head,
        sheet: Some(head),
        side: Side::Left,
    }
}

/// A column of figures.
#[must_use]
pub const fn right(head: &'static str) -> Column {
    Column {
        side: Side::Right,
        ..left(head)
    }
}

impl Column {
    /// Another head on the job sheet, or none to leave the column out there.
    #[must_use]
    pub const fn on_sheet(self, sheet: Option<&'static str>) -> Self {
        Self { sheet, ..self }
    }
}

impl Table {
    /// A table.
    pub fn new<const N: usize>(
        columns: [Column; N],
        rows: impl IntoIterator<Item = impl Into<Row>>,
    ) -> Self {
        Self {
            columns: columns.into(),
            rows: rows.into_iter().map(Into::into).collect(),
            ..Self::default()
        }
    }

    /// A table whose rows programs find in a list.
    #[must_use]
    pub fn keyed(self, key: &'static str) -> Self {
        let key = Some(key);
        Self { key, ..self }
    }

    /// The same rows to read down, `many` of them abreast.
    #[must_use]
    pub fn abreast(self, many: usize) -> Self {
        let (deep, wide) = (self.rows.len().div_ceil(many), self.columns.len());
        let cells = |place: usize| match self.rows.get(place) {
            Some(row) => row.clone(),
            None => vec![Cell::default(); wide],
        };
        let row = |row: usize| (0..many).flat_map(move |column| cells(column * deep + row));
        Self {
            rows: (0..deep).map(|place| row(place).collect()).collect(),
            columns: self.columns.repeat(many),
            ..self
        }
    }
}

impl Section {
    /// An empty section of the report.
    #[must_use]
    pub fn new(title: &'static str) -> Self {
        Self {
            title,
            sheet: title,
            ..Self::default()
        }
    }

    /// Another heading on the job sheet.
    #[must_use]
    pub fn on_sheet(self, sheet: &'static str) -> Self {
        Self { sheet, ..self }
    }

    /// Where programs find its data.
    #[must_use]
    pub fn at(self, place: &'static [&'static str]) -> Self {
        Self { place, ..self }
    }

    /// Tells programs what no words are shown for.
    pub fn put(&mut self, key: &str, value: impl Into<Value>) {
        self.data.insert(key.to_owned(), value.into());
    }

    /// What is added from here on is for these.
    pub fn only(&mut self, next: Seen) {
        self.next = next;
    }

    /// Adds a block.
    pub fn add(&mut self, block: Block) {
        self.blocks.push((self.next, block));
    }

    /// Adds a name and its value to the facts that stand last, or begins new ones.
    pub fn fact(&mut self, name: &'static str, value: impl Into<Cell>) {
        let row = (name, value.into());
        match self.blocks.last_mut() {
            Some((seen, Block::Facts { rows, .. })) if *seen == self.next => rows.push(row),
            _ => self.add(Block::Facts {
                rows: vec![row],
                broken: false,
                head: None,
            }),
        }
    }

    /// Adds a table.
    pub fn table(&mut self, table: Table) {
        self.add(Block::Table(table));
    }

    /// Adds a line at the margin.
    pub fn plain(&mut self, text: impl Into<String>) {
        self.add(Block::Plain(text.into()));
    }

    /// Adds a paragraph whose later lines stand further in.
    pub fn line(&mut self, text: impl Into<String>) {
        self.add(Block::Line(text.into(), Some(4)));
    }

    /// Adds a paragraph whose lines stand under one another.
    pub fn flush(&mut self, text: impl Into<String>) {
        self.add(Block::Line(text.into(), Some(2)));
    }

    /// Adds a line that is not broken, however long.
    pub fn unbroken(&mut self, text: impl Into<String>) {
        self.add(Block::Line(text.into(), None));
    }

    /// Adds a caution that programs are not told.
    pub fn caution(&mut self, text: impl Into<String>) {
        let notice = Notice {
            severity: Severity::Caution,
            text: text.into(),
            source: None,
            code: "",
            told: false,
        };
        self.add(Block::Notices(None, vec![notice]));
    }
}
