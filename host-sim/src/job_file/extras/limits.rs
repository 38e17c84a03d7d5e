//! Values within their limits.

use std::ops::Range;

use seamwright_core::units::Quantity;
use seamwright_core::units::range::Value as Shown;

use super::super::reader::{Reader, Section, called};
use crate::diagnostics::Problem;

/// A quantity within its limits, both allowed.
pub(in super::super) fn kept<'t, Q: Quantity + PartialOrd>(
    reader: &mut Reader<'t>,
    section: &Section<'t>,
    name: &str,
    (least, most): (Q, Q),
    shown: fn(Q) -> Shown,
) -> Option<Q> {
    let value: Q = reader.quantity(section, name)?;
    let limits = (shown(least).to_string(), shown(most).to_string());
    let past = (value < least, value > most);
    let span = section.place(name)?;
    within(
        reader,
        section,
        name,
        span,
        past,
        (shown(value).to_string(), limits),
    )?;
    Some(value)
}

/// Tells a value past its limits.
pub(super) fn within<'t>(
    reader: &mut Reader<'t>,
    section: &Section<'t>,
    name: &str,
    span: Range<usize>,
    (below, beyond): (bool, bool),
    (value, (least, most)): (String, (String, String)),
) -> Option<()> {
    let (how, limit) = match (below, beyond) {
        (true, _) => ("small", format!("at least {least}")),
        (_, true) => ("large", format!("at most {most}")),
        _ => return Some(()),
    };
    let called = called(&section.path_of(name));
    let unit = if value.contains(' ') {
        "; is the unit the one that you meant?"
    } else {
        ""
    };
    let problem = Problem::new(span, format!("{called} is too {how}"))
        .label(format!("{value}; it must be {limit}"))
        .help(format!("write {limit}{unit}"));
    reader.problem(problem);
    None
}

/// A number with a unit of its own, within limits in the first of its units.
pub(super) fn measured<'t>(
    reader: &mut Reader<'t>,
    section: &Section<'t>,
    name: &str,
    what: &str,
    units: &[(&str, f64)],
    (least, most): (f64, f64),
) -> Option<f64> {
    let value = reader.measure(section, name, what, units)?;
    let span = section.place(name)?;
    let unit = units.first().map_or("", |(unit, _)| unit);
    // A unit that is converted may miss a limit by its rounding.
    let past = (value < least * (1.0 - 1e-12), value > most * (1.0 + 1e-12));
    let show = |value: f64| format!("{} {unit}", (value * 1e3).round() / 1e3);
    within(
        reader,
        section,
        name,
        span,
        past,
        (show(value), (show(least), show(most))),
    )?;
    Some(value)
}
