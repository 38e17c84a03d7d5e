//! What all quantities share, for code that reads or prints any of them.

use core::fmt::Debug;

/// A quantity: a newtype over an SI `f64`.
pub trait Quantity: Copy + Debug + PartialOrd + 'static {
    /// The units in which it is read and written.
    type Unit: Unit;
    /// What a message says about it.
    const ABOUT: &'static About;

    /// From a number of `unit`.
    fn of(value: f64, unit: Self::Unit) -> Self;
    /// From a plain number in the SI unit.
    fn from_si(value: f64) -> Self;
    /// The plain number in the SI unit.
    fn si(self) -> f64;
    /// The number of `unit` that this is.
    fn in_unit(self, unit: Self::Unit) -> f64;
}

/// A unit of one quantity.
pub trait Unit: Copy + Debug + Eq + 'static {
    /// Every unit, the usual one first.
    const ALL: &'static [Self];
    /// Pairs written one after the other, and how many of the second make one of the first:
    /// 3 ft 2 in, with 12.
    const COMPOUNDS: &'static [(Self, Self, f64)];

    /// The symbol it is written with.
    fn symbol(self) -> &'static str;
    /// Other spellings under which it is read.
    fn aliases(self) -> &'static [&'static str];
    /// Whether the trade writes it with fractions: 5/8 in.
    fn takes_fractions(self) -> bool;
}

/// What a message says about a quantity.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub struct About {
    /// Its name with the article: "a length".
    pub what: &'static str,
    /// The symbols of its units, the usual one first.
    pub symbols: &'static [&'static str],
    /// Whether any of its units is written with fractions.
    pub fractions: bool,
}
