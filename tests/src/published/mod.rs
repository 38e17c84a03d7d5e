//! Figures held to published ones, and the page that tells all of them.
//!
//! A check asks a [`Source`] whether a figure of ours comes as near to the printed one as it must. While a page is made
//! ([`page::hold`]) the answers of its thread are kept as well, one [`Line`] each; else only the answer counts.

mod line;
pub mod names;
pub mod page;

use std::cell::RefCell;

pub use line::Line;
use line::{Off, figures};

use crate::near::{Tolerance, between, near};

/// How we know what a source says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Basis {
    /// The page, or a reprint of it, was read.
    Seen,
    /// Remembered, and not read.
    FromMemory,
    /// What the trade does, without a source.
    CommonPractice,
    /// Worked out apart from this project: a closed form, a series, a general library.
    Computed,
}

impl Basis {
    /// All, as the page counts them.
    pub const ALL: [Self; 4] = [
        Self::Seen,
        Self::FromMemory,
        Self::CommonPractice,
        Self::Computed,
    ];

    /// As the page has it.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::Seen => "seen",
            Self::FromMemory => "from memory",
            Self::CommonPractice => "common practice",
            Self::Computed => "computed",
        }
    }

    /// By the text that a row of `data` has under `basis`. Where it says nothing the figure counts as remembered, which
    /// promises least.
    #[must_use]
    pub fn of_row(text: &str) -> Self {
        match text {
            "published value, page text seen" => Self::Seen,
            "common practice, no source" => Self::CommonPractice,
            "independent numeric/analytic evaluation" => Self::Computed,
            _ => Self::FromMemory,
        }
    }
}

/// Where a figure stands.
#[derive(Clone, Copy, Debug)]
pub struct Source<'a> {
    /// Author, title, table or clause.
    pub text: &'a str,
    /// How we know it.
    pub basis: Basis,
    /// Its row in `data`, if it has one.
    pub row: Option<&'a str>,
}

/// A source that was read.
#[must_use]
pub const fn seen(text: &str) -> Source<'_> {
    source(text, Basis::Seen)
}

/// A source that is remembered.
#[must_use]
pub const fn from_memory(text: &str) -> Source<'_> {
    source(text, Basis::FromMemory)
}

/// What the trade does.
#[must_use]
pub const fn common_practice(text: &str) -> Source<'_> {
    source(text, Basis::CommonPractice)
}

/// What was worked out apart from this project.
#[must_use]
pub const fn computed(text: &str) -> Source<'_> {
    source(text, Basis::Computed)
}

const fn source(text: &str, basis: Basis) -> Source<'_> {
    Source {
        text,
        basis,
        row: None,
    }
}

thread_local! {
    /// What the checks of this thread have told since a page began to be made.
    static TOLD: RefCell<Option<Vec<Line>>> = const { RefCell::new(None) };
}

/// Keeps a line, if lines are kept.
fn tell(line: Line) {
    TOLD.with_borrow_mut(|told| {
        if let Some(lines) = told {
            lines.push(line);
        }
    });
}

/// What a check tells.
pub(crate) fn told_by<E>(check: impl FnOnce() -> Result<(), E>) -> Result<Vec<Line>, E> {
    TOLD.set(Some(Vec::new()));
    let outcome = check();
    let lines = TOLD.take().unwrap_or_default();
    outcome.map(|()| lines)
}

impl Source<'_> {
    fn tell(&self, figure: &str, there: String, here: String, off: Off) {
        tell(Line {
            figure: figure.to_owned(),
            source: self.text.to_owned(),
            row: self.row.map(str::to_owned),
            basis: self.basis,
            there,
            here,
            off,
            of: 1,
        });
    }

    fn what(&self, figure: &str) -> String {
        format!("{figure} ({}, {})", self.row.unwrap_or("no row"), self.text)
    }

    /// Whether `got` comes as near to the printed `expected` as it must.
    ///
    /// # Errors
    /// A sentence with figure, source, both values and how far they are apart.
    pub fn near(
        &self,
        figure: &str,
        got: f64,
        expected: f64,
        tolerance: Tolerance,
    ) -> Result<(), String> {
        near(&self.what(figure), got, expected, tolerance)?;
        self.tell(
            figure,
            figures(expected),
            figures(got),
            Off::by(got, expected),
        );
        Ok(())
    }

    /// Whether `got` lies above the printed `expected` by a share between the two given: where a figure errs on one
    /// side by intention.
    ///
    /// # Errors
    /// A sentence with figure, source, both values and the share.
    pub fn between(
        &self,
        figure: &str,
        got: f64,
        expected: f64,
        [least, most]: [f64; 2],
    ) -> Result<(), String> {
        between(&self.what(figure), got, expected, least, most)?;
        let off = Off::Band {
            share: got / expected - 1.0,
            least,
            most,
        };
        self.tell(figure, figures(expected), figures(got), off);
        Ok(())
    }

    /// Whether `got` lies within a printed range, its ends included.
    ///
    /// # Errors
    /// A sentence with figure, source, range and value.
    pub fn within(&self, figure: &str, got: f64, [low, high]: [f64; 2]) -> Result<(), String> {
        let there = format!("{} to {}", figures(low), figures(high));
        if !(low <= got && got <= high) {
            let what = self.what(figure);
            return Err(format!("{what}: got {got:?}, which is not within {there}"));
        }
        self.tell(figure, there, figures(got), Off::Within);
        Ok(())
    }

    /// Whether what is printed lies within a range of ours, its ends included.
    ///
    /// # Errors
    /// A sentence with figure, source, range and value.
    pub fn spanned(
        &self,
        figure: &str,
        [low, high]: [f64; 2],
        expected: f64,
    ) -> Result<(), String> {
        let here = format!("{} to {}", figures(low), figures(high));
        // A range in millimetres is not the double of its decimal.
        let slack = 1e-9 * expected.abs();
        if !(low - slack <= expected && expected <= high + slack) {
            let what = self.what(figure);
            return Err(format!("{what}: {expected:?} is printed, ours is {here}"));
        }
        self.tell(figure, figures(expected), here, Off::Within);
        Ok(())
    }

    /// Whether what is said in words agrees: `agrees` says whether `here` is what is printed `there`.
    ///
    /// # Errors
    /// A sentence with figure, source and both.
    pub fn says(&self, figure: &str, there: &str, here: &str, agrees: bool) -> Result<(), String> {
        if !agrees {
            let what = self.what(figure);
            return Err(format!("{what}: printed is {there}, ours is {here}"));
        }
        self.tell(figure, there.to_owned(), here.to_owned(), Off::Agrees);
        Ok(())
    }
}
