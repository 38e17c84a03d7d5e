//! The number before a unit: decimals, fractions, mixed numbers.

use super::{Cursor, Fault, ParseCause, Span};

/// How a number was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Form {
    Whole,
    Decimal,
    Fraction,
}

/// A number without its sign: `whole + numerator / denominator`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Number {
    whole: f64,
    numerator: f64,
    denominator: f64,
    pub(super) form: Form,
    pub(super) span: Span,
}

impl Number {
    /// The double nearest to it, or close by if its parts are above 2^53; infinite or not a number
    /// when they are too large.
    pub(super) fn value(&self) -> f64 {
        (self.whole * self.denominator + self.numerator) / self.denominator
    }

    /// With `more` added to the whole part.
    pub(super) fn plus(mut self, more: f64) -> Self {
        self.whole += more;
        self
    }
}

/// Fractions that are one character.
const VULGAR: [(char, f64, f64); 7] = [
    ('½', 1.0, 2.0),
    ('¼', 1.0, 4.0),
    ('¾', 3.0, 4.0),
    ('⅛', 1.0, 8.0),
    ('⅜', 3.0, 8.0),
    ('⅝', 5.0, 8.0),
    ('⅞', 7.0, 8.0),
];

fn vulgar(c: char) -> Option<(f64, f64)> {
    VULGAR
        .iter()
        .find(|(known, _, _)| *known == c)
        .map(|(_, numerator, denominator)| (*numerator, *denominator))
}

fn is_slash(c: char) -> bool {
    matches!(c, '/' | '⁄')
}

/// Whether a number can start with this.
pub(super) fn can_start(c: char) -> bool {
    c.is_ascii_digit() || c == '.' || vulgar(c).is_some()
}

/// Reads a number without a sign.
pub(super) fn read(cursor: &mut Cursor<'_>) -> Result<Number, Fault> {
    let number = one_number(cursor)?;
    refuse_second_number(*cursor, number.span, number.form)?;
    Ok(number)
}

fn one_number(cursor: &mut Cursor<'_>) -> Result<Number, Fault> {
    let start = cursor.at;
    if let Some((numerator, denominator)) = take_vulgar(cursor) {
        return Ok(fraction(
            cursor.span_from(start),
            0.0,
            numerator,
            denominator,
        ));
    }
    let (value, form) = decimal(cursor)?;
    let span = cursor.span_from(start);
    if form == Form::Whole
        && let Some(number) = fraction_after(cursor, start, value)?
    {
        return Ok(number);
    }
    Ok(Number {
        whole: value,
        numerator: 0.0,
        denominator: 1.0,
        form,
        span,
    })
}

fn fraction(span: Span, whole: f64, numerator: f64, denominator: f64) -> Number {
    Number {
        whole,
        numerator,
        denominator,
        form: Form::Fraction,
        span,
    }
}

fn take_vulgar(cursor: &mut Cursor<'_>) -> Option<(f64, f64)> {
    let found = cursor.peek().and_then(vulgar)?;
    cursor.bump();
    Some(found)
}

/// `12`, `12.5`, `.5`, `1.2e-3`.
fn decimal(cursor: &mut Cursor<'_>) -> Result<(f64, Form), Fault> {
    let start = cursor.at;
    let whole = cursor.digits();
    let mut form = Form::Whole;
    let mut decimals = "";
    if cursor.peek() == Some('.') {
        cursor.bump();
        decimals = cursor.digits();
        form = Form::Decimal;
    }
    if whole.is_empty() && decimals.is_empty() {
        cursor.take(|c| !c.is_whitespace());
        return Err((ParseCause::NotANumber, cursor.span_from(start)));
    }
    if cursor.peek() == Some(',') && form == Form::Whole {
        refuse_comma(cursor, start, whole)?;
    }
    let mut ahead = *cursor;
    if matches!(ahead.peek(), Some('e' | 'E')) {
        ahead.bump();
        if matches!(ahead.peek(), Some('-' | '+')) {
            ahead.bump();
        }
        if !ahead.digits().is_empty() {
            *cursor = ahead;
            form = Form::Decimal;
        }
    }
    Ok((value_of(cursor, start)?, form))
}

/// The value of the digits from `start` to the cursor.
fn value_of(cursor: &Cursor<'_>, start: usize) -> Result<f64, Fault> {
    let span = cursor.span_from(start);
    match span.of(cursor.text).parse::<f64>() {
        Ok(value) if value.is_finite() => Ok(value),
        Ok(_) => Err((ParseCause::TooLarge, span)),
        Err(_) => Err((ParseCause::NotANumber, span)),
    }
}

/// A comma between digits: the decimal comma, or one that parts the thousands.
fn refuse_comma(cursor: &mut Cursor<'_>, start: usize, whole: &str) -> Result<(), Fault> {
    cursor.bump();
    let decimals = cursor.digits();
    if decimals.is_empty() {
        return Err((ParseCause::NotANumber, cursor.span_from(start)));
    }
    let value = whole.parse().unwrap_or(f64::INFINITY);
    let tail: f64 = decimals.parse().unwrap_or(f64::INFINITY);
    let places = u8::try_from(decimals.len()).unwrap_or(u8::MAX);
    let scale = (0..places).fold(1.0, |scale, _| scale * 10.0);
    let cause = ParseCause::DecimalComma {
        value: value + tail / scale,
        places,
    };
    Err((cause, cursor.span_from(start)))
}

/// The rest of `5/8`, `12 5/8` or `12-5/8` after its first whole number.
fn fraction_after(
    cursor: &mut Cursor<'_>,
    start: usize,
    first: f64,
) -> Result<Option<Number>, Fault> {
    let mut ahead = *cursor;
    ahead.skip_spaces();
    if ahead.peek().is_some_and(is_slash) {
        let denominator = denominator(&mut ahead, start)?;
        *cursor = ahead;
        return Ok(Some(fraction(
            cursor.span_from(start),
            0.0,
            first,
            denominator,
        )));
    }
    let dashed = ahead.at == cursor.at && ahead.peek() == Some('-');
    if dashed {
        ahead.bump();
    }
    if let Some((numerator, denominator)) = take_vulgar(&mut ahead) {
        *cursor = ahead;
        return Ok(Some(fraction(
            cursor.span_from(start),
            first,
            numerator,
            denominator,
        )));
    }
    let fraction_start = ahead.at;
    if ahead.digits().is_empty() {
        return Ok(None);
    }
    let numerator = value_of(&ahead, fraction_start)?;
    ahead.skip_spaces();
    if !ahead.peek().is_some_and(is_slash) {
        return Ok(None);
    }
    let denominator = denominator(&mut ahead, fraction_start)?;
    if numerator >= denominator {
        return Err((
            ParseCause::ImproperFraction,
            ahead.span_from(fraction_start),
        ));
    }
    *cursor = ahead;
    Ok(Some(fraction(
        cursor.span_from(start),
        first,
        numerator,
        denominator,
    )))
}

/// The slash at the cursor and the number under it; `start` is where the fraction began.
fn denominator(cursor: &mut Cursor<'_>, start: usize) -> Result<f64, Fault> {
    cursor.bump();
    cursor.skip_spaces();
    let under = cursor.at;
    if cursor.digits().is_empty() {
        return Err((
            ParseCause::NotANumber,
            cursor.span_from(start).without_spaces(cursor.text),
        ));
    }
    let value = value_of(cursor, under)?;
    if value == 0.0 {
        Err((ParseCause::ZeroDenominator, cursor.span_from(under)))
    } else {
        Ok(value)
    }
}

/// After a number that is over: `12.5.3`, `12-5 mm`, `12 13 mm`, `12.5 5/8 in`.
fn refuse_second_number(mut ahead: Cursor<'_>, first: Span, form: Form) -> Result<(), Fault> {
    let starts = |c| can_start(c) || is_slash(c) || matches!(c, ',' | '-');
    let spaced = ahead.peek().is_some_and(char::is_whitespace);
    ahead.skip_spaces();
    if !ahead.peek().is_some_and(starts) {
        return Ok(());
    }
    let more = ahead.take(|c| starts(c) || c.is_whitespace());
    let has_fraction = more.contains(|c| is_slash(c) || vulgar(c).is_some());
    let cause = match form {
        Form::Decimal if has_fraction => ParseCause::FractionAfterDecimal,
        _ if spaced => ParseCause::TwoNumbers,
        _ => ParseCause::NotANumber,
    };
    Err((
        cause,
        ahead.span_from(first.start).without_spaces(ahead.text),
    ))
}
