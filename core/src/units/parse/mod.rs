//! Reading a quantity as a person writes it.
//!
//! ```text
//! quantity = [sign] measure
//! measure  = number unit                      320 mm    12.5 in    3e-2 bar
//!          | fraction unit                    5/8 in    12 5/8 in  12-5/8 in  12⅝ in
//!          | whole "ft" ["-"] number "in"     3 ft 2 5/8 in    3' 2"    3'-2 5/8"
//! ```
//!
//! Spaces between the parts are free. Fractions are for the units that the trade writes so: inches
//! and feet. A number is a decimal with a point; a comma is refused, since it could also part the
//! thousands. Decimals are rounded once to the nearest double, fractions once more at most; what is
//! too small for a double reads as zero.

mod error;
mod number;
mod unit;

#[cfg(test)]
mod tests;

use super::{Quantity, Unit};
pub use error::{ParseCause, ParseError, Span};
use number::{Form, Number};

/// What went wrong and where, before the quantity's name is added to it.
type Fault = (ParseCause, Span);

/// Reads any quantity: [`Length::parse`](super::Length::parse) and its like.
///
/// # Errors
///
/// Says what does not read and where: see [`ParseCause`].
pub fn parse<Q: Quantity>(text: &str) -> Result<Q, ParseError> {
    parse_with_unit(text).map(|(quantity, _)| quantity)
}

/// Reads any quantity and says in which unit it was written; of "3 ft 2 in" that is the inch.
///
/// # Errors
///
/// Says what does not read and where: see [`ParseCause`].
pub fn parse_with_unit<Q: Quantity>(text: &str) -> Result<(Q, Q::Unit), ParseError> {
    let fail = |(cause, span)| ParseError {
        cause,
        span,
        about: Q::ABOUT,
    };
    let (value, unit) = measure::<Q>(text).map_err(fail)?;
    let quantity = Q::of(value, unit);
    if quantity.si().is_finite() {
        Ok((quantity, unit))
    } else {
        Err(fail((ParseCause::TooLarge, Span::trimmed(text))))
    }
}

/// Reads the number of a unit.
fn measure<Q: Quantity>(text: &str) -> Result<(f64, Q::Unit), Fault> {
    let mut cursor = Cursor { text, at: 0 };
    cursor.skip_spaces();
    if cursor.rest().is_empty() {
        return Err((ParseCause::Empty, Span::trimmed(text)));
    }
    let negative = matches!(cursor.peek(), Some('-' | '−'));
    if negative || cursor.peek() == Some('+') {
        cursor.bump();
        cursor.skip_spaces();
    }
    let number = number::read(&mut cursor)?;
    let unit = unit::read::<Q>(&mut cursor, &number)?;
    cursor.skip_spaces();
    let (value, unit) = if cursor.rest().is_empty() {
        (number.value(), unit)
    } else {
        second_part::<Q>(&mut cursor, &number, unit)?
    };
    if !value.is_finite() {
        return Err((ParseCause::TooLarge, Span::trimmed(text)));
    }
    Ok((if negative { -value } else { value }, unit))
}

/// Reads the inches after the feet, and gives the sum in inches.
fn second_part<Q: Quantity>(
    cursor: &mut Cursor<'_>,
    first: &Number,
    big: Q::Unit,
) -> Result<(f64, Q::Unit), Fault> {
    let start = cursor.at;
    let rest_span = Span {
        start,
        end: cursor.text.trim_end().len(),
    };
    let compound = Q::Unit::COMPOUNDS.iter().find(|(unit, _, _)| *unit == big);
    if compound.is_some() && cursor.peek() == Some('-') {
        cursor.bump();
        cursor.skip_spaces();
    }
    if !cursor.peek().is_some_and(number::can_start) {
        return Err((ParseCause::TrailingText, rest_span));
    }
    let Some((_, small, count)) = compound else {
        let pairs = !Q::Unit::COMPOUNDS.is_empty();
        let cause = if pairs {
            ParseCause::NotFeetThenInches
        } else {
            ParseCause::TrailingText
        };
        return Err((cause, rest_span));
    };
    if first.form != Form::Whole {
        return Err((ParseCause::NotFeetThenInches, first.span));
    }
    let second = number::read(cursor)?;
    let unit_start = cursor.at;
    let unit = unit::read::<Q>(cursor, &second)?;
    if unit != *small {
        let span = Span {
            start: unit_start,
            end: cursor.at,
        }
        .without_spaces(cursor.text);
        return Err((ParseCause::NotFeetThenInches, span));
    }
    cursor.skip_spaces();
    if !cursor.rest().is_empty() {
        let span = Span {
            start: cursor.at,
            end: rest_span.end,
        };
        return Err((ParseCause::TrailingText, span));
    }
    Ok((second.plus(first.value() * count).value(), unit))
}

/// A place in the text, always between two characters.
#[derive(Clone, Copy)]
struct Cursor<'t> {
    text: &'t str,
    at: usize,
}

impl<'t> Cursor<'t> {
    fn rest(&self) -> &'t str {
        self.text.get(self.at..).unwrap_or("")
    }

    fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    fn bump(&mut self) {
        self.at += self.peek().map_or(0, char::len_utf8);
    }

    /// Takes characters while `wanted`, and returns them.
    fn take(&mut self, wanted: impl Fn(char) -> bool) -> &'t str {
        let rest = self.rest();
        let length = rest.find(|c| !wanted(c)).unwrap_or(rest.len());
        self.at += length;
        rest.get(..length).unwrap_or("")
    }

    fn skip_spaces(&mut self) {
        self.take(char::is_whitespace);
    }

    fn digits(&mut self) -> &'t str {
        self.take(|c| c.is_ascii_digit())
    }

    fn span_from(&self, start: usize) -> Span {
        Span {
            start,
            end: self.at,
        }
    }
}
