//! The unit after a number: found, or the reason why not.

use super::super::{Quantity, Unit};
use super::number::{Form, Number};
use super::{Cursor, Fault, ParseCause, Span};
use crate::units as q;

/// A unit of some quantity: the symbol, and the quantity's name.
type Known = (&'static str, &'static str);

/// Every quantity's own search, so that "95 A" for a length can be told what it is.
const SEARCHES: [fn(&str) -> Option<Known>; 14] = [
    known::<q::Length>,
    known::<q::Area>,
    known::<q::Volume>,
    known::<q::Pressure>,
    known::<q::Temperature>,
    known::<q::Current>,
    known::<q::Voltage>,
    known::<q::Speed>,
    known::<q::Time>,
    known::<q::Angle>,
    known::<q::Ratio>,
    known::<q::Mass>,
    known::<q::LineEnergy>,
    known::<q::Energy>,
];

/// Names that are one size in the US and another in imperial measure.
const AMBIGUOUS: [(&[&str], &str, &str); 4] = [
    (&["gal", "gallon", "gallons"], "US gal", "imp gal"),
    (&["qt", "quart", "quarts"], "US qt", "imp qt"),
    (&["pt", "pint", "pints"], "US pt", "imp pt"),
    (
        &["fl oz", "floz", "fluid ounce", "fluid ounces"],
        "US fl oz",
        "imp fl oz",
    ),
];

/// Reads the unit of `number`.
pub(super) fn read<Q: Quantity>(
    cursor: &mut Cursor<'_>,
    number: &Number,
) -> Result<Q::Unit, Fault> {
    cursor.skip_spaces();
    let start = cursor.at;
    let rest = cursor.rest().trim_end();
    if rest.is_empty() {
        let end = number.span.end;
        return Err((ParseCause::MissingUnit, Span { start: end, end }));
    }
    let (unit, length) = match longest(rest, find::<Q::Unit>) {
        Some((unit, length)) if length == rest.len() || explain::<Q>(rest).is_none() => {
            (unit, length)
        }
        _ => return Err(unknown::<Q>(rest, start)),
    };
    cursor.at = start + length;
    if number.form == Form::Fraction && !unit.takes_fractions() {
        let cause = ParseCause::FractionNotUsual {
            value: number.value(),
            unit: unit.symbol(),
        };
        return Err((cause, number.span));
    }
    Ok(unit)
}

/// Why `rest` is no unit of this quantity.
fn unknown<Q: Quantity>(rest: &str, start: usize) -> Fault {
    if let Some((cause, length)) = longest(rest, explain::<Q>) {
        return (
            cause,
            Span {
                start,
                end: start + length,
            },
        );
    }
    let nearest = nearest::<Q::Unit>(rest);
    (
        ParseCause::UnknownUnit { nearest },
        Span {
            start,
            end: start + rest.len(),
        },
    )
}

/// What `name` is, if it is no unit of this quantity but known all the same.
fn explain<Q: Quantity>(name: &str) -> Option<ParseCause> {
    if let Some((_, us, imperial)) = AMBIGUOUS
        .iter()
        .find(|(names, _, _)| names.iter().any(|n| same(n, name)))
    {
        return Some(if Q::ABOUT.what == q::Volume::WHAT {
            ParseCause::AmbiguousUnit { us, imperial }
        } else {
            ParseCause::OtherQuantity {
                unit: us,
                what: q::Volume::WHAT,
            }
        });
    }
    let other = |known: &Known| known.1 != Q::ABOUT.what;
    let (unit, what) = SEARCHES
        .iter()
        .find_map(|search| search(name).filter(other))?;
    Some(ParseCause::OtherQuantity { unit, what })
}

/// The unit of one quantity that is written `name`.
fn find<U: Unit>(name: &str) -> Option<U> {
    let named = |unit: &U| {
        same(unit.symbol(), name) || unit.aliases().iter().any(|alias| same(alias, name))
    };
    U::ALL.iter().copied().find(named)
}

fn known<Q: Quantity>(name: &str) -> Option<Known> {
    find::<Q::Unit>(name).map(|unit| (unit.symbol(), Q::ABOUT.what))
}

/// Equal, with any run of spaces as good as one.
fn same(known: &str, written: &str) -> bool {
    known.split_whitespace().eq(written.split_whitespace())
}

/// The longest beginning of `rest`, up to the end of a word, of which `find` knows something.
fn longest<T>(rest: &str, find: impl Fn(&str) -> Option<T>) -> Option<(T, usize)> {
    let ends = rest
        .char_indices()
        .map(|(at, _)| at)
        .skip(1)
        .chain([rest.len()]);
    let mut found = None;
    for end in ends {
        let Some((name, after)) = rest.split_at_checked(end) else {
            continue;
        };
        let word_goes_on = |c: char| c.is_alphabetic() || matches!(c, '/' | '²' | '³' | '₂');
        let inside_word =
            name.ends_with(|c: char| c.is_alphanumeric()) && after.starts_with(word_goes_on);
        if inside_word || name.ends_with(char::is_whitespace) {
            continue;
        }
        if let Some(known) = find(name) {
            found = Some((known, end));
        }
    }
    found
}

/// The symbol of the unit whose spelling is nearest to `written`, if any is near enough.
fn nearest<U: Unit>(written: &str) -> Option<&'static str> {
    let length = written.chars().count();
    let spellings = U::ALL.iter().flat_map(|unit| {
        [unit.symbol()]
            .into_iter()
            .chain(unit.aliases().iter().copied())
            .map(|s| (unit.symbol(), s))
    });
    let measured =
        spellings.filter_map(|(symbol, spelling)| distance(written, spelling).map(|d| (d, symbol)));
    let (distance, symbol) = measured.min_by_key(|(distance, _)| *distance)?;
    (distance <= 2 && distance < length).then_some(symbol)
}

/// How many letters must be put in, left out or changed, whatever their case; `None` if `written`
/// is longer than any unit.
fn distance(written: &str, spelling: &str) -> Option<usize> {
    const LONGEST: usize = 24;
    if written.chars().count() > LONGEST {
        return None;
    }
    // The row of Levenshtein's table for the letters of `spelling` so far.
    let mut row: [usize; LONGEST] = core::array::from_fn(|column| column + 1);
    let mut result = written.chars().count();
    for (above_left, letter) in spelling.chars().enumerate() {
        let mut diagonal = above_left;
        let mut left = above_left + 1;
        for (cell, other) in row.iter_mut().zip(written.chars()) {
            let changed = diagonal + usize::from(!letter.eq_ignore_ascii_case(&other));
            diagonal = *cell;
            *cell = changed.min(*cell + 1).min(left + 1);
            left = *cell;
        }
        result = left;
    }
    Some(result)
}
