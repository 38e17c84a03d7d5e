//! Units in and out.
//!
//! Inside, everything is SI in `f64`; a bare number never crosses a public boundary without a type
//! that says what it is. The types are our own newtypes rather than a units library: they cost no
//! compile time on four targets, need no standard library, and give an error message that a
//! fabricator can read. The `tests` crate checks every conversion against the `uom` crate.
//!
//! * [`quantities`] lists the quantities and their units; [`Quantity`] and [`Unit`] are what they share.
//! * [`parse()`] reads "12 5/8 in"; what does not read is a [`ParseError`] with the place in the text.
//! * [`print`] writes decimals by integer arithmetic, so that every machine prints the same and a
//!   gauge need not carry the general float printer.
//! * [`inch`] rounds to a fraction of an inch as a tape shows it.
//! * [`gauge`] gives the thickness behind a sheet gauge number.
//! * [`constant`] has standard gravity and the like.
//! * [`range`] is the one error for a value past its limit; [`Figure`] names what the calculations are given.
//!
//! ```
//! use seamwright_core::units::{Length, LengthUnit};
//!
//! let (length, unit) = Length::parse_with_unit("12 5/8 in")?;
//! assert_eq!(unit, LengthUnit::Inch);
//! assert_eq!(length.display(LengthUnit::Millimetre, 1).to_string(), "320.7 mm");
//!
//! let error = Length::parse("95 A").unwrap_err();
//! assert_eq!(error.to_string(), "A is a current, and a length is wanted here; use mm, cm, m, in or ft");
//! assert_eq!(error.span.of("95 A"), "A");
//! # Ok::<(), seamwright_core::units::ParseError>(())
//! ```

pub mod constant;
mod define;
mod figure;
pub mod flow;
pub mod gauge;
pub mod inch;
mod kind;
mod parse;
pub mod print;
pub mod quantities;
pub mod range;

#[cfg(test)]
mod tests;

pub use figure::Figure;
pub use inch::{FeetInches, InchFraction, InchStep};
pub use kind::{About, Quantity, Unit};
pub use parse::{ParseCause, ParseError, Span, parse, parse_with_unit};
pub use print::{Decimal, WithUnit};
pub use quantities::*;
