//! Why a tank cannot be weighed, or its mounts cannot bear it.

use core::fmt;

use crate::tables::LiquidError;
use crate::units::range::{OutOfRange, RangeError};

/// Why a tank cannot be weighed, or its mounts cannot bear it.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "defmt", derive(defmt::Format))]
pub enum BalanceError {
    /// A figure past its limits: a mass, a coordinate, the number of mounts.
    Range(RangeError),
    /// The liquid has no density at its temperature.
    Liquid(LiquidError),
    /// More than the tank holds, or less than nothing.
    Fill(OutOfRange),
    /// The tank has no mass.
    NoMass,
    /// All mounts lie on one line, about which nothing keeps the tank from tipping.
    OneLine,
}

impl From<RangeError> for BalanceError {
    fn from(error: RangeError) -> Self {
        Self::Range(error)
    }
}

impl From<LiquidError> for BalanceError {
    fn from(error: LiquidError) -> Self {
        Self::Liquid(error)
    }
}

impl From<OutOfRange> for BalanceError {
    fn from(error: OutOfRange) -> Self {
        Self::Fill(error)
    }
}

impl fmt::Display for BalanceError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Range(error) => error.fmt(f),
            Self::Liquid(error) => error.fmt(f),
            Self::Fill(error) => error.fmt(f),
            Self::NoMass => f.write_str("the tank has no mass"),
            Self::OneLine => f.write_str(
                "the mounts lie on one line, and the tank would tip about it: set one beside the line",
            ),
        }
    }
}

impl core::error::Error for BalanceError {}
