//! What can be wrong with a written quantity, in words that say how to put it right.

use core::fmt;

use super::super::About;
use super::super::print::{Decimal, MAX_PLACES};

/// Where in the text: the bytes from `start` up to but not including `end`.
///
/// Both lie between two characters. An empty span marks a place where something is missing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct Span {
    /// The first byte.
    pub start: usize,
    /// The byte after the last.
    pub end: usize,
}

impl Span {
    /// The part of `text` that this marks; empty if it is another text.
    #[must_use]
    pub fn of(self, text: &str) -> &str {
        text.get(self.start..self.end).unwrap_or("")
    }

    /// The whole of `text` without the spaces around it.
    pub(super) fn trimmed(text: &str) -> Self {
        Self {
            start: 0,
            end: text.len(),
        }
        .without_spaces(text)
    }

    /// The same without the spaces at its ends.
    pub(super) fn without_spaces(self, text: &str) -> Self {
        let part = self.of(text);
        let start = self.start + (part.len() - part.trim_start().len());
        Self {
            start,
            end: start + part.trim().len(),
        }
    }
}

/// Why a text does not read as a quantity, and where.
///
/// `Display` gives one sentence for a person, with a way out.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct ParseError {
    /// What is wrong.
    pub cause: ParseCause,
    /// The part of the text that is to blame.
    pub span: Span,
    /// The quantity that was wanted, and its units.
    pub about: &'static About,
}

/// What is wrong with the text.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum ParseCause {
    /// Nothing is written.
    Empty,
    /// There is no number where one must stand.
    NotANumber,
    /// A comma between digits: a decimal mark, or a break between thousands.
    DecimalComma {
        /// The number if the comma is a decimal mark.
        value: f64,
        /// The digits after the comma.
        places: u8,
    },
    /// Two numbers with only a space between them, which make no mixed number.
    TwoNumbers,
    /// The number under a fraction's line is zero.
    ZeroDenominator,
    /// A fraction beside a whole number is one or more: 12 9/8.
    ImproperFraction,
    /// A fraction beside or over a decimal: 12.5 5/8.
    FractionAfterDecimal,
    /// A fraction of a unit which is not written with fractions.
    FractionNotUsual {
        /// The number as a decimal.
        value: f64,
        /// The unit's symbol.
        unit: &'static str,
    },
    /// The number has no unit.
    MissingUnit,
    /// No such unit is known.
    UnknownUnit {
        /// The symbol of the unit with the nearest spelling.
        nearest: Option<&'static str>,
    },
    /// The name is one size in the US and another in imperial measure.
    AmbiguousUnit {
        /// The US measure's symbol.
        us: &'static str,
        /// The imperial measure's symbol.
        imperial: &'static str,
    },
    /// The unit measures something else.
    OtherQuantity {
        /// That unit's symbol.
        unit: &'static str,
        /// What it measures: "a current".
        what: &'static str,
    },
    /// A measure in two parts that are not whole feet and then inches.
    NotFeetThenInches,
    /// The number is above what an `f64` can hold.
    TooLarge,
    /// Something follows after the unit.
    TrailingText,
}

impl fmt::Display for ParseError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let what = self.about.what;
        let units = Units(self.about.symbols);
        match self.cause {
            ParseCause::Empty => write!(f, "nothing is written here; write {what} such as {}", Example(self.about)),
            ParseCause::NotANumber => write!(f, "this is not a number; write {what} such as {}", Example(self.about)),
            ParseCause::DecimalComma { value, places } => comma(f, value, places),
            ParseCause::TwoNumbers => {
                write!(f, "two numbers stand side by side; write one without spaces in it, such as {}", Example(self.about))
            }
            ParseCause::ZeroDenominator => f.write_str("nothing can be divided by 0; write a fraction such as 5/8"),
            ParseCause::ImproperFraction => {
                f.write_str("the fraction after a whole number must be less than 1; write it as in 12 5/8")
            }
            ParseCause::FractionAfterDecimal => {
                f.write_str("a decimal and a fraction do not go together; write 12.625 or 12 5/8")
            }
            ParseCause::FractionNotUsual { value, unit } => write!(
                f,
                "{unit} is not read with fractions, only in and ft are; write {} {unit}",
                Decimal::with_figures(value, 4)
            ),
            ParseCause::MissingUnit => write!(f, "{what} needs its unit after the number: {units}"),
            ParseCause::UnknownUnit { nearest: Some(nearest) } => {
                write!(f, "this is no unit of {what}; did you mean {nearest}? Known are {units}")
            }
            ParseCause::UnknownUnit { nearest: None } => write!(f, "this is no unit of {what}; use {units}"),
            ParseCause::AmbiguousUnit { us, imperial } => {
                write!(f, "this is one size in the US and another in imperial measure; write {us} or {imperial}")
            }
            ParseCause::OtherQuantity { unit, what: other } => {
                write!(f, "{unit} is {other}, and {what} is wanted here; use {units}")
            }
            ParseCause::NotFeetThenInches => f.write_str(
                "a length in two parts is whole feet and then inches; write it as in 3 ft 2 5/8 in, or with one unit",
            ),
            ParseCause::TooLarge => f.write_str("this number is too large to calculate with; write a smaller one"),
            ParseCause::TrailingText => f.write_str("something more follows after the unit; take it away"),
        }
    }
}

impl core::error::Error for ParseError {}

fn comma(f: &mut fmt::Formatter<'_>, value: f64, places: u8) -> fmt::Result {
    let number = Decimal::new(value, places);
    match places {
        3 => write!(
            f,
            "a comma can mean two things here; write {number} with a point, or {} without a break",
            Decimal::new(value * 1_000.0, 0)
        ),
        0..=MAX_PLACES => write!(
            f,
            "a comma is not read in a number; write {number} with a point"
        ),
        _ => f.write_str("a comma is not read in a number; write it with a point, such as 12.5"),
    }
}

/// The known units: "mm, cm or m".
struct Units(&'static [&'static str]);

impl fmt::Display for Units {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let last = self.0.len().saturating_sub(1);
        for (index, symbol) in self.0.iter().enumerate() {
            f.write_str(match index {
                0 => "",
                _ if index == last => " or ",
                _ => ", ",
            })?;
            f.write_str(symbol)?;
        }
        Ok(())
    }
}

/// How the quantity is written: "12.5 mm or 12 5/8 in".
struct Example(&'static About);

impl fmt::Display for Example {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let symbol = self.0.symbols.first().copied().unwrap_or("");
        write!(f, "12.5{}{symbol}", if symbol == "°" { "" } else { " " })?;
        if self.0.fractions {
            f.write_str(" or 12 5/8 in")
        } else {
            Ok(())
        }
    }
}
